import type { LineMeeting, Neighbour } from '../../neighbours';
import { type Problem, problem, remember } from '../../pattern';
import type { Garment } from '../garment';
import { MOST_LAYERS, type Strip, layersAt, movedBy, stackOf } from './layers';
import { lying, nestOver } from './nestOver';
import { widthAlong } from './widths';

/** Seams between pieces that are pressed to one side; all others are pressed open. Sources: see tellJoin's way of pressing. */
const TO_ONE_SIDE = ['shoulder', 'waist', 'armhole'];

/** Most layers where two panel seams meet over a seam between pieces, square to it; and if all were pressed open. */
export function layersOver(
  garment: Garment,
  n: Neighbour,
  meeting: LineMeeting,
): { readonly most: number; readonly allOpen: number } {
  const width = Math.max(widthAlong(garment, n.join.a), 0.1);
  const nests = nestOver(garment, n, meeting);
  const strip = (towards: Strip['towards']): Strip => ({ right: [1, 0], width, towards });
  const a = strip(lying(garment, meeting.a) ? 1 : 0);
  const b = strip(lying(garment, meeting.b) ? (nests ? -1 : 1) : 0);
  const through: Strip = {
    right: [0, 1],
    width,
    towards: n.join.role && TO_ONE_SIDE.includes(n.join.role) ? 1 : 0,
  };
  const count = (left: Strip, right: Strip, over: Strip): number => stackOf([left], [right], over, [1, 0]);
  return { most: count(b, a, through), allOpen: count(strip(0), strip(0), { ...through, towards: 0 }) };
}

/** Hints where too many layers lie over one another, within pieces and where panel seams meet over outer seams, with what helps. */
export const layerHints = remember((garment: Garment): readonly Problem[] => {
  const within = layersAt(garment)
    .filter((l) => l.most > MOST_LAYERS)
    .map((l) => {
      const { whole } = garment.pieceById.get(l.piece)!;
      const lines = [
        ...new Set([l.through, ...l.enders].flatMap((r) => r.seams.map((s) => s.seam.line.label))),
      ];
      const facts = { lines, layers: l.most, open: l.allOpen, apart: movedBy(garment, l) };
      return problem('many-layers', facts, whole.name, l.at);
    });
  const over = garment.neighbours.seams.flatMap((n) =>
    n.meetings.flatMap((m) => {
      const { most, allOpen } = layersOver(garment, n, m);
      if (most <= MOST_LAYERS) return [];
      const { whole } = garment.pieceById.get(m.a.piece)!;
      const lines = [...new Set([m.a.label, m.b.label])];
      const apart = Math.ceil((2 * widthAlong(garment, n.join.a)) / 5) * 5;
      return [problem('many-layers', { lines, layers: most, open: allOpen, apart }, whole.name, m.a.at)];
    }),
  );
  return [...within, ...over];
});
