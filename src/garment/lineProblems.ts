import { type Pt, nearestOnPath, pathLength, pointAtLength } from '../geometry';
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

/** Whether a line passes from one leg of a dart to the other through its cloth. */
function crossesDart(line: LaidLine, dart: PlacedDart): boolean {
  const legs = dartLegs(dart);
  const total = pathLength(line.path);
  const steps = Math.max(2, Math.ceil(total / 3));
  const corners = legs.map((l) => l[0]).concat(legs.length === 2 ? [legs[1]!.at(-1)!] : []);
  for (let i = 0; i <= steps; i += 1) {
    if (isInside(corners, pointAtLength(line.path, (total * i) / steps).point)) return true;
  }
  return false;
}

function isInside(corners: readonly Pt[], [x, y]: Pt): boolean {
  let inside = false;
  corners.forEach(([ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % corners.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  });
  return inside;
}

function dartProblems(piece: PanelledPiece): Problem[] {
  const { whole, lines } = piece;
  return lines.flatMap((line) =>
    whole.darts.flatMap((dart): Problem[] => {
      const near = dartPoints(dart).map((p) => ({ p, gap: nearestOnPath(line.path, p).distance }));
      if (near.some(({ gap }) => gap <= THROUGH_POINT)) return [];
      const box = dartLegs(dart).flat();
      const reach = nearestOnPath(line.path, box[0]!).distance;
      const size = Math.max(...box.map((p) => Math.hypot(p[0] - box[0]![0], p[1] - box[0]![1])));
      if (reach <= size && crossesDart(line, dart)) return [problem('line-crosses-dart', { line: line.line }, whole.name, near[0]!.p)];
      return near
        .filter(({ gap }) => gap < DART_CLEARANCE)
        .map(({ p, gap }) => problem('panel-line-near-dart', { line: line.line, gap }, whole.name, p));
    }),
  );
}

function endProblems({ whole, lines, looseEnds, idleLines }: PanelledPiece): Problem[] {
  const loose = looseEnds.map(({ line, end, point, gapAhead, reach }) => {
    const { line: id, mirrored } = lines[line]!;
    return problem('line-ends-in-the-open', { line: id, mirrored, end, gap: gapAhead, reach }, whole.name, point);
  });
  const idle = idleLines
    .filter((index) => !looseEnds.some((l) => l.line === index))
    .map((index) => problem('line-cuts-nothing', { line: lines[index]!.line }, whole.name, lines[index]!.path[0]?.[0] ?? null));
  return [...loose, ...idle];
}

const narrowProblems = ({ whole, panels }: PanelledPiece, numberOf: (p: Panel) => number): Problem[] =>
  panels
    .filter((p) => p.spot.radius * 2 < NARROWEST_PANEL)
    .map((p) => problem('panel-too-narrow', { panel: numberOf(p), width: p.spot.radius * 2 }, whole.name, p.spot.at));

/** What is wrong, or worth a look, with the lines drawn on one piece. */
export const lineProblems = (piece: PanelledPiece, numberOf: (p: Panel) => number): readonly Problem[] => [
  ...endProblems(piece),
  ...dartProblems(piece),
  ...narrowProblems(piece, numberOf),
];
