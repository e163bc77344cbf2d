import { JOIN_GAP, distance, endOf, nearestOnPath, startOf } from '../../geometry';
import {
  type DartTreatment,
  type Design,
  type LineId,
  type PanelLine,
  type Piece,
  type PieceId,
  type PlacedDart,
  type Remainder,
  dartPoints,
  openedPiece,
} from '../../pattern';
import { endsInDart, passagesThrough } from './passage';
import { routeThrough } from './routeThrough';
import { layAnew, treatDart } from './treatDart';

/** A line this near to a dart's point can take the dart, mm (1 in; a dart lesson after a college text, the digit from memory). */
export const TAKES_DART_WITHIN = 25;
/** The most that is eased in over a few cm without showing, mm. Common practice, no source. */
export const MOST_EASE = 6;

interface AnyChoice {
  /** Tells the choices of one dart apart. */
  readonly key: string;
  readonly apply: (design: Design) => Design;
}

/** A panel line takes the dart: it runs through it already, or is led `aside` (mm) to run through the point. */
export interface LineChoice extends AnyChoice {
  readonly kind: 'through' | 'swallow';
  readonly line: LineId;
  readonly aside: number;
  /** What becomes of the end beyond the line; null when nothing is left there. */
  readonly remainder: Remainder | null;
}

/** Something that can be done with a dart. */
export type DartChoice = (AnyChoice & { readonly kind: 'keep' }) | LineChoice | SwingChoice;

/** The dart, or a share of it, goes to another place, named in words. */
export interface SwingChoice extends AnyChoice {
  readonly kind: 'swing';
  readonly place: string;
  readonly share: number;
}

/** The dart as it lies on the whole piece, on its traced side first. */
export const placedDarts = (design: Design, piece: Piece, traced: number): readonly PlacedDart[] =>
  openedPiece(piece, design)
    .whole.darts.filter((d) => d.traced === traced)
    .toSorted((a, b) => Number(a.mirrored) - Number(b.mirrored));

interface Near {
  readonly line: PanelLine;
  readonly dart: PlacedDart;
  readonly aside: number;
}

/** How a line stands to a dart, on the side where it comes nearer. */
function nearest(line: PanelLine, darts: readonly PlacedDart[]): Near | null {
  const offers = darts.map((dart): Near => {
    const gaps = dartPoints(dart).map((p) => nearestOnPath(line.path, p).distance);
    return { line, dart, aside: dart.kind === 'single' ? gaps[0]! : Math.max(...gaps) };
  });
  return offers.toSorted((a, b) => a.aside - b.aside)[0] ?? null;
}

/** A dart that was swung is swallowed where it is now. */
const swallowed = (now: DartTreatment, remainder: Remainder): DartTreatment =>
  now.kind === 'swing'
    ? { ...now, parts: now.parts.map((p) => ({ ...p, close: remainder })) }
    : { kind: 'close', remainder };

const swallowing =
  (piece: PieceId, traced: number, remainder: Remainder) =>
  (design: Design): Design => {
    const now = design.pieces.find((p) => p.id === piece)?.darts[traced]?.treatment;
    return now ? treatDart(design, piece, traced, swallowed(now, remainder)) : design;
  };

/** Whether a line stops at a single dart's point: it must run on down the dart to be sewn. */
const stopsAtPoint = ({ line, dart }: Near): boolean =>
  dart.kind === 'single' &&
  [startOf(line.path), endOf(line.path)].some((p) => distance(p, dart.point) <= JOIN_GAP);

/** The line runs through the point already, or right through the dart: it takes what it cuts off. */
function swallowChoices(piece: PieceId, traced: number, near: Near): LineChoice[] {
  const { line, dart, aside } = near;
  if (stopsAtPoint(near)) return [];
  const isThrough = aside <= JOIN_GAP;
  const crosses = dart.kind === 'single' && passagesThrough(line.path, dart).length > 0;
  if (!isThrough && !crosses) return [];
  const remainders: readonly Remainder[] = isThrough ? ['ease'] : ['ease', 'dart'];
  return remainders.map((remainder): LineChoice => ({
    key: `swallow ${line.id} ${remainder}`,
    kind: 'swallow',
    line: line.id,
    aside,
    remainder: isThrough ? null : remainder,
    apply: swallowing(piece, traced, remainder),
  }));
}

/** The line passes near the point, or ends in the dart: it is led through the point. */
function throughChoices(design: Design, piece: Piece, traced: number, near: Near): LineChoice[] {
  const { line, dart, aside } = near;
  const isNear = aside > JOIN_GAP && aside <= TAKES_DART_WITHIN;
  const crosses = passagesThrough(line.path, dart).length > 0 || endsInDart(line.path, dart);
  if (!isNear && !(crosses && aside > JOIN_GAP) && !stopsAtPoint(near)) return [];
  const { stitching } = openedPiece(piece, design).whole;
  return [
    {
      key: `through ${line.id}`,
      kind: 'through',
      line: line.id,
      aside,
      remainder: null,
      apply: (now) =>
        swallowing(piece.id, traced, 'ease')(layAnew(now, line.id, routeThrough(line.path, dart, stitching))),
    },
  ];
}

/** Everything that can sensibly be done with one traced dart of a piece, as the design is now; keeping it comes first. */
export function dartChoices(design: Design, piece: PieceId, traced: number): readonly DartChoice[] {
  const own = design.pieces.find((p) => p.id === piece);
  if (!own?.darts[traced]) return [];
  const darts = placedDarts(design, own, traced);
  const keep: DartChoice = {
    key: 'keep',
    kind: 'keep',
    apply: (now) => treatDart(now, piece, traced, { kind: 'keep' }),
  };
  const byLine = design.lines
    .filter((line) => line.piece === piece && line.path.length > 0)
    .flatMap((line) => nearest(line, darts) ?? [])
    .toSorted((a, b) => a.aside - b.aside);
  return [
    keep,
    ...byLine.flatMap((near) => [
      ...swallowChoices(piece, traced, near),
      ...throughChoices(design, own, traced, near),
    ]),
  ];
}
