import {
  type LineMeeting,
  type Neighbour,
  type Neighbours,
  LINES_MEET,
  MISS_HINT,
  MISS_WARNING,
  beyondEase,
  isImageOf,
  sameEdge,
  sameMeeting,
} from '../../neighbours';
import { formatLength } from '../../pattern';

/** Seams worth a row: those of a pair's two copies or of two like halves once, and none that joins an edge to itself. */
export function seamRows({ seams, wholes }: Neighbours): readonly Neighbour[] {
  const alike = (a: Neighbour, b: Neighbour): boolean =>
    isImageOf(wholes, a.join, b.join) &&
    a.meetings.length === b.meetings.length &&
    a.meetings.every((m) => b.meetings.some((o) => sameMeeting(o, m) && Math.abs(o.mm - m.mm) < LINES_MEET));
  return seams.filter(
    (seam, i) =>
      !sameEdge(seam.join.a, seam.join.b) && !seams.slice(0, i).some((earlier) => alike(earlier, seam)),
  );
}

/** The name of a seam, `side seam`, and its pieces, `front and back`. */
export function nameSeam({ join }: Neighbour, { wholes }: Neighbours): { seam: string; pieces: string } {
  const [a, b] = [wholes.get(join.a.piece)!, wholes.get(join.b.piece)!];
  const [edgeA, edgeB] = [a.edges[join.a.edge]!.plainName, b.edges[join.b.edge]!.plainName];
  return {
    seam: edgeA === edgeB ? edgeA : `${edgeA}, ${edgeB}`,
    pieces: a === b ? a.name : `${a.name} and ${b.name}`,
  };
}

/** Tenths of a millimetre, as seams are compared in. */
export const inMm = (mm: number): string => formatLength(Math.abs(mm), 'mm');

/** `0`, `12 mm longer`: b against a. */
export function sayDifference({ walk }: Neighbour): string {
  return Math.abs(walk.difference) < LINES_MEET ? 'none' : inMm(walk.difference);
}

/** `none`, `to 24 mm`. */
export function sayEase({ walk: { ease } }: Neighbour): string {
  const most = Math.max(ease.most, -ease.least);
  return most === 0 ? 'none' : `to ${most} mm`;
}

export type Tone = 'good' | 'hint' | 'warning' | 'error';

const toneOf = (mm: number, good: number): Tone =>
  mm < good ? 'good' : mm <= MISS_HINT ? 'hint' : mm <= MISS_WARNING ? 'warning' : 'error';

/** How far a miss is to be worried about. */
export const toneOfMiss = ({ mm }: LineMeeting): Tone => toneOf(mm, LINES_MEET);

/** Lengths that differ within what is meant are well. */
export function toneOfLengths(seam: Neighbour): Tone {
  const beyond = beyondEase(seam);
  return beyond <= MISS_HINT ? 'good' : beyond <= MISS_WARNING ? 'hint' : 'warning';
}
