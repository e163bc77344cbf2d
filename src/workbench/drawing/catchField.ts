import {
  crossStraight,
  distance,
  endOf,
  startOf,
  subtract,
  unit,
  type Line,
  type Path,
  type Pt,
} from '../../geometry';
import type { LaidLine, PanelledPiece } from '../../panels';
import type { LineId, WholePiece } from '../../pattern';

/** What a drawn end can catch on. */
export type CatchKind =
  'corner' | 'notch' | 'dart' | 'line end' | 'level' | 'centre' | 'edge' | 'line' | 'square' | 'cheap';

/** A spot that catches, with the word shown beside it. */
export interface CatchSpot {
  readonly at: Pt;
  readonly kind: CatchKind;
  readonly word: string;
}

/** A curve that catches anywhere along it. */
export interface CatchCurve {
  readonly path: Path;
  readonly kind: 'level' | 'centre' | 'edge' | 'line';
  readonly word: string;
  /** Straight ones run on without end: levels and the centre do, edges and lines do not. */
  readonly straight: { readonly origin: Pt; readonly direction: Pt } | null;
}

/** Everything on one piece that an end can catch on. Coordinates as traced, mm. */
export interface CatchField {
  readonly spots: readonly CatchSpot[];
  readonly curves: readonly CatchCurve[];
}

const endless = ([a, b]: Line): { origin: Pt; direction: Pt } => ({
  origin: a,
  direction: unit(subtract(b, a)),
});

/** Corners of the stitching outline: where one edge ends and the next begins. */
function corners({ stitching, edgeOf }: WholePiece): CatchSpot[] {
  return stitching.flatMap((curve, i): CatchSpot[] => {
    const before = edgeOf[(i + stitching.length - 1) % stitching.length];
    return before === edgeOf[i] ? [] : [{ at: curve[0], kind: 'corner', word: 'corner' }];
  });
}

function traced({ notches, darts }: WholePiece): CatchSpot[] {
  const spots: CatchSpot[] = notches.map(({ at }) => ({ at, kind: 'notch', word: 'notch' }));
  for (const dart of darts) {
    if (dart.kind === 'single') {
      spots.push({ at: dart.point, kind: 'dart', word: 'dart point' });
      for (const at of dart.mouth) spots.push({ at, kind: 'dart', word: 'dart leg' });
    } else {
      spots.push(
        { at: dart.points[0], kind: 'dart', word: 'dart point' },
        { at: dart.points[2], kind: 'dart', word: 'dart point' },
      );
    }
  }
  return spots;
}

/** Names as a person says them: `Waist` and `waist level` both give `waist level`. */
export const levelWord = (name: string): string =>
  (/level$/i.test(name) ? name : `${name} level`).toLowerCase();

const sameLevel = (a: CatchCurve, b: CatchCurve): boolean =>
  a.straight !== null && b.straight !== null && distance(a.path[0]![0], b.path[0]![0]) < 0.01;

function curvesOf(whole: WholePiece, lines: readonly LaidLine[]): CatchCurve[] {
  const levels = whole.levels
    .map(({ name, line }): CatchCurve => ({
      path: [line],
      kind: 'level',
      word: levelWord(name),
      straight: endless(line),
    }))
    .filter(
      (level, i, all) => all.findIndex((other) => other.word === level.word || sameLevel(other, level)) === i,
    );
  const centre: CatchCurve[] = whole.foldLine
    ? [{ path: [whole.foldLine], kind: 'centre', word: 'centre', straight: endless(whole.foldLine) }]
    : [];
  return [
    { path: whole.stitching, kind: 'edge', word: 'edge', straight: null },
    ...lines.map(({ path }): CatchCurve => ({ path, kind: 'line', word: 'line', straight: null })),
    ...levels,
    ...centre,
  ];
}

/** Where levels and the centre meet edges and lines: as good to catch as a corner. */
function meetings(curves: readonly CatchCurve[]): CatchSpot[] {
  return curves.flatMap((straight) =>
    straight.straight === null
      ? []
      : curves
          .filter((other) => other.straight === null)
          .flatMap((other) =>
            crossStraight(other.path, straight.straight!.origin, straight.straight!.direction).map(
              ({ point }): CatchSpot => ({
                at: point,
                kind: straight.kind,
                word: `${straight.word}, ${other.word}`,
              }),
            ),
          ),
  );
}

/**
 * What can be caught on a piece.
 * @param without a line that is being moved: it must not catch on itself or its mirror image
 */
export function catchField(piece: PanelledPiece, without: LineId | null = null): CatchField {
  const known = without === null ? fields.get(piece) : undefined;
  if (known) return known;
  const field = buildField(piece, without);
  if (without === null) fields.set(piece, field);
  return field;
}

/** Hovering asks for the same field at every move. */
const fields = new WeakMap<PanelledPiece, CatchField>();

function buildField({ whole, lines }: PanelledPiece, without: LineId | null): CatchField {
  const others = lines.filter(({ line }) => line !== without);
  const curves = curvesOf(whole, others);
  const ends = others.flatMap(({ path }): CatchSpot[] =>
    path.length === 0
      ? []
      : [startOf(path), endOf(path)].map((at) => ({ at, kind: 'line end', word: 'line end' })),
  );
  return { spots: [...corners(whole), ...traced(whole), ...ends, ...meetings(curves)], curves };
}
