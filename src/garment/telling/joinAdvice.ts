import type { EdgeRole, Neighbour } from '../../neighbours';
import type { Garment } from '../garment';
import { MOST_LAYERS } from './layers';
import { layersOver } from './layersOver';
import { sides } from './meetingWords';
import { numbersOf } from './names';
import { lengthOffGrain } from './offGrain';
import { outerEdgesOf } from './outerEdges';
import type { TellingPart, Topic } from './stepTelling';

const part = (topic: Topic, text: string): TellingPart => ({ topic, text });

/** More layers than this are worth a word: two seams pressed to one side that meet at one pressed open. */
const MANY = 6;
/** How a seam between pieces is pressed. Shoulder to the back, waist up, the rest open: fabricatedcloset.com (n.d.); armhole: common practice. */
const PRESS: Readonly<Partial<Record<EdgeRole, string>>> = {
  shoulder: 'both allowances towards the back',
  waist: 'both allowances up',
  armhole: 'both allowances into the sleeve, only up to the stitching',
};

/** Ids of facings' pieces: their seams lie open, so that they are no thicker than they must be. Common practice, no source. */
const FACING = / facing( \d+)?$/;

/** How the allowances of a step's seams are pressed, in a sentence. */
export function pressText(ns: readonly Neighbour[]): string {
  if (ns.every((n) => FACING.test(n.join.a.piece))) return 'Press the allowances open.';
  const roles = [...new Set(ns.map((n) => n.join.role))];
  const words = roles.map((role) => {
    const how = (role && PRESS[role]) ?? 'the allowances open';
    return roles.length > 1 && role ? `${role}: ${how}` : how;
  });
  const isOne = new Set(roles.map((role) => (role && PRESS[role]) ?? '')).size === 1;
  return `Press ${isOne ? (PRESS[roles[0] ?? 'hem'] ?? 'the allowances open') : words.join('; ')}.`;
}

/** Where many layers come together over these seams. */
export function layerParts(garment: Garment, ns: readonly Neighbour[]): TellingPart[] {
  const all = ns.flatMap((n) => n.meetings.map((m) => layersOver(garment, n, m)));
  const most = Math.max(0, ...all.map((l) => l.most));
  if (most <= MANY) return [];
  const cure = most > MOST_LAYERS ? ', or press the panel seams open near this seam' : '';
  return [
    part(
      'layers',
      `${most} layers of cloth lie over one another where panel seams meet: sew slowly over them and trim the allowances in steps${cure}.`,
    ),
  ];
}

/** A shoulder, or another edge that hangs, is held with tape where it runs off the grain; armholes and necklines were stay-stitched. */
export function grainParts(garment: Garment, n: Neighbour): TellingPart[] {
  if (n.join.role === 'armhole') return [];
  const found = (['a', 'b'] as const).map((which) => {
    const { grain } = garment.neighbours.wholes.get(n.join[which].piece)!;
    const off = outerEdgesOf(garment, n.join[which]).filter(
      ({ edge }) => lengthOffGrain(edge.path, grain) > 0,
    );
    return { side: which, panels: [...new Set(off.map((o) => o.panel.id))] };
  });
  const panels = [...new Set(found.flatMap((f) => f.panels))];
  if (panels.length === 0) return [];
  return [
    part(
      'grain',
      `The ${sides(garment, n).edgeA} of ${numbersOf(garment, panels)} runs off the grain and stretches easily: sew a narrow stay-tape, or a strip of selvedge, in with the seam, and do not pull.`,
    ),
  ];
}
