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
import { formatLength, type Units } from '../../pattern';

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

/** Half of the finest mark on an inch rule, mm: less than this would read as nothing. */
const LEAST_IN_INCHES = 25.4 / 32;

/** Tenths of a millimetre, as seams are compared in; to 1/16 where the user works in inches. */
export function sayMiss(mm: number, units: Units): string {
  if (units !== 'in') return formatLength(Math.abs(mm), 'mm');
  return Math.abs(mm) < LEAST_IN_INCHES ? 'under 1/16 in' : formatLength(Math.abs(mm), 'in');
}

/** `none`, `12 mm`: b against a. */
export function sayDifference({ walk }: Neighbour, units: Units): string {
  return Math.abs(walk.difference) < LINES_MEET ? 'none' : sayMiss(walk.difference, units);
}

/** `none`, `to 24 mm`. */
export function sayEase({ walk: { ease } }: Neighbour, units: Units): string {
  const most = Math.max(ease.most, -ease.least);
  return most === 0 ? 'none' : `to ${sayMiss(most, units)}`;
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
