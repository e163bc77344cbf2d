import {
  type Line,
  type Matrix,
  type Path,
  type Pt,
  applyMatrix,
  subtract,
  transformPath,
  unit,
} from '../geometry';
import type { Dart, Design, LineTies, Piece, Reach, Run, Tie, TrimPlace } from './design';

interface Scaling {
  readonly at: (p: Pt) => Pt;
  readonly line: (l: Line) => Line;
  readonly path: (p: Path) => Path;
}

function scalingBy(sx: number, sy: number): Scaling {
  const m: Matrix = [sx, 0, 0, sy, 0, 0];
  const at = (p: Pt): Pt => applyMatrix(m, p);
  return { at, line: ([a, b]) => [at(a), at(b)], path: (p) => transformPath(p, m) };
}

function scaledDart(dart: Dart, { at, path }: Scaling): Dart {
  if (dart.kind === 'single') {
    const { mouth, point, legs } = dart;
    return {
      ...dart,
      mouth: [at(mouth[0]), at(mouth[1])],
      point: at(point),
      legs: legs && [path(legs[0]), path(legs[1])],
    };
  }
  const [a, b, c, d] = dart.points;
  const { legs } = dart;
  return {
    ...dart,
    points: [at(a), at(b), at(c), at(d)],
    legs: legs && [path(legs[0]), path(legs[1]), path(legs[2]), path(legs[3])],
  };
}

const scaledPiece = (piece: Piece, by: Scaling): Piece => ({
  ...piece,
  outline: by.path(piece.outline),
  fold: piece.fold && by.line(piece.fold),
  grain: piece.grain && by.line(piece.grain),
  darts: piece.darts.map((d) => scaledDart(d, by)),
  notches: piece.notches.map((n) => ({ at: by.at(n.at), inner: by.at(n.inner) })),
  levels: piece.levels.map((l) => ({ ...l, line: by.line(l.line) })),
  edgeNames: piece.edgeNames.map((e) => ({ ...e, path: by.path(e.path) })),
});

/** How much lengths along and across a piece's grain change, and lengths along edges of either direction on average. */
interface Stretch {
  readonly along: number;
  readonly across: number;
  readonly edge: number;
}

function stretchOf({ grain, fold }: Piece, sx: number, sy: number): Stretch {
  const warp = grain ?? fold;
  const [x, y] = warp ? unit(subtract(warp[1], warp[0])) : [0, 1];
  return {
    along: Math.hypot(sx * x, sy * y),
    across: Math.hypot(sx * y, sy * x),
    edge: Math.sqrt(sx * sy),
  };
}

const scaledReach = (reach: Reach, by: number): Reach =>
  reach.kind === 'from' ? { ...reach, by: reach.by * by } : reach;

function scaledTie(tie: Tie, stretch: Stretch): Tie {
  if (tie.kind === 'edge') {
    const by = { grain: stretch.along, across: stretch.across, edge: stretch.edge }[tie.along];
    return { ...tie, reach: scaledReach(tie.reach, by) };
  }
  if (tie.kind === 'line' && tie.place.kind !== 'share') {
    const by = tie.place.kind === 'down' ? stretch.along : stretch.across;
    return { ...tie, place: { ...tie.place, reach: scaledReach(tie.place.reach, by) } };
  }
  if (tie.kind === 'inside')
    return {
      ...tie,
      down: scaledReach(tie.down, stretch.along),
      over: scaledReach(tie.over, stretch.across),
    };
  return tie;
}

/** A line at an angle turns when the piece is stretched one way more than the other. */
function scaledRun(run: Run | null, { along, across }: Stretch): Run | null {
  if (run?.kind !== 'angle' || along === across) return run;
  const turn = (run.degrees * Math.PI) / 180;
  const degrees = (Math.atan2(Math.sin(turn) * along, Math.cos(turn) * across) * 180) / Math.PI;
  return { ...run, degrees };
}

const scaledTies = (ties: LineTies, stretch: Stretch): LineTies => ({
  run: scaledRun(ties.run, stretch),
  nodes: ties.nodes.map((tie) => tie && scaledTie(tie, stretch)),
});

const scaledPlace = (on: TrimPlace, path: (p: Path) => Path): TrimPlace =>
  on.kind === 'path' ? { ...on, path: path(on.path) } : on;

/**
 * Scale everything that is drawn about the page's origin: outlines, folds, grains, darts, notches, levels, edge names, panel lines with
 * their ties, colour marks. What is given in mm of cloth stays: allowances, cloths, widths of trims. Curves stay curves (scaling is affine).
 * A tie along an edge takes the mean of both ways, since an edge may run either.
 * @throws RangeError for a factor that is not above 0
 */
export function scaleDesign(design: Design, sx: number, sy: number): Design {
  if (!(sx > 0) || !(sy > 0) || !Number.isFinite(sx * sy))
    throw new RangeError('a drawing is scaled by factors above 0');
  if (sx === 1 && sy === 1) return design;
  const by = scalingBy(sx, sy);
  const stretches = new Map(design.pieces.map((p) => [p.id, stretchOf(p, sx, sy)] as const));
  return {
    ...design,
    pieces: design.pieces.map((p) => scaledPiece(p, by)),
    lines: design.lines.map((line) => ({
      ...line,
      path: by.path(line.path),
      ties: line.ties && scaledTies(line.ties, stretches.get(line.piece)!),
    })),
    marks: design.marks.map((mark) => ({ ...mark, at: by.at(mark.at) })),
    numbers: design.numbers.map((mark) => ({ ...mark, at: by.at(mark.at) })),
    offGrain: design.offGrain.map((mark) => ({ ...mark, at: by.at(mark.at) })),
    trims: design.trims.map((trim) => ({ ...trim, on: scaledPlace(trim.on, by.path) })),
  };
}
