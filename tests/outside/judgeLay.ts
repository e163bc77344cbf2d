/**
 * A judge of lay plans that shares no code with the planner or its gate: outlines placed as design §6 says, judged by Clipper 2
 * (clipper2-ts 2.0.1: common areas, what lies outside the cloth, mirror images) and JTS (jsts 2.12.1: distances).
 */
import { FillRule, areaD, differenceD, intersectD, xorD } from 'clipper2-ts';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import IndexedFacetDistance from 'jsts/org/locationtech/jts/operation/distance/IndexedFacetDistance.js';
import type { ClothPiece, LayFault, LayJob, Placement } from '../../src/fabric';

type Point = readonly [number, number];
type Outline = readonly Point[];

/** What is wrong by more than rounding: mm, mm² for overlaps and what lies outside, degrees for turns. */
export interface Verdict {
  readonly kind: LayFault['kind'];
  readonly by: number;
}

/** The grid of the library's integers, decimals of a mm; areas below this, mm², are its rounding and that of coordinates. */
const DECIMALS = 6;
export const NO_AREA = 0.02;
/** Lengths below this, mm, and turns below this, degrees, are rounding. */
const NO_LENGTH = 4e-6;
const NO_TURN = 1e-6;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Design §6, written out again: mirrored in its own x when flipped, turned about the origin, moved. */
export function placedAt({ x, y, rotation, flipped }: Placement): (p: Point) => Point {
  const [c, s] = [Math.cos(radians(rotation)), Math.sin(radians(rotation))];
  return ([px, py]) => {
    const qx = flipped ? -px : px;
    return [c * qx - s * py + x, s * qx + c * py + y];
  };
}

const path = (points: Outline): { x: number; y: number }[] => points.map(([x, y]) => ({ x, y }));
const total = (rings: readonly { x: number; y: number }[][]): number =>
  Math.abs(rings.reduce((sum, ring) => sum + areaD(ring), 0));
const common = (a: Outline, b: Outline): number =>
  total(intersectD([path(a)], [path(b)], FillRule.NonZero, DECIMALS));
const outside = (a: Outline, b: Outline): number =>
  total(differenceD([path(a)], [path(b)], FillRule.NonZero, DECIMALS));
const differing = (a: Outline, b: Outline): number =>
  total(xorD([path(a)], [path(b)], FillRule.NonZero, DECIMALS));
export const areaOf = (a: Outline): number => Math.abs(areaD(path(a)));

const factory = new GeometryFactory();
const lineOf = (a: Outline): unknown =>
  factory.createLineString([...a, a[0]!].map(([x, y]) => new Coordinate(x, y)));
const apart = (a: Outline, b: Outline): number =>
  (IndexedFacetDistance as unknown as { distance(a: unknown, b: unknown): number }).distance(
    lineOf(a),
    lineOf(b),
  );

interface Bounds {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}
function boundsOf(a: Outline): Bounds {
  const [xs, ys] = [a.map((p) => p[0]), a.map((p) => p[1])];
  return { x: [Math.min(...xs), Math.max(...xs)], y: [Math.min(...ys), Math.max(...ys)] };
}
const areNear = (a: Bounds, b: Bounds, gap: number): boolean =>
  a.x[0] - gap <= b.x[1] && b.x[0] - gap <= a.x[1] && a.y[0] - gap <= b.y[1] && b.y[0] - gap <= a.y[1];

interface Placed {
  readonly piece: ClothPiece;
  readonly at: Placement;
  readonly outline: Outline;
  readonly bounds: Bounds;
}

/** Degrees between −180 and 180. */
const wrapped = (a: number): number => a - 360 * Math.round(a / 360);

/** How far the grain lies from the nearest direction allowed for it, degrees: from where it points after mirroring and turning. */
function offTurns({ piece, at }: Placed, job: LayJob): number {
  const a = radians(piece.grainAngle);
  const move = placedAt({ ...at, x: 0, y: 0 });
  const [x, y] = move([Math.cos(a), Math.sin(a)]);
  const direction = (Math.atan2(y, x) * 180) / Math.PI;
  const allowed = piece.turns ?? (job.nap ? [0] : [0, 180]);
  return Math.min(...allowed.map((t) => Math.abs(wrapped(direction - t))));
}

const offStep = (v: number, step: number): number =>
  step > 0 ? Math.abs(v - step * Math.round(v / step)) : 0;

function offRepeat({ piece, at }: Placed, { repeat, width }: LayJob): number {
  if (!piece.anchor) return 0;
  const [x, y] = placedAt(at)(piece.anchor);
  return Math.hypot(offStep(x, repeat.along), offStep(y - width / 2, repeat.across));
}

/** The cloth as a polygon, as long as anything could need. */
function clothOf({ within, width }: LayJob, from: number): Outline {
  if (within) return within.outline;
  return [
    [0, from],
    [1e5, from],
    [1e5, width - from],
    [0, width - from],
  ];
}

function aloneVerdicts(own: Placed, job: LayJob): Verdict[] {
  const off = outside(own.outline, clothOf(job, 0));
  // the turn of a piece that lies wrong side up is not judged
  const isRightSide = own.at.flipped === own.piece.flipped;
  const turned = isRightSide ? offTurns(own, job) : 0;
  const inMargin = job.within ? 0 : outside(own.outline, clothOf(job, job.margin));
  return [
    { kind: 'off-the-cloth', by: off > NO_AREA ? off : 0 },
    { kind: 'in-the-margin', by: off <= NO_AREA && inMargin > NO_AREA ? inMargin : 0 },
    { kind: 'wrong-turn', by: turned > NO_TURN ? turned : 0 },
    { kind: 'wrong-side-up', by: isRightSide ? 0 : 1 },
    { kind: 'off-the-repeat', by: offRepeat(own, job) > NO_LENGTH ? offRepeat(own, job) : 0 },
  ];
}

function betweenVerdicts(a: Placed, b: Placed, gap: number): Verdict[] {
  if (!areNear(a.bounds, b.bounds, gap)) return [];
  const over = common(a.outline, b.outline);
  if (over > NO_AREA) return [{ kind: 'overlap', by: over }];
  const short = gap > 0 ? gap - apart(a.outline, b.outline) : 0;
  return short > NO_LENGTH ? [{ kind: 'too-close', by: short }] : [];
}

const mirrored = (a: Outline, width: number): Outline => a.map(([x, y]) => [x, width - y]);

/** How much of an outline lies on the other side of the fold from most of it, mm². */
function acrossFold({ outline, bounds }: Placed, width: number): number {
  const half: Outline = [
    [bounds.x[0] - 1, bounds.y[0] - 1],
    [bounds.x[1] + 1, bounds.y[0] - 1],
    [bounds.x[1] + 1, width / 2],
    [bounds.x[0] - 1, width / 2],
  ];
  if (bounds.y[0] >= width / 2 || bounds.y[1] <= width / 2) return 0;
  const above = common(outline, half);
  return Math.min(above, areaOf(outline) - above);
}

function foldVerdicts(all: readonly Placed[], job: LayJob): Verdict[] {
  if (job.layering === 'single') return [];
  const { width, gap } = job;
  return all.flatMap((own): Verdict[] => {
    const { piece, at, outline } = own;
    const mate = all.find((o) => o.piece.panel === piece.panel && o.piece.flipped !== piece.flipped);
    const across = acrossFold(own, width);
    if (mate) {
      const by = piece.flipped ? 0 : differing(mirrored(outline, width), mate.outline);
      return [
        { kind: 'across-the-fold', by: across > NO_AREA ? across : 0 },
        { kind: 'not-mirrored', by: by > NO_AREA ? by : 0 },
      ];
    }
    const move = placedAt(at);
    const onFold = piece.middle?.every((p) => Math.abs(move(p)[1] - width / 2) < NO_LENGTH);
    const isOwnImage = onFold && differing(mirrored(outline, width), outline) <= NO_AREA;
    if (isOwnImage) return [];
    const under = { ...own, outline: mirrored(outline, width), bounds: boundsOf(mirrored(outline, width)) };
    const taken = all.flatMap((o) => (o === own ? [] : betweenVerdicts(under, o, gap)));
    return [
      { kind: 'across-the-fold', by: across > NO_AREA ? across : 0 },
      ...taken.map(({ by }): Verdict => ({ kind: 'other-layer-taken', by })),
    ];
  });
}

/** All that is wrong with pieces as they are placed; one placement per piece of the job is looked at. Empty for a plan that can be cut. */
export function judgeLay(job: LayJob, placed: readonly Placement[]): Verdict[] {
  const isOf =
    (p: ClothPiece) =>
    (at: Placement): boolean =>
      at.panel === p.panel && at.copy === p.copy;
  const all = job.pieces.flatMap((piece): Placed[] => {
    const at = placed.find(isOf(piece));
    if (!at) return [];
    const outline = piece.cutting.map(placedAt(at));
    return [{ piece, at, outline, bounds: boundsOf(outline) }];
  });
  const strangers = placed.filter((at) => !job.pieces.some((p) => isOf(p)(at)));
  const twice = job.pieces.filter((p) => placed.filter(isOf(p)).length > 1);
  return [
    { kind: 'missing' as const, by: job.pieces.length - all.length },
    { kind: 'unknown-piece' as const, by: strangers.length },
    { kind: 'laid-twice' as const, by: twice.length },
    ...all.flatMap((own) => aloneVerdicts(own, job)),
    ...all.flatMap((a, i) => all.slice(i + 1).flatMap((b) => betweenVerdicts(a, b, job.gap))),
    ...foldVerdicts(all, job),
  ].filter((v) => v.by > 0);
}
