import ArrayList from 'jsts/java/util/ArrayList.js';
import InteriorPointArea from 'jsts/org/locationtech/jts/algorithm/InteriorPointArea.js';
import RayCrossingCounter from 'jsts/org/locationtech/jts/algorithm/RayCrossingCounter.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import Location from 'jsts/org/locationtech/jts/geom/Location.js';
import PrecisionModel from 'jsts/org/locationtech/jts/geom/PrecisionModel.js';
import Polygonizer from 'jsts/org/locationtech/jts/operation/polygonize/Polygonizer.js';
import UnaryUnionOp from 'jsts/org/locationtech/jts/operation/union/UnaryUnionOp.js';

type Point = readonly [number, number];
type Curve = readonly Point[];

/** Plain doubles first; where its noding gives up on them, a grid of a millionth, then of a ten-thousandth of a mm. */
const factories = [
  { grid: 0, factory: new GeometryFactory(new PrecisionModel()) },
  ...[1e-6, 1e-4].map((grid) => ({ grid, factory: new GeometryFactory(new PrecisionModel(1 / grid)) })),
];

/** A face as the reference library sees it, mm and mm². */
export interface ReferenceFace {
  readonly area: number;
  readonly perimeter: number;
}

/**
 * Corner points of a path, each cubic in equal steps that leave it by no more than `sagitta` mm (a chord of a curve
 * with second derivative up to M leaves it by h²M/8). Written apart on purpose: shares nothing with the code under test.
 */
export function sampled(path: readonly Curve[], sagitta: number): Point[] {
  const out: Point[] = [];
  for (const c of path) {
    out.push(c[0]!);
    if (c.length === 2) continue;
    const [p, q, r, s] = c as unknown as [Point, Point, Point, Point];
    const second = (a: Point, b: Point, d: Point): number =>
      6 * Math.hypot(a[0] - 2 * b[0] + d[0], a[1] - 2 * b[1] + d[1]);
    const n = Math.max(4, Math.ceil(Math.sqrt(Math.max(second(p, q, r), second(q, r, s)) / (8 * sagitta))));
    for (let i = 1; i < n; i += 1) {
      const [t, u] = [i / n, 1 - i / n];
      const at = (k: 0 | 1): number =>
        u ** 3 * p[k] + 3 * u * u * t * q[k] + 3 * u * t * t * r[k] + t ** 3 * s[k];
      out.push([at(0), at(1)]);
    }
  }
  const last = path.at(-1);
  if (last) out.push(last[last.length - 1]!);
  return out;
}

/**
 * Faces inside a ring cut by lines, by JTS's noding union and Polygonizer (jsts 2.12.1). Hanging ends are dropped by it.
 * @returns the faces and the grid (mm, 0 for none) they were noded on; null where its noding gives up on every grid
 */
export function facesByJsts(
  outline: readonly Point[],
  lines: readonly (readonly Point[])[],
): { grid: number; faces: ReferenceFace[] } | null {
  for (const { grid, factory } of factories) {
    try {
      return { grid, faces: facesOn(factory, outline, lines) };
    } catch (cause) {
      if (!String(cause).includes('found non-noded intersection')) throw cause;
    }
  }
  return null;
}

function facesOn(
  factory: GeometryFactory,
  outline: readonly Point[],
  lines: readonly (readonly Point[])[],
): ReferenceFace[] {
  const model = factory.getPrecisionModel();
  const coordinates = (points: readonly Point[]): Coordinate[] =>
    points.map(([x, y]) => new Coordinate(model.makePrecise(x), model.makePrecise(y)));
  const all = new ArrayList(null);
  for (const points of [outline, ...lines])
    if (points.length > 1) all.add(factory.createLineString(coordinates(points)));
  const polygonizer = new Polygonizer(false);
  polygonizer.add(new UnaryUnionOp(all, factory).union());
  const found = polygonizer.getPolygons();
  const ring = coordinates(outline);
  const faces: ReferenceFace[] = [];
  for (let i = 0; i < found.size(); i += 1) {
    const polygon = found.get(i);
    const spot = InteriorPointArea.getInteriorPoint(polygon);
    if (RayCrossingCounter.locatePointInRing(spot, ring) !== Location.INTERIOR) continue;
    faces.push({ area: polygon.getArea(), perimeter: polygon.getLength() });
  }
  return faces;
}
