import { distance, endOf, startOf, MOVED_END } from '../../geometry';
import type { LineEnd, Neighbour } from '../../neighbours';
import type { PanelId, Seam } from '../../panels';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { type PanelMeeting, panelMeetings, withImages } from './joinWalks';
import { listed, numbersOf, pieceName } from './names';

/** A notch this far beyond the panels in hand still belongs to them, mm. */
const BEYOND = 1;

/** Whether panels are among those that a step has in hand: a seam sewn in parts, with a band in the round, has some of them. */
export const isInHand = ({ joins }: Step, panels: readonly PanelId[]): boolean => {
  const all = joins.flat();
  return all.length === 0 || panels.every((p) => all.includes(p));
};

/** Panel seams that end where a line ends on an outer edge. */
export const seamsAt = ({ seams }: Pick<Garment, 'seams'>, { piece, line, at }: LineEnd): readonly Seam[] =>
  seams.filter(
    (s) =>
      s.piece === piece &&
      s.line.line === line &&
      s.path.length > 0 &&
      [startOf(s.path), endOf(s.path)].some((p) => distance(p, at) < MOVED_END),
  );

/** Whether panel seams are sewn before a step and lie in what it has in hand. */
export const isSewnBy = ({ plan }: Pick<Garment, 'plan'>, step: Step, seams: readonly Seam[]): boolean =>
  seams.every((s) => (plan.stepOfSeam.get(s.id) ?? 0) < step.step && isInHand(step, [s.a, s.b]));

/** Panels on either side of the seam that ends at a line's end, on both body sides: `2, 3 and 4`. */
export function panelsOfSeams(garment: Garment, n: Neighbour, end: LineEnd): string {
  const ends = withImages(garment, n)
    .flatMap((m) => m.meetings.flatMap(({ a, b }) => [a, b]))
    .filter((e) => e.piece === end.piece && e.line === end.line);
  const panels = [end, ...ends].flatMap((e) => seamsAt(garment, e).flatMap((s) => [s.a, s.b]));
  const numbers = [...new Set(panels.flatMap((p) => garment.plan.numbers.get(p) ?? []))];
  return numbers.length > 0 ? listed(numbers.toSorted((p, q) => p - q).map(String)) : `line ${end.label}`;
}

/** `12 on 3 and 5`: which panels lie on which, those that lie on several told once. */
export function pairWords(garment: Garment, pairs: readonly PanelMeeting[]): string[] {
  const groups: { b: PanelId; on: PanelId[] }[] = [];
  for (const { a, b } of pairs) {
    const last = groups.at(-1);
    if (last?.b === b.id) last.on.push(a.id);
    else groups.push({ b: b.id, on: [a.id] });
  }
  const number = (id: PanelId): string => numbersOf(garment, [id]);
  return groups.map(({ b, on }) => `${number(b)} on ${listed([...new Set(on.map(number))])}`);
}

/** Whether a length from the agreed end lies on what a step has in hand of a seam. */
export function reachOf(garment: Garment, step: Step, n: Neighbour): (at: number) => boolean {
  const all = panelMeetings(garment, n);
  const own = all.filter((p) => isInHand(step, [p.a.id, p.b.id]));
  if (own.length === all.length) return () => true;
  const from = Math.min(...own.map((p) => p.from)) - BEYOND;
  const to = Math.max(...own.map((p) => p.to)) + BEYOND;
  return (at) => at > from && at < to;
}

/** The pieces of a seam, and its edges where pieces alone do not say enough. */
export function sides(
  garment: Garment,
  { join }: Neighbour,
): { a: string; b: string; edgeA: string; edgeB: string } {
  const { wholes } = garment.neighbours;
  const edge = (side: Neighbour['join']['a']): string => wholes.get(side.piece)!.edges[side.edge]!.plainName;
  return {
    a: pieceName(garment, join.a.piece),
    b: pieceName(garment, join.b.piece),
    edgeA: edge(join.a),
    edgeB: edge(join.b),
  };
}
