import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  nodePolylines,
  signedAreaOfPoints,
  traceFaces,
  windingNumbers,
  type Noded,
  type NodingPolyline,
  type Pt,
} from '../../src/geometry';
import { turn } from '../../src/geometry/orientation';

const open = (...points: Pt[]): NodingPolyline => ({ points, closed: false });
const closed = (...points: Pt[]): NodingPolyline => ({ points, closed: true });
const square = closed([0, 0], [100, 0], [100, 100], [0, 100]);

/** Pairs of single segments that cross, touch or lie on each other anywhere but at a shared end; exact, every pair tried. */
function badPairs(noded: Noded): number {
  const segments = noded.edges.flatMap((e) => e.points.slice(1).map((q, i): [Pt, Pt] => [e.points[i]!, q]));
  const same = (p: Pt, q: Pt): boolean => p[0] === q[0] && p[1] === q[1];
  const onInside = (p: Pt, a: Pt, b: Pt): boolean =>
    turn(a, b, p) === 0 &&
    !same(p, a) &&
    !same(p, b) &&
    (p[0] - a[0]) * (p[0] - b[0]) + (p[1] - a[1]) * (p[1] - b[1]) < 0;
  let bad = 0;
  segments.forEach(([a, b], i) => {
    for (const [c, d] of segments.slice(i + 1)) {
      if (Math.min(a[0], b[0]) > Math.max(c[0], d[0]) || Math.min(c[0], d[0]) > Math.max(a[0], b[0]))
        continue;
      const isDouble = (same(a, c) && same(b, d)) || (same(a, d) && same(b, c));
      const isTouching = onInside(a, c, d) || onInside(b, c, d) || onInside(c, a, b) || onInside(d, a, b);
      const isCrossing = turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
      if (isDouble || isTouching || isCrossing) bad += 1;
    }
  });
  return bad;
}

/** Nodes − edges + faces − components, which is 1 for every planar drawing (Euler; faces without the unbounded one). */
function eulerSum(noded: Noded): number {
  const parent = noded.nodes.map((_, i) => i);
  const root = (v: number): number => (parent[v] === v ? v : root(parent[v]!));
  for (const e of noded.edges) parent[root(e.from)] = root(e.to);
  const components = new Set(parent.map((_, i) => root(i))).size;
  const faces = traceFaces(noded.nodes.length, noded.edges).faces.length;
  return noded.nodes.length - noded.edges.length + faces - components;
}

/** Area of a face of straight edges, holes taken off. */
function faceAreas(noded: Noded): number[] {
  const traced = traceFaces(noded.nodes.length, noded.edges);
  const areaOf = (ring: readonly { edge: number; forward: boolean }[]): number =>
    signedAreaOfPoints(
      ring.flatMap(({ edge, forward }) => {
        const p = noded.edges[edge]!.points;
        return forward ? p.slice(0, -1) : p.slice(1).toReversed();
      }),
    );
  return traced.faces.map((f) => areaOf(f.ring) + f.holes.reduce((sum, h) => sum + areaOf(h), 0));
}

describe('noding', () => {
  test('a crossing becomes one node with four edges', () => {
    const noded = nodePolylines([open([0, 0], [10, 10]), open([0, 10], [10, 0])]);
    expect(noded.edges.length).toBe(4);
    expect(noded.nodes).toContainEqual([5, 5]);
    expect(noded.edges[0]!.sources).toEqual([{ polyline: 0, start: 0, end: 0.5 }]);
  });

  test('an end closer than the snap distance to a segment becomes a node on it', () => {
    const noded = nodePolylines([open([0, 0], [10, 0]), open([5, 0.009], [5, 8])]);
    expect(noded.edges.length).toBe(3);
    expect(noded.nodes.length).toBe(4);
  });

  test('an end farther than the snap distance stays apart', () => {
    expect(nodePolylines([open([0, 0], [10, 0]), open([5, 0.02], [5, 8])]).edges.length).toBe(2);
  });

  test('stretches that lie on each other become one edge with both sources, the second one against it', () => {
    const noded = nodePolylines([open([0, 0], [10, 0]), open([7, 0], [3, 0])]);
    expect(noded.edges.map((e) => e.sources.length)).toEqual([1, 2, 1]);
    expect(noded.edges[1]!.sources).toEqual([
      { polyline: 0, start: 0.3, end: 0.7 },
      { polyline: 1, start: 1, end: 0 },
    ]);
  });

  test('points along a smooth run are no nodes, the start of a closed polyline is one', () => {
    const noded = nodePolylines([square]);
    expect(noded.nodes).toEqual([[0, 0]]);
    expect(noded.edges[0]!.sources).toEqual([{ polyline: 0, start: 0, end: 4 }]);
  });

  test('a polyline that doubles back on itself becomes one edge run twice', () => {
    const noded = nodePolylines([open([0, 0], [10, 0], [4, 0])]);
    expect(noded.edges.map((e) => e.sources.length)).toEqual([1, 2]);
  });

  test('nothing comes of polylines without length', () => {
    const noded = nodePolylines([open(), open([1, 1]), open([1, 1], [1, 1]), closed([2, 2], [2, 2.001])]);
    expect(noded).toEqual({ nodes: [], edges: [] });
  });

  test('a self-crossing ring falls into faces with winding numbers', () => {
    const noded = nodePolylines([
      closed([0, 0], [10, 0], [10, 10], [4, 10], [4, 4], [14, 4], [14, 2], [2, 2], [2, 12], [0, 12]),
    ]);
    const traced = traceFaces(noded.nodes.length, noded.edges);
    const weights = noded.edges.map((e) => e.sources.reduce((w, s) => w + Math.sign(s.end - s.start), 0));
    const byHand = windingByAngle(
      noded,
      traced.faces.map((f) => f.ring),
    );
    expect(windingNumbers(traced, weights)).toEqual(byHand);
    expect(new Set(byHand).size).toBeGreaterThan(1);
  });

  test('a ring inside a ring is a hole of the outer face and bounds a face of its own', () => {
    const noded = nodePolylines([
      square,
      closed([20, 20], [20, 40], [40, 40], [40, 20]),
      closed([25, 25], [35, 25], [35, 35]),
    ]);
    const traced = traceFaces(noded.nodes.length, noded.edges);
    expect(traced.faces.map((f) => f.holes.length)).toEqual([1, 1, 0]);
    expect(traced.forwardFace).toEqual([0, 0, 2]);
    expect(traced.backwardFace).toEqual([null, 1, 1]);
    expect(faceAreas(noded)).toEqual([9600, 350, 50]);
  });
});

/** The winding number about a point of each face, counted from the angles seen from it: shares no code with the tested one. */
function windingByAngle(
  noded: Noded,
  rings: readonly (readonly { edge: number; forward: boolean }[])[],
): number[] {
  return rings.map((ring) => {
    const { edge, forward } = ring[0]!;
    const p = noded.edges[edge]!.points;
    const [a, b] = forward ? [p[0]!, p[1]!] : [p[p.length - 1]!, p[p.length - 2]!];
    const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const spot: Pt = [
      (a[0] + b[0]) / 2 - ((b[1] - a[1]) / l) * 1e-4,
      (a[1] + b[1]) / 2 + ((b[0] - a[0]) / l) * 1e-4,
    ];
    let turned = 0;
    for (const e of noded.edges) {
      for (const s of e.sources) {
        const points = s.end > s.start ? e.points : e.points.toReversed();
        for (let i = 1; i < points.length; i += 1) {
          const [u, v] = [points[i - 1]!, points[i]!].map((q): Pt => [q[0] - spot[0], q[1] - spot[1]]) as [
            Pt,
            Pt,
          ];
          turned += Math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]);
        }
      }
    }
    return Math.round(turned / (2 * Math.PI)) + 0; // + 0: no negative zero
  });
}

describe('noding of anything', { timeout: 60_000 }, () => {
  const coordinate = fc.oneof(
    fc.integer({ min: 0, max: 6 }),
    fc.integer({ min: 0, max: 600 }).map((v) => v / 100),
  );
  const point = fc.tuple(coordinate, coordinate);
  const polyline = fc.record({ points: fc.array(point, { maxLength: 8 }), closed: fc.boolean() });

  test('edges meet at nodes only, and Euler’s formula holds', () => {
    fc.assert(
      fc.property(fc.array(polyline, { maxLength: 5 }), (polylines) => {
        const noded = nodePolylines(polylines);
        expect(badPairs(noded)).toBe(0);
        if (noded.nodes.length > 0) expect(eulerSum(noded)).toBe(0);
      }),
      { numRuns: 3000, seed: 11 },
    );
  });

  test('points crowded at the snap distance end up planar too', () => {
    const crowded = fc
      .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 40 }))
      .map(([x, y]): Pt => [x * 0.004, y * 0.004]);
    const tangle = fc.record({ points: fc.array(crowded, { maxLength: 12 }), closed: fc.boolean() });
    fc.assert(
      fc.property(fc.array(tangle, { maxLength: 4 }), (polylines) => {
        const noded = nodePolylines(polylines);
        expect(badPairs(noded)).toBe(0);
        if (noded.nodes.length > 0) expect(eulerSum(noded)).toBe(0);
      }),
      { numRuns: 3000, seed: 12 },
    );
  });

  test('winding numbers agree with the angle turned', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 30 })), {
          minLength: 3,
          maxLength: 12,
        }),
        (points) => {
          const noded = nodePolylines([{ points, closed: true }]);
          const traced = traceFaces(noded.nodes.length, noded.edges);
          const weights = noded.edges.map((e) =>
            e.sources.reduce((w, s) => w + Math.sign(s.end - s.start), 0),
          );
          expect(windingNumbers(traced, weights)).toEqual(
            windingByAngle(
              noded,
              traced.faces.map((f) => f.ring),
            ),
          );
        },
      ),
      { numRuns: 1000, seed: 13 },
    );
  });
});
