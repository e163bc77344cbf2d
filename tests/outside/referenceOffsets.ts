import { Clipper, ClipType, EndType, FillRule, JoinType, type Paths64 } from 'clipper2-ts';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import type Geometry from 'jsts/org/locationtech/jts/geom/Geometry.js';
import type Polygon from 'jsts/org/locationtech/jts/geom/Polygon.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';

export type Point = readonly [number, number];
/** Corner points of outer rings and holes in any order; even-odd inside. */
export type Rings = readonly (readonly Point[])[];

const factory = new GeometryFactory();

/** Mitred offset of a straight ring by JTS's buffer (jsts 2.12.1), its input simplification switched off. Negative: inwards. */
export function offsetByJsts(points: readonly Point[], width: number, mitreLimit: number): Rings {
  const parameters = new BufferParameters(
    8,
    BufferParameters.CAP_ROUND,
    BufferParameters.JOIN_MITRE,
    mitreLimit,
  );
  parameters.setSimplifyFactor(0);
  const shell = [...points, points[0]!].map(([x, y]) => new Coordinate(x, y));
  const buffered: Geometry = BufferOp.bufferOp(
    factory.createPolygon(factory.createLinearRing(shell)),
    width,
    parameters,
  );
  const rings: Point[][] = [];
  for (let i = 0; i < buffered.getNumGeometries(); i += 1) {
    const polygon = buffered.getGeometryN(i) as unknown as Polygon;
    if (polygon.isEmpty()) continue;
    const all = [
      polygon.getExteriorRing(),
      ...Array.from({ length: polygon.getNumInteriorRing() }, (_, k) => polygon.getInteriorRingN(k)),
    ];
    rings.push(
      ...all.map((r) =>
        r
          .getCoordinates()
          .slice(0, -1)
          .map((c: Coordinate): Point => [c.x, c.y]),
      ),
    );
  }
  return rings;
}

/** Clipper works on whole numbers: a ten-thousandth of a mm each. */
const GRID = 1e4;
const onGrid = (rings: Rings): Paths64 =>
  rings.map((r) => r.map(([x, y]) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) })));

/** Mitred offset of a straight ring by Clipper 2 (clipper2-ts 2.0.1), rounded to its grid. */
export function offsetByClipper(points: readonly Point[], width: number, mitreLimit: number): Rings {
  const moved = Clipper.inflatePaths(
    onGrid([points]),
    width * GRID,
    JoinType.Miter,
    EndType.Polygon,
    mitreLimit,
  );
  return moved.map((path) => path.map((p): Point => [p.x / GRID, p.y / GRID]));
}

const areaOf = (paths: Paths64): number => paths.reduce((sum, p) => sum + Clipper.area(p), 0);

/** Area that lies in one of both regions only, mm², by Clipper's exclusive-or on its grid. */
export function differenceArea(a: Rings, b: Rings): number {
  return (
    Math.abs(areaOf(Clipper.booleanOp(ClipType.Xor, onGrid(a), onGrid(b), FillRule.EvenOdd))) / GRID ** 2
  );
}

/** Area of what is left of the same after `margin` mm are taken off all round: 0 if nothing differs by more than twice that. */
export function wideDifferenceArea(a: Rings, b: Rings, margin: number): number {
  const difference = Clipper.booleanOp(ClipType.Xor, onGrid(a), onGrid(b), FillRule.EvenOdd);
  return (
    Math.abs(areaOf(Clipper.inflatePaths(difference, -margin * GRID, JoinType.Miter, EndType.Polygon, 2))) /
    GRID ** 2
  );
}

/** Area of what the first has and the second lacks, after `margin` mm are taken off that all round. */
export function wideLossArea(a: Rings, b: Rings, margin: number): number {
  const lost = Clipper.booleanOp(ClipType.Difference, onGrid(a), onGrid(b), FillRule.EvenOdd);
  return (
    Math.abs(areaOf(Clipper.inflatePaths(lost, -margin * GRID, JoinType.Miter, EndType.Polygon, 2))) /
    GRID ** 2
  );
}

/** Area of a region of outer rings and holes, by Clipper. */
export const regionArea = (rings: Rings): number =>
  Math.abs(areaOf(Clipper.booleanOp(ClipType.Union, onGrid(rings), [], FillRule.EvenOdd))) / GRID ** 2;

/** Total length of all rings, mm. */
export const borderLength = (rings: Rings): number =>
  rings.reduce(
    (sum, r) =>
      sum + r.reduce((s, p, i) => s + Math.hypot(p[0] - r.at(i - 1)![0], p[1] - r.at(i - 1)![1]), 0),
    0,
  );
