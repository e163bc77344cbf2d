import {
  CHORD_SAGITTA,
  type CurveRef,
  type Line,
  type Matrix,
  type Path,
  type Pt,
  SAME_POINT,
  applyMatrix,
  crossStraight,
  distance,
  endOf,
  flattenRing,
  isInRing,
  isSimpleRing,
  mix,
  nearestOnPath,
  pathLength,
  pointOn,
  signedAreaOfPoints,
  startOf,
  subtract,
  unit,
} from '../../geometry';
import type { Dart, DartPart, DartShape, Level, Notch, Piece, Remainder } from '../design';
import { type EdgeCurve, tracedCurves } from '../edgeCurves';
import { type Problem, type SwingFault, problem } from '../problem';
import { remember } from '../remember';
import { type SingleDart, dartIntake, dartRing, movedDart } from './dartShape';
import { type EdgeSpot, refOf, seesPlace, spotOf } from './outlinePlace';
import { placeDart } from './placeDart';
import { type Turn, type Turning, swingDart } from './swingDart';
import { type CutApart, type Outline, type Part, curvesOf, isOnStretch, mouthPlace } from './turnPart';

/** A dart of a traced piece after swinging: where it is now. */
export interface SwungShape {
  readonly shape: DartShape;
  /** Index of the traced dart it comes from. */
  readonly traced: number;
  readonly close: Remainder | null;
  /** Whether it stands at a place it was swung to. */
  readonly swung: boolean;
}

/** A traced piece with its darts swung: still half where it was traced half. */
export interface SwungPiece {
  /** Like tracedCurves; new mouths go straight across. */
  readonly curves: readonly EdgeCurve[];
  readonly darts: readonly SwungShape[];
  readonly notches: readonly Notch[];
  readonly levels: readonly Level[];
  readonly grain: Line | null;
  /** The turns that were made, in order; swingMap carries places along with them. */
  readonly turns: readonly Turn[];
  readonly problems: readonly Problem[];
}

/** A mouth traced on the stitching line may lie this far inside a traced cutting line, mm; farther in it is on no edge. */
const DEEPEST_ALLOWANCE = 60;

/** The edge number of the fold's stretch while the outline is closed along it. */
const FOLD = -1;

interface State {
  readonly outline: Outline<EdgeCurve>;
  readonly darts: readonly SwungShape[];
  readonly notches: readonly Notch[];
  readonly levels: readonly Level[];
  readonly grain: Line | null;
  readonly turns: readonly Turn[];
}

/** A part of a dart on its way: where it goes, as the outline is at the moment. */
interface Goal {
  readonly traced: number;
  readonly part: DartPart;
  readonly spot: EdgeSpot | null;
}

const shapeOf = (dart: Dart): DartShape => {
  const { treatment, ...shape } = dart;
  return treatment.kind ? shape : dart;
};

function closedOutline(piece: Piece, curves: readonly EdgeCurve[]): Outline<EdgeCurve> {
  const outline = curves.map((tag) => ({ curve: tag.curve, tag }));
  if (!piece.fold) return outline;
  const path = curves.map((c) => c.curve);
  const tag: EdgeCurve = { ...curves[0]!, plainName: 'fold', proposed: null, edge: FOLD };
  return [...outline, { curve: [endOf(path), startOf(path)], tag }];
}

/** The traced outline as one ring of edges; a half piece's is closed along its fold. */
export const swingOutline = (piece: Piece): Outline<EdgeCurve> =>
  closedOutline(piece, tracedCurves(piece).curves);

/** The outline as curves of edges again, from the end of the fold on. */
function openedAtFold(outline: Outline<EdgeCurve>): EdgeCurve[] {
  const fold = outline.findIndex((c) => c.tag.edge === FOLD);
  const round = fold < 0 ? outline : [...outline.slice(fold + 1), ...outline.slice(0, fold)];
  return round.map(({ curve, tag }) => ({ ...tag, curve }));
}

const isCentre = ({ tag }: { tag: EdgeCurve }): boolean =>
  /\b(centre|center)\b/i.test(tag.proposed ?? tag.plainName);

/** The part with the fold stays; else with (more of) a centre edge, the grain line, the larger area. Common practice, no source. */
function turningFor(grain: Line | null): Turning<EdgeCurve> {
  return ({ before, after }: CutApart<EdgeCurve>) => {
    const more = (of: (part: Part<EdgeCurve>) => number): 'before' | 'after' | null =>
      of(before) === of(after) ? null : of(before) > of(after) ? 'after' : 'before';
    const lengthOf =
      (is: (c: Outline<EdgeCurve>[number]) => boolean) =>
      ({ along }: Part<EdgeCurve>): number =>
        pathLength(curvesOf(along.filter(is)));
    return (
      more(lengthOf((c) => c.tag.edge === FOLD)) ??
      more(lengthOf(isCentre)) ??
      more(({ corners }) => (grain && isInRing(mix(grain[0], grain[1], 0.5), corners) ? 1 : 0)) ??
      more(({ corners }) => Math.abs(signedAreaOfPoints(corners))) ??
      'after'
    );
  };
}

/** Middle of a dart's wedge: tells which part it lies on. */
function middleOf(shape: DartShape): Pt {
  const corners = dartRing(shape).map((c) => c[0]);
  const sum = corners.reduce((s, p): Pt => [s[0] + p[0], s[1] + p[1]], [0, 0] as Pt);
  return [sum[0] / corners.length, sum[1] / corners.length];
}

const mapLine = ([a, b]: Line, m: Matrix): Line => [applyMatrix(m, a), applyMatrix(m, b)];

/** A level that lies wholly on the turned part stays square to the grain: it is moved by what its middle is moved. */
function carriedLevel(level: Level, turn: Turn): Level {
  if (!level.line.every((p) => isInRing(p, turn.turned))) return level;
  const middle = mix(level.line[0], level.line[1], 0.5);
  const to = applyMatrix(turn.matrix, middle);
  const by: Matrix = [1, 0, 0, 1, to[0] - middle[0], to[1] - middle[1]];
  return { ...level, line: mapLine(level.line, by) };
}

/** Whether a place on the outline goes with the part that turns. In the old mouth: with the nearer leg. */
function goesAlong(outline: Outline<EdgeCurve>, dart: SingleDart, place: CurveRef, turn: Turn) {
  const { from, to } = mouthPlace(outline, dart);
  const turnsBefore = distance(turn.legs[0][1], pointOn(curvesOf(outline), from)) <= SAME_POINT;
  return (p: Pt): boolean => {
    const at = nearestOnPath(curvesOf(outline), p);
    if (isOnStretch(at, place, from)) return turnsBefore;
    if (isOnStretch(at, to, place)) return !turnsBefore;
    return distance(p, turn.legs[0][1]) <= distance(p, turn.legs[1][1]);
  };
}

/** Swing one part of one dart; what is wrong where it cannot be. */
function swingPart(
  state: State,
  own: SwungShape & { shape: SingleDart },
  { part, spot }: Goal,
  share: number,
): { state: State; turn: Turn; goes: (p: Pt) => boolean } | SwingFault {
  const { outline } = state;
  const place = spot && refOf(outline, spot);
  if (!spot || !place) return 'no such place';
  const at = pointOn(curvesOf(outline), place);
  const { from, to } = mouthPlace(outline, own.shape);
  const atEnds = [from, to].some((r) => distance(pointOn(curvesOf(outline), r), at) <= SAME_POINT);
  if (atEnds || isOnStretch(place, from, to)) return 'in the mouth';
  const others = state.darts.filter((d) => d !== own).map((d) => d.shape);
  if (!seesPlace(outline, own.shape.point, at, others)) return 'not seen';
  const tag = outline.find((c) => c.tag.edge === spot.edge)!.tag;
  const swung = swingDart(outline, own.shape, place, share, tag, turningFor(state.grain));
  if (!isSimpleRing(curvesOf(swung.outline), CHORD_SAGITTA)) return 'overlaps';
  const { turn } = swung;
  const goes = goesAlong(outline, own.shape, place, turn);
  const put = (p: Pt): Pt => applyMatrix(turn.matrix, p);
  const darts = state.darts.flatMap((d): SwungShape[] => {
    if (d !== own)
      return [
        isInRing(middleOf(d.shape), turn.turned) ? { ...d, shape: movedDart(d.shape, turn.matrix) } : d,
      ];
    const rest = swung.rest ? [{ ...d, shape: swung.rest }] : [];
    return [...rest, { shape: swung.dart, traced: d.traced, close: part.close, swung: true }];
  });
  const grain = state.grain;
  const next: State = {
    outline: swung.outline,
    darts,
    notches: state.notches.map((n) => (goes(n.at) ? { at: put(n.at), inner: put(n.inner) } : n)),
    levels: state.levels.map((l) => carriedLevel(l, turn)),
    grain: grain && isInRing(mix(grain[0], grain[1], 0.5), turn.turned) ? mapLine(grain, turn.matrix) : grain,
    turns: [...state.turns, turn],
  };
  return { state: next, turn, goes };
}

/** Where a spot is after a swing. At the cut itself it goes with the part that the dart it is meant for lies on. */
function carriedSpot(spot: EdgeSpot, turn: Turn, goes: (p: Pt) => boolean, dart: DartShape): EdgeSpot {
  const atCut = distance(spot.at, turn.cut[1]) <= SAME_POINT;
  const turns = atCut ? isInRing(middleOf(dart), turn.turned) : goes(spot.at);
  return turns ? { ...spot, at: applyMatrix(turn.matrix, spot.at) } : spot;
}

/** The traced darts: those to be swung with their mouth on the outline, the others as traced. */
function startDarts(piece: Piece, ring: Path): { darts: SwungShape[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const darts = piece.darts.map((dart, traced): SwungShape => {
    const close = dart.treatment.kind === 'close' ? dart.treatment.remainder : null;
    const plain: SwungShape = { shape: shapeOf(dart), traced, close, swung: false };
    if (dart.treatment.kind !== 'swing') return plain;
    const fault = (why: SwingFault): SwungShape => {
      const at = plain.shape.kind === 'single' ? plain.shape.point : plain.shape.points[0];
      problems.push(problem('dart-not-swung', { why }, piece.name, at));
      return plain;
    };
    if (dart.kind === 'double') return fault('double-pointed');
    const placed = placeDart(plain.shape, ring);
    const isOff = placed.gap > DEEPEST_ALLOWANCE || dartIntake(placed.dart) <= SAME_POINT;
    if (isOff || !isInRing(dart.point, flattenRing(ring))) return fault('off the edge');
    return { ...plain, shape: placed.dart };
  });
  return { darts, problems };
}

/** What the traced darts' shares still leave where they were traced. */
const LEAST_SHARE = 1e-6;

const isSwingable = (d: SwungShape): d is SwungShape & { shape: SingleDart } => d.shape.kind === 'single';

/** Where the cut from a point to a spot on the traced outline crosses another outline of the piece. */
function spotOn(outline: Outline<EdgeCurve>, point: Pt, { at }: EdgeSpot): EdgeSpot | null {
  const reach = distance(point, at);
  const crossing = crossStraight(curvesOf(outline), point, unit(subtract(at, point))).find(
    (c) => c.along > SAME_POINT && c.along <= reach + SAME_POINT,
  );
  return crossing ? { at: crossing.point, edge: outline[crossing.index]!.tag.edge } : null;
}

/**
 * All swings of a piece, one after the other, in the order of its darts and their parts.
 * @param curves the outline that is cut and turned: the traced one, or the stitching line inside it
 * @param tracedOutline on which places are meant
 */
function swingAll(
  piece: Piece,
  curves: readonly EdgeCurve[],
  tracedOutline: readonly EdgeCurve[] = curves,
): SwungPiece {
  const outline = closedOutline(piece, curves);
  const { darts, problems } = startDarts(piece, curvesOf(outline));
  const refused = new Set(problems.map((p) => p.at));
  const whereMeant = curvesOf(closedOutline(piece, tracedOutline));
  const shapes = piece.darts.map((d) => placeDart(shapeOf(d), whereMeant).dart);
  let goals = piece.darts.flatMap((dart, traced): Goal[] => {
    const { shape } = darts[traced]!;
    if (dart.treatment.kind !== 'swing' || shape.kind !== 'single' || refused.has(shape.point)) return [];
    return dart.treatment.parts
      .filter((part) => part.share > LEAST_SHARE)
      .map((part): Goal => {
        const spot = spotOf(tracedOutline, shapes, part.to);
        const isInner = tracedOutline !== curves;
        return { traced, part, spot: spot && isInner ? spotOn(outline, shape.point, spot) : spot };
      });
  });
  let state: State = {
    outline,
    darts,
    notches: piece.notches,
    levels: piece.levels,
    grain: piece.grain,
    turns: [],
  };
  const left = new Map<number, number>();
  while (goals.length > 0) {
    const goal = goals[0]!;
    goals = goals.slice(1);
    const rest = left.get(goal.traced) ?? 1;
    const own = state.darts.find((d) => d.traced === goal.traced && !d.swung);
    if (!own || !isSwingable(own) || rest <= LEAST_SHARE) continue;
    const share = rest - goal.part.share <= LEAST_SHARE ? 1 : goal.part.share / rest;
    const done = swingPart(state, own, goal, share);
    if (typeof done === 'string') {
      problems.push(problem('dart-not-swung', { why: done }, piece.name, own.shape.point));
      continue;
    }
    left.set(goal.traced, share === 1 ? 0 : rest - goal.part.share);
    const before = state;
    state = done.state;
    goals = goals.map((g) => {
      const dart = before.darts.find((d) => d.traced === g.traced && !d.swung);
      return g.spot && dart ? { ...g, spot: carriedSpot(g.spot, done.turn, done.goes, dart.shape) } : g;
    });
  }
  const { notches, levels, grain, turns } = state;
  return { curves: openedAtFold(state.outline), darts: state.darts, notches, levels, grain, turns, problems };
}

/**
 * The stitching line inside a traced cutting line, swung like it: cut along the same straight cuts, turned by the same angles.
 * @param inner the stitching line of the traced half (or whole) piece, closed along the fold as swingOutline is
 */
export const swungStitching = (piece: Piece, inner: Outline<EdgeCurve>): SwungPiece =>
  swingAll(piece, openedAtFold(inner), tracedCurves(piece).curves);

/** Whether a curve of swingOutline is the fold. */
export const isFold = ({ tag }: Outline<EdgeCurve>[number]): boolean => tag.edge === FOLD;

/** A traced piece with its darts swung as their treatment says; as traced where none is. Where one cannot be swung it stays, and is told. */
export const swungPiece = remember(
  (piece: Piece): SwungPiece & { readonly nameProblems: readonly Problem[] } => {
    const { curves, problems } = tracedCurves(piece);
    const isSwung = piece.darts.some((d) => d.treatment.kind === 'swing');
    if (isSwung) return { ...swingAll(piece, curves), nameProblems: problems };
    const darts = piece.darts.map((dart, traced): SwungShape => {
      const close = dart.treatment.kind === 'close' ? dart.treatment.remainder : null;
      return { shape: shapeOf(dart), traced, close, swung: false };
    });
    const { notches, levels, grain } = piece;
    return {
      curves,
      darts,
      notches,
      levels,
      grain,
      turns: [],
      problems: [],
      nameProblems: problems,
    };
  },
);
