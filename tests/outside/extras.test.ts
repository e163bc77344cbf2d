import fc from 'fast-check';
import { expect, test } from 'vitest';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { deriveGarment } from '../../src/garment';
import {
  type Path,
  type Pt,
  directionAt,
  endOf,
  flattenPath,
  flattenRing,
  startOf,
} from '../../src/geometry';
import { ZIP_ALLOWANCE } from '../../src/neighbours';
import { type ColourId, type Piece, type PieceId, edgePath } from '../../src/pattern';
import { colour, design } from '../making/designs';
import { bodice } from '../neighbours/garments';

const factory = new GeometryFactory();
const coordinates = (points: readonly Pt[]): Coordinate[] => points.map(([x, y]) => new Coordinate(x, y));

/** An edge run on straight over both ends. */
function runOn(path: Path, by: number): Pt[] {
  const { points } = flattenPath(path, 0.002);
  const [u, v] = [directionAt(path[0]!, 0), directionAt(path.at(-1)!, 1)];
  const [a, b] = [startOf(path), endOf(path)];
  return [[a[0] - u[0] * by, a[1] - u[1] * by], ...points, [b[0] + v[0] * by, b[1] + v[1] * by]];
}

/** Area of what of a ring lies within a distance of a polyline, by JTS (jsts 2.12.1): buffer and intersection. */
function areaWithin(ring: readonly Pt[], along: readonly Pt[], depth: number): number {
  const polygon = factory.createPolygon(factory.createLinearRing(coordinates([...ring, ring[0]!])));
  const buffer = BufferOp.bufferOp(factory.createLineString(coordinates(along)), depth, 64);
  return OverlayOp.intersection(polygon, buffer).getArea();
}

const colours = [colour('chalk', '#e8e4d8'), colour('silk', '#99aabb')];

test('facings hold what JTS finds within their depth of the edge', () => {
  const bodies = fc.record({
    width: fc.double({ min: 200, max: 280, noNaN: true }),
    armholeDepth: fc.double({ min: 170, max: 230, noNaN: true }),
    depth: fc.double({ min: 25, max: 60, noNaN: true }),
    edge: fc.constantFrom('neckline', 'armhole'),
  });
  let most = 0;
  fc.assert(
    fc.property(bodies, ({ width, armholeDepth, depth, edge }) => {
      const front: Piece = bodice('front', { width, armholeDepth });
      const doc = design([front], [], {
        colours,
        facings: [{ piece: 'front' as PieceId, edge, depth, colour: 'silk' as ColourId, interfacing: null }],
      });
      const garment = deriveGarment(doc);
      const { whole } = garment.pieces[0]!;
      const path = edgePath(
        whole,
        whole.edges.findIndex((e) => e.plainName === edge && !e.mirrored),
      );
      const expected = areaWithin(flattenRing(whole.stitching), runOn(path, 3 * depth), depth);
      const { area } = garment.extras!.pieces[0]!.whole;
      most = Math.max(most, Math.abs(area / expected - 1));
      expect(Math.abs(area / expected - 1)).toBeLessThan(0.004);
    }),
    { numRuns: 60, seed: 11 },
  );
  expect(most).toBeGreaterThan(0);
});

test('a lining taken up holds its piece less what JTS finds within that distance of the hem', () => {
  const bodies = fc.record({
    width: fc.double({ min: 200, max: 280, noNaN: true }),
    flare: fc.double({ min: -30, max: 90, noNaN: true }),
    waistIn: fc.double({ min: -10, max: 25, noNaN: true }),
    shorter: fc.double({ min: 10, max: 60, noNaN: true }),
  });
  fc.assert(
    fc.property(bodies, ({ width, flare, waistIn, shorter }) => {
      const front = bodice('front', { width, flare, waistIn });
      const doc = design([front], [], {
        colours,
        lining: { pieces: ['front' as PieceId], colour: 'silk' as ColourId, shorter },
      });
      const garment = deriveGarment(doc);
      const { whole } = garment.pieces[0]!;
      const hem = edgePath(
        whole,
        whole.edges.findIndex((e) => e.plainName === 'hem'),
      );
      const strip = areaWithin(flattenRing(whole.stitching), runOn(hem, 4 * shorter), shorter);
      const { area } = garment.extras!.pieces[0]!.whole;
      expect(Math.abs(whole.area - strip - area)).toBeLessThan(2 + strip * 0.001);
    }),
    { numRuns: 60, seed: 12 },
  );
});

test('the allowance at a zip is that of the classroom set: 3/4 in, to the next 5 mm', () => {
  // mudmosh.com (n.d.): 1/2 in at most seams, 3/4 in at a zip, stepped
  expect(Math.ceil((0.75 * 25.4) / 5) * 5).toBe(ZIP_ALLOWANCE);
});
