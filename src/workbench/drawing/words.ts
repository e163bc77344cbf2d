import { endOf, startOf } from '../../geometry';
import { findEdge } from '../../lines';
import { formatLength, type PanelLine, type Units, type WholePiece } from '../../pattern';
import { levelWord } from './catchField';
import { runOfPath, measuresAt, type Measured, type Reference } from './measure';
import { isStraight } from './moveLine';

/** Below this, mm, a line is said to lie on its reference. */
const ON_IT = 0.05;

/** What a distance is measured from, in words: `waist level`, `the centre`, `side seam, from the hem`. */
export function sayReference(reference: Reference, whole: WholePiece): string {
  if (reference.kind === 'level') return levelWord(reference.name);
  if (reference.kind === 'centre') return 'the centre';
  const edge = findEdge(whole, reference) ?? 0;
  const count = whole.edges.length;
  const beside = whole.edges[(edge + (reference.end === 'first' ? count - 1 : 1)) % count];
  const own = whole.edges[edge]?.name ?? reference.name;
  return count < 2 || !beside ? own : `${own}, from ${beside.name}`;
}

/** `4.5 cm below waist level`, `on waist level`, `6 cm from the centre`, `12 cm along side seam, from the hem`. */
export function sayMeasured({ reference, distance, way }: Measured, whole: WholePiece, units: Units): string {
  const place = sayReference(reference, whole);
  if (reference.kind === 'edge end') return `${formatLength(distance, units)} along ${place}`;
  if (distance < ON_IT) return `on ${place}`;
  return reference.kind === 'centre'
    ? `${formatLength(distance, units)} from ${place}`
    : `${formatLength(distance, units)} ${way} ${place}`;
}

/** A line for a list: `across the grain, 4.5 cm below waist level`. */
export function describeLine(line: PanelLine, whole: WholePiece, units: Units): string {
  if (line.path.length === 0) return 'empty';
  const run = runOfPath(whole, line.path);
  const manner = isStraight(line.path) ? run : 'curved';
  const start = measuresAt(whole, startOf(line.path), run)[0];
  const end = measuresAt(whole, endOf(line.path), run)[0];
  const place = start ?? end;
  return place ? `${manner}, ${sayMeasured(place, whole, units)}` : manner;
}

/** `1 line`, `3 lines`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** A sentence or a title begins with a capital. */
export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
