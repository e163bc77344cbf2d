import { type Neighbour, type SeamStretch, acrossToB, isImageOf, sameEdge } from '../../neighbours';
import { type Pt, endOf, nearestOnPath, startOf } from '../../geometry';
import { sewnEdge, sewnLengthAt } from '../../pattern';
import type { Panel } from '../../panels';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { outerEdgesOf } from './outerEdges';

/** The seams between pieces that a step sews; those of the other body side, where all is alike, are left out. */
export function joinsOfStep(
  { neighbours }: Pick<Garment, 'neighbours'>,
  { edges }: Step,
): readonly Neighbour[] {
  const own = neighbours.seams.filter(({ join }) =>
    [join.a, join.b].every((side) => edges.some((e) => sameEdge(e, side))),
  );
  return own.filter((n, i) => !own.slice(0, i).some((m) => isImageOf(neighbours.wholes, n.join, m.join)));
}

/** All seams between pieces that a step sews whose like is `n`: itself, and that of the other body side. */
export const withImages = (
  { neighbours: { seams, wholes } }: Pick<Garment, 'neighbours'>,
  n: Neighbour,
): readonly Neighbour[] => seams.filter((m) => m === n || isImageOf(wholes, n.join, m.join));

/** Two panels that come to lie on each other along a seam, from the agreed end, mm along b. */
export interface PanelMeeting {
  readonly a: Panel;
  readonly b: Panel;
  readonly from: number;
  readonly to: number;
}

interface Along {
  readonly panel: Panel;
  readonly from: number;
  readonly to: number;
}

/** Panels along one side of a seam with where they begin and end, as lengths on b from the agreed end. */
function panelsAlong(garment: Garment, n: Neighbour, which: 'a' | 'b'): Along[] {
  const side = n.join[which];
  const sewn = sewnEdge(garment.neighbours.wholes.get(side.piece)!, side.edge);
  const beginsLast = which === 'a' ? n.join.beginsLast : n.join.beginsLast !== n.join.reversed;
  // a cap's one edge is shared by two seams: what lies beyond this one is left out
  const onB = (p: Pt): number => {
    const own = Math.min(side.to, Math.max(side.from, sewnLengthAt(sewn, nearestOnPath(sewn.path, p))));
    const s = beginsLast ? side.to - own : own - side.from;
    return which === 'a' ? acrossToB(n.walk, s) : s;
  };
  return outerEdgesOf(garment, side)
    .map(({ panel, edge }): Along => {
      const ends = [onB(startOf(edge.path)), onB(endOf(edge.path))];
      return { panel, from: Math.min(...ends), to: Math.max(...ends) };
    })
    .sort((p, q) => p.from - q.from);
}

/** Shorter than this, mm, two panels do not really lie on each other: line ends that just miss. */
const TOO_SHORT = 4;

/** Which panels come to lie on which, from the agreed end on. */
export function panelMeetings(garment: Garment, n: Neighbour): readonly PanelMeeting[] {
  const [a, b] = [panelsAlong(garment, n, 'a'), panelsAlong(garment, n, 'b')];
  return a
    .flatMap((p) =>
      b.map((q) => ({ a: p.panel, b: q.panel, from: Math.max(p.from, q.from), to: Math.min(p.to, q.to) })),
    )
    .filter((m) => m.to - m.from > TOO_SHORT)
    .sort((p, q) => p.from - q.from);
}

/** A match mark between the ends of a seam: how far from the agreed end along a, mm, and how many strokes it has. */
export interface JoinNotch {
  readonly at: number;
  readonly marks: number;
}

/** Strokes nearer to each other than this along the edge are one double notch, mm (common practice, no source: 6 to 13 mm). */
const ONE_NOTCH = 20;

/** Notches on both sides of a seam, close strokes taken together. */
export function joinNotches({ walk }: Neighbour): readonly JoinNotch[] {
  const out: { at: number; marks: number; last: number }[] = [];
  for (const { toA } of walk.stretches.slice(0, -1)) {
    const open = out.at(-1);
    if (open && toA - open.last < ONE_NOTCH) [open.marks, open.last] = [open.marks + 1, toA];
    else out.push({ at: toA, marks: 1, last: toA });
  }
  return out.map(({ at, marks }) => ({ at, marks }));
}

/** A difference of length smaller than this is not worth a word, mm: it disappears in the pinning. */
const WORTH_EASING = 1;

/** Stretches where one side is longer than the other, and by how much: a over b. */
export const easedStretches = ({
  walk,
}: Neighbour): readonly { index: number; stretch: SeamStretch; by: number }[] =>
  walk.stretches
    .map((stretch, index) => ({
      index,
      stretch,
      by: stretch.toA - stretch.fromA - (stretch.toB - stretch.fromB),
    }))
    .filter(({ by }) => Math.abs(by) > WORTH_EASING);
