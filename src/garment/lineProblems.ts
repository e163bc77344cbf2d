import {
  type Line,
  type LooseEnd,
  type Path,
  type Pt,
  boxesMeet,
  crossStraight,
  distance,
  endOf,
  flattenPath,
  isInRing,
  length,
  nearestOnPath,
  pathBox,
  subtract,
  unit,
} from '../geometry';
import type { LaidLine, Panel, PanelledPiece } from '../panels';
import { type PlacedDart, type Problem, dartLegs, problem } from '../pattern';

/** A line nearer to a dart point than this gets a hint, mm (about 1 in; outside checks: dart lesson handout, digit from memory). */
const DART_CLEARANCE = 25;
/** Passing this near means through the point on purpose, mm. */
const THROUGH_POINT = 1;
/** Panels narrower than this are hard to sew, mm. Common practice, no source. */
const NARROWEST_PANEL = 12;

const dartPoints = (dart: PlacedDart): readonly Pt[] =>
  dart.kind === 'single' ? [dart.point] : [dart.points[0], dart.points[2]];

/** Whether some part of a line lies between a dart's legs. */
function crossesDart(line: LaidLine, dart: PlacedDart): boolean {
  const legs = dartLegs(dart);
  const corners = legs.length === 2 ? [...legs.map((l) => l[0]), endOf(legs)] : legs.map((l) => l[0]);
  return flattenPath(line.path).points.some((p) => isInRing(p, corners)) || crossesBothLegs(line.path, legs);
}

/** A straight line may pass a dart between two of its chord points. */
const crossesBothLegs = (path: Path, legs: Path): boolean =>
  legs.filter((leg) => meets(path, leg)).length >= 2;

function meets(path: Path, [a, b]: Path[number]): boolean {
  const along = length(subtract(b!, a));
  return crossStraight(path, a, unit(subtract(b!, a))).some((c) => c.along >= 0 && c.along <= along);
}

/** What a sewist should know where one line meets, or nearly meets, one dart. */
function dartProblemsOf(line: LaidLine, dart: PlacedDart, piece: string): Problem[] {
  if (!boxesMeet(pathBox(line.path), pathBox(dartLegs(dart)), DART_CLEARANCE)) return [];
  const near = dartPoints(dart).map((p) => ({ p, gap: nearestOnPath(line.path, p).distance }));
  if (near.some(({ gap }) => gap <= THROUGH_POINT)) return [];
  if (crossesDart(line, dart)) return [problem('line-crosses-dart', { line: line.line }, piece, near[0]!.p)];
  return near
    .filter(({ gap }) => gap < DART_CLEARANCE)
    .map(({ p, gap }) => problem('panel-line-near-dart', { line: line.line, gap }, piece, p));
}

const dartProblems = ({ whole, lines }: PanelledPiece): Problem[] =>
  lines.flatMap((line) => whole.darts.flatMap((dart) => dartProblemsOf(line, dart, whole.name)));

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
export const lineProblems = (piece: PanelledPiece, numberOf: (p: Panel) => number): readonly Problem[] => [
  ...endProblems(piece),
  ...dartProblems(piece),
  ...narrowProblems(piece, numberOf),
];
