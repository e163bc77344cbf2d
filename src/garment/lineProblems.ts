import { widthOfLine } from '../allowance';
import {
  type Line,
  type LooseEnd,
  type Pt,
  boxesMeet,
  crossStraight,
  distance,
  flattenPath,
  mix,
  nearestOnPath,
  pathBox,
  subtract,
  unit,
} from '../geometry';
import {
  type LaidLine,
  type Panel,
  type PanelledPiece,
  MOST_EASE,
  TAKES_DART_WITHIN,
  endsInDart,
  passagesThrough,
} from '../panels';
import { type Allowances, type PlacedDart, type Problem, dartLegs, dartPoints, problem } from '../pattern';

/** Passing this near means through the point on purpose, mm. */
const THROUGH_POINT = 1;
/** A line that breaks by less than this at a sewn dart runs on as far as anybody can sew, mm. */
const UNBROKEN = 0.5;
/** Panels narrower than this are hard to sew, mm. Common practice, no source. */
const NARROWEST_PANEL = 12;

/** How near the allowance of a seam may come to a dart's leg before both are hard to press, mm beyond the allowance. */
const LEG_CLEARANCE = 1;

/** The least distance from a line to a dart's sides, mm, by places along them. */
function legGap(line: LaidLine, dart: PlacedDart): number {
  const { points } = flattenPath(dartLegs(dart), 0.5);
  const spots = points.slice(1).flatMap((b, i) => [0.25, 0.5, 0.75, 1].map((t) => mix(points[i]!, b, t)));
  return Math.min(...spots.map((p) => nearestOnPath(line.path, p).distance));
}

/** What a sewist should know where one line meets, or nearly meets, one dart that is kept. */
function keptDartProblems(line: LaidLine, dart: PlacedDart, piece: string, newSeam: number): Problem[] {
  const near = dartPoints(dart).map((p) => ({ p, gap: nearestOnPath(line.path, p).distance }));
  const id = line.line;
  if (near.some(({ gap }) => gap <= THROUGH_POINT)) return [];
  const passages = passagesThrough(line.path, dart);
  const worst = passages.reduce((most, p) => (p.gap > most.gap ? p : most), {
    gap: 0,
    enter: { point: near[0]!.p },
  });
  if (worst.gap > UNBROKEN)
    return [problem('line-crosses-dart', { line: id, gap: worst.gap }, piece, worst.enter.point)];
  if (passages.length === 0 && endsInDart(line.path, dart))
    return [problem('line-ends-in-dart', { line: id }, piece, near[0]!.p)];
  const close = near
    .filter(({ gap }) => gap < TAKES_DART_WITHIN)
    .map(({ p, gap }) => problem('panel-line-near-dart', { line: id, gap }, piece, p));
  if (close.length > 0 || passages.length > 0) return close;
  const beside = legGap(line, dart);
  return beside < newSeam + LEG_CLEARANCE
    ? [problem('allowance-over-dart', { line: id, gap: beside, allowance: newSeam }, piece, near[0]!.p)]
    : [];
}

/** Lines that come near darts which are kept, or cross them. */
const dartProblems = ({ whole, lines }: PanelledPiece, allowances: Allowances): Problem[] =>
  lines.flatMap((line) =>
    whole.darts
      .filter(
        (d) => d.close === null && boxesMeet(pathBox(line.path), pathBox(dartLegs(d)), TAKES_DART_WITHIN),
      )
      .flatMap((d) => keptDartProblems(line, d, whole.name, widthOfLine(line.line, allowances))),
  );

/** Darts that were to be swallowed: what could not be, and what is left to ease in. */
function closingProblems({ whole, panels }: PanelledPiece): Problem[] {
  const closings = panels.flatMap((p) => p.closings);
  return whole.darts
    .filter((d) => d.close !== null)
    .flatMap((d): Problem[] => {
      const [at] = dartPoints(d);
      const own = closings.filter((c) => c.dart.traced === d.traced && c.dart.mirrored === d.mirrored);
      if (own.every((c) => c.how === 'eased')) return [problem('dart-not-swallowed', {}, whole.name, at!)];
      return own
        .filter((c) => c.width > MOST_EASE)
        .map((c) => problem('dart-end-too-wide', { width: c.width, most: MOST_EASE }, whole.name, at!));
    });
}

/** Where a loose end meets something straight ahead: the next line or edge, or before it the fold, where its image meets it. */
function wayOn(
  { point, gapAhead, reach }: LooseEnd,
  fold: Line | null,
): { gap: number | null; reach: Pt | null } {
  if (!fold || !reach) return { gap: gapAhead, reach };
  const onFold = crossStraight([fold], point, unit(subtract(reach, point))).find(
    (c) => c.along > 0 && c.along < distance(point, reach),
  );
  return onFold ? { gap: onFold.along, reach: onFold.point } : { gap: gapAhead, reach };
}

function endProblems({ whole, lines, looseEnds, idleLines }: PanelledPiece): Problem[] {
  const loose = looseEnds.map((looseEnd) => {
    const { line: id, mirrored, isMirroring } = lines[looseEnd.line]!;
    const { gap, reach } = wayOn(looseEnd, isMirroring ? whole.foldLine : null);
    return problem(
      'line-ends-in-the-open',
      { line: id, mirrored, end: looseEnd.end, gap, reach },
      whole.name,
      looseEnd.point,
    );
  });
  const idle = idleLines
    .filter((index) => !looseEnds.some((l) => l.line === index))
    .map((index) =>
      problem(
        'line-cuts-nothing',
        { line: lines[index]!.line },
        whole.name,
        lines[index]!.path[0]?.[0] ?? null,
      ),
    );
  return [...loose, ...idle];
}

const narrowProblems = ({ whole, panels }: PanelledPiece, numberOf: (p: Panel) => number): Problem[] =>
  panels
    .filter((p) => p.spot.radius * 2 < NARROWEST_PANEL)
    .map((p) =>
      problem('panel-too-narrow', { panel: numberOf(p), width: p.spot.radius * 2 }, whole.name, p.spot.at),
    );

/** What is wrong, or worth a look, with the lines drawn on one piece. */
export const lineProblems = (
  piece: PanelledPiece,
  numberOf: (p: Panel) => number,
  allowances: Allowances,
): readonly Problem[] => [
  ...endProblems(piece),
  ...dartProblems(piece, allowances),
  ...closingProblems(piece),
  ...narrowProblems(piece, numberOf),
];
