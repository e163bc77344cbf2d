import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  pathThrough,
  reversePath,
  signedArea,
  subdivide,
  transformPath,
  type Curve,
  type Matrix,
  type Path,
  type Pt,
  type Ring,
  type SubdivideOptions,
  type Subdivision,
} from '../../src/geometry';
import { brokenPromises } from './checkSubdivision';
import { randomDrawing, randomFrom, smoothRing } from './randomDrawings';

const square: Ring = pathThrough(
  [
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ],
  true,
);
const line = (...points: Pt[]): Path => pathThrough(points, false);
const ring = (...points: Pt[]): Path => pathThrough(points, true);

/** A circle of four cubics; its area is within 3e-4 of the true circle's, so areas are compared with signedArea of it. */
function circle(x: number, y: number, r: number): Ring {
  const k = (r * 4 * (Math.SQRT2 - 1)) / 3;
  const quarter = ([ux, uy]: Pt, [vx, vy]: Pt): Curve => [
    [x + r * ux, y + r * uy],
    [x + r * ux + k * vx, y + r * uy + k * vy],
    [x + r * vx + k * ux, y + r * vy + k * uy],
    [x + r * vx, y + r * vy],
  ];
  const axes: Pt[] = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ];
  return axes.map((u, i) => quarter(u, axes[(i + 1) % 4]!));
}

/** Subdivide, check every general promise, and hand back the result. */
function cut(outline: Ring, lines: readonly Path[], options: SubdivideOptions = {}): Subdivision {
  const sub = subdivide(outline, lines, options);
  expect(brokenPromises(outline, lines, sub)).toEqual([]);
  return sub;
}

const areas = (sub: Subdivision): number[] => sub.faces.map((f) => f.area).sort((a, b) => b - a);

function expectAreas(sub: Subdivision, expected: readonly number[], within = 1e-9): void {
  const found = areas(sub);
  expect(found.length).toBe(expected.length);
  found.forEach((a, i) => expect(Math.abs(a - expected[i]!)).toBeLessThan(within * 10000));
}

describe('subdividing a square', () => {
  test('no lines leave one face, one edge and one node at the start of the outline', () => {
    const sub = cut(square, []);
    expectAreas(sub, [10000]);
    expect(sub.nodes).toEqual([[0, 0]]);
    expect(sub.edges[0]!.sources).toEqual([
      { path: { kind: 'outline' }, start: { index: 0, t: 0 }, end: { index: 3, t: 1 } },
    ]);
  });

  test('a line across makes two faces, and each edge knows where it comes from', () => {
    const sub = cut(square, [line([50, -10], [50, 110])]);
    expectAreas(sub, [5000, 5000]);
    const [inner] = sub.lineEdges[0]!;
    expect(inner!.forward).toBe(true);
    const edge = sub.edges[inner!.edge]!;
    expect(edge.curves).toEqual([
      [
        [50, 0],
        [50, 100],
      ],
    ]);
    expect(edge.sources[0]!.start.t).toBeCloseTo(10 / 120, 12);
    expect(edge.sources[0]!.end.t).toBeCloseTo(110 / 120, 12);
    expect(edge.length).toBe(100);
  });

  test('edges along the outline come first, in order, and tell which of its curves they span', () => {
    const sub = cut(square, [line([30, 0], [100, 40])]);
    const spans = sub.edges.filter((e) => e.backwardFace === null).map((e) => e.sources[0]!);
    expect(spans.map((s) => [s.start.index, s.end.index])).toEqual([
      [0, 0],
      [0, 1],
      [1, 3],
    ]);
    expect(spans.map((s) => s.start.t)).toEqual([0, 0.3, expect.closeTo(0.4, 12)]);
    expect(spans.map((s) => s.end.t)).toEqual([0.3, expect.closeTo(0.4, 12), 1]);
  });

  test('faces come in order of their first edge', () => {
    const sub = cut(square, [line([20, 0], [20, 100]), line([70, 0], [70, 100])]);
    expect(sub.faces.map((f) => Math.round(f.area))).toEqual([2000, 5000, 3000]);
  });

  test('a crossing is one node', () => {
    const sub = cut(square, [line([50, 0], [50, 100]), line([0, 50], [100, 50])]);
    expectAreas(sub, [2500, 2500, 2500, 2500]);
    expect(sub.nodes.filter(([x, y]) => x === 50 && y === 50).length).toBe(1);
    expect(sub.lineEdges.map((l) => l.length)).toEqual([2, 2]);
  });
});

describe('lines through corners and along edges', () => {
  test('a line through two corners takes the corners as they are', () => {
    const sub = cut(square, [line([0, 0], [100, 100])]);
    expectAreas(sub, [5000, 5000]);
    expect(sub.nodes).toContainEqual([100, 100]);
    expect(sub.nodes.length).toBe(2);
  });

  test('a line that passes a corner by less than a hundredth goes through it', () => {
    const sub = cut(square, [line([-50, -50.005], [150, 149.995])]);
    expect(sub.nodes).toContainEqual([0, 0]);
    expect(sub.nodes).toContainEqual([100, 100]);
    expect(sub.faces.length).toBe(2);
  });

  test('a line along part of an edge divides nothing; the stretch carries both sources', () => {
    const sub = cut(square, [line([20, 0], [70, 0])]);
    expectAreas(sub, [10000]);
    expect(sub.idleLines).toEqual([0]);
    expect(sub.lineEdges).toEqual([[]]);
    expect(sub.edges.map((e) => e.sources.length)).toEqual([1, 2, 1]);
    expect(sub.edges[1]!.sources[1]).toEqual({
      path: { kind: 'line', line: 0 },
      start: { index: 0, t: 0 },
      end: { index: 0, t: 1 },
    });
  });

  test('a line that runs along an edge, round the corner and then off it divides where it leaves', () => {
    const sub = cut(square, [line([30, 0], [100, 0], [100, 60], [0, 60])]);
    expectAreas(sub, [6000, 4000]);
    expect(sub.idleLines).toEqual([]);
    expect(sub.lineEdges[0]!.length).toBe(1);
  });

  test('a curve laid over part of a curved outline, with other parameters, coincides with it', () => {
    const outline = circle(0, 0, 100);
    const half: Curve = outline[0]!;
    // The middle 0.2..0.7 of the first quarter by de Casteljau, and then straight across.
    const at = (t: number): Pt => bezierPoint(half, t);
    const piece = middlePart(half, 0.2, 0.7);
    const sub = cut(outline, [[piece, [at(0.7), [-100, 0]]]]);
    expect(sub.faces.length).toBe(2);
    expect(sub.edges.some((e) => e.sources.length === 2)).toBe(true);
    expect(areas(sub).reduce((a, b) => a + b)).toBeCloseTo(signedArea(outline), 6);
  });
});

/** Blossom of a cubic: the control points of its part from a to b (independent of the code under test). */
function middlePart(c: Curve, a: number, b: number): Curve {
  const blossom = (r: number, s: number, t: number): Pt => {
    const lerp = (p: Pt, q: Pt, u: number): Pt => [p[0] + (q[0] - p[0]) * u, p[1] + (q[1] - p[1]) * u];
    const [p, q, v, w] = c as readonly [Pt, Pt, Pt, Pt];
    const [x, y, z] = [lerp(p, q, r), lerp(q, v, r), lerp(v, w, r)];
    return lerp(lerp(x, y, s), lerp(y, z, s), t);
  };
  return [blossom(a, a, a), blossom(a, a, b), blossom(a, b, b), blossom(b, b, b)];
}
const bezierPoint = (c: Curve, t: number): Pt => middlePart(c, t, t)[0];

describe('touching without crossing', () => {
  test('a line that only touches a corner divides nothing', () => {
    const sub = cut(square, [line([-50, 50], [50, -50])]);
    expectAreas(sub, [10000]);
    expect(sub.idleLines).toEqual([0]);
  });

  test('a bent line that touches an edge from inside makes two faces that meet there', () => {
    const sub = cut(square, [line([0, 80], [50, 100], [100, 80])]);
    expectAreas(sub, [9000, 500, 500]);
    expect(sub.nodes).toContainEqual([50, 100]);
  });

  test('a curve that touches an edge from inside', () => {
    const sub = cut(square, [
      [
        [
          [0, 50],
          [30, 50 + 200 / 3],
          [70, 50 + 200 / 3],
          [100, 50],
        ],
      ],
    ]);
    expect(sub.faces.length).toBe(3);
  });

  test('a ring that touches the outline in one point is a face of its own', () => {
    const sub = cut(square, [circle(50, 30, 30)]);
    expect(sub.faces.length).toBe(2);
    expect(sub.faces.every((f) => f.holes.length === 0)).toBe(true);
    const inset = signedArea(circle(50, 30, 30));
    expectAreas(sub, [10000 - inset, inset], 1e-6);
  });

  test('two circles that touch each other from outside, and one from inside', () => {
    const [small, twin, inner] = [circle(30, 50, 20), circle(70, 50, 20), circle(40, 50, 10)];
    const sub = cut(square, [small, twin, inner]);
    const [big, little] = [signedArea(small), signedArea(inner)];
    expectAreas(
      sub,
      [10000 - 2 * big, big, big - little, little].sort((a, b) => b - a),
      2e-6,
    );
  });

  test('two curves that come within a fortieth of a millimetre without touching stay apart', () => {
    const sub = cut(square, [circle(29.9875, 50, 20), circle(70.0125, 50, 20)]);
    expect(sub.faces.length).toBe(3);
    expect(sub.faces.find((f) => f.holes.length === 2)).toBeDefined();
  });
});

describe('ends near things', () => {
  test('an end within the gap is drawn straight on', () => {
    const sub = cut(square, [line([20, 99.3], [80, 0.7])]);
    expect(sub.faces.length).toBe(2);
    expect(sub.looseEnds).toEqual([]);
    const edge = sub.edges[sub.lineEdges[0]![0]!.edge]!;
    const slope = (80 - 20) / (0.7 - 99.3);
    expect(sub.nodes[edge.from]![0]).toBeCloseTo(20 + slope * 0.7, 9);
    expect(edge.curves.length).toBe(3);
    expect([edge.sources[0]!.start, edge.sources[0]!.end]).toEqual([
      { index: 0, t: 0 },
      { index: 0, t: 1 },
    ]);
  });

  test('an end that points past its target goes to the nearest point', () => {
    const sub = cut(square, [line([50, 0], [50, 99.5], [40, 99.5])]);
    expect(sub.faces.length).toBe(2);
    expect(sub.nodes).toContainEqual([40, 100]);
  });

  test('an end farther off than the gap is loose and knows what lies ahead', () => {
    const sub = cut(square, [line([50, 0], [50, 60])]);
    expectAreas(sub, [10000]);
    expect(sub.looseEnds).toEqual([{ line: 0, end: 'end', point: [50, 60], gapAhead: 40, reach: [50, 100] }]);
    expect(sub.idleLines).toEqual([0]);
    expect(sub.nodes.length).toBe(1);
  });

  test('the joining gap can be set', () => {
    expect(subdivide(square, [line([50, 0], [50, 97])], { joinGap: 4 }).faces.length).toBe(2);
    expect(subdivide(square, [line([50, 0], [50, 99.5])], { joinGap: 0.2 }).faces.length).toBe(1);
    expect(subdivide(square, [line([50, 0], [50, 99.5])], { joinGap: 0 }).looseEnds.length).toBe(1);
  });

  test('an overshoot is trimmed without a word', () => {
    const sub = cut(square, [line([0, 50], [100, 50]), line([50, 0], [50, 50.8])]);
    expectAreas(sub, [5000, 2500, 2500]);
    expect(sub.looseEnds).toEqual([]);
    expect(sub.nodes.length).toBe(5);
  });

  test('a longer overshoot is a loose end', () => {
    const sub = cut(square, [line([0, 50], [100, 50]), line([50, 0], [50, 52])]);
    expectAreas(sub, [5000, 2500, 2500]);
    expect(sub.looseEnds).toEqual([{ line: 1, end: 'end', point: [50, 52], gapAhead: 48, reach: [50, 100] }]);
  });

  test('a line with both ends loose that crosses others keeps its middle', () => {
    const lines = [line([30, 0], [30, 100]), line([70, 0], [70, 100]), line([10, 50], [90, 40])];
    const sub = cut(square, lines);
    expect(sub.faces.length).toBe(4);
    expect(sub.looseEnds.map((l) => [l.line, l.end])).toEqual([
      [2, 'start'],
      [2, 'end'],
    ]);
    expect(sub.looseEnds.map((l) => l.reach![0])).toEqual([0, 100]);
  });

  test('a line that floats is loose at both ends, one that ends on it is not blamed', () => {
    const sub = cut(square, [line([20, 50], [80, 50]), line([50, 0], [50, 50])]);
    expectAreas(sub, [10000]);
    expect(sub.looseEnds.map((l) => [l.line, l.end])).toEqual([
      [0, 'start'],
      [0, 'end'],
    ]);
    expect(sub.idleLines).toEqual([0, 1]);
  });

  test('a line that starts outside and ends in the open inside is loose at its inner end only', () => {
    const sub = cut(square, [line([50, -30], [50, 40])]);
    expect(sub.looseEnds.map((l) => [l.line, l.end, l.gapAhead])).toEqual([[0, 'end', 60]]);
  });

  test('an end that has just crossed a line but is nearer to the next thing ahead goes on to it', () => {
    const sub = cut(square, [line([0, 98.5], [100, 99.2]), line([50, 0], [50, 99.6])]);
    expect(sub.faces.length).toBe(4);
  });
});

describe('ends that meet', () => {
  test('two lines meet at one point of the outline, whichever way each missed it', () => {
    for (const [da, db] of [
      [0, 0],
      [-0.4, -0.4],
      [-0.4, 0],
      [0.4, -0.4],
      [0.4, 0.4],
    ] as const) {
      const sub = cut(square, [line([20, 0], [50, 100 + da]), line([80, 0], [50, 100 + db])]);
      expect(sub.faces.filter((f) => f.area > 1).length).toBe(3);
      expect(sub.faces.length).toBe(3);
      expect(sub.looseEnds).toEqual([]);
    }
  });

  test('two lines that cross just short of the outline both count', () => {
    const sub = cut(square, [line([20, 0], [50.1, 99.6]), line([80, 0], [49.9, 99.6])]);
    expect(sub.faces.length).toBe(3);
  });

  test('lines meeting end to end in the open make the corners of an inset', () => {
    const exact = [
      line([20, 20], [80, 20]),
      line([80, 20], [80, 80]),
      line([80, 80], [20, 80]),
      line([20, 80], [20, 20]),
    ];
    const sub = cut(square, exact);
    expectAreas(sub, [6400, 3600]);
    expect(sub.faces[0]!.holes[0]!.length).toBe(4);
  });

  test('corners of an inset drawn short, crossed or askew are closed', () => {
    const lines = [
      line([20.5, 20], [79.6, 20]),
      line([80, 20.4], [80, 80.5]),
      line([80.3, 80], [20.2, 80]),
      line([20, 79.5], [20, 19.6]),
    ];
    const sub = cut(square, lines);
    expectAreas(sub, [6400, 3600]);
    expect(sub.looseEnds).toEqual([]);
  });

  test('a nearly closed line is closed', () => {
    const sub = cut(square, [line([20, 20], [80, 20], [80, 80], [20, 80], [20, 20.7])]);
    expectAreas(sub, [6400, 3600]);
  });

  test('lines facing each other across a gap become one', () => {
    const sub = cut(square, [line([0, 50], [49.6, 50]), line([50.4, 50], [100, 50])]);
    expectAreas(sub, [5000, 5000]);
  });
});

describe('lines over lines', () => {
  const across = line([50, 0], [50, 100]);
  test.each([
    ['the same', [across, across]],
    ['reversed', [across, reversePath(across)]],
    ['partly', [across, line([50, 20], [50, 70])]],
    ['overlapping', [line([50, 0], [50, 70]), line([50, 30], [50, 100])]],
    ['three times', [across, across, reversePath(across)]],
  ])('a line drawn twice counts once: %s', (_, lines) => {
    const sub = cut(square, lines);
    expectAreas(sub, [5000, 5000]);
    expect(sub.idleLines).toEqual([]);
    expect(sub.looseEnds).toEqual([]);
  });

  test('a curve drawn twice, reversed and split elsewhere, counts once', () => {
    const curve: Curve = [
      [0, 30],
      [40, 90],
      [60, -40],
      [100, 60],
    ];
    const parts: Path = [middlePart(curve, 0, 0.37), middlePart(curve, 0.37, 1)];
    const once = cut(square, [[curve]]);
    const sub = cut(square, [[curve], reversePath(parts)]);
    expectAreas(sub, areas(once), 1e-4);
    expect(sub.lineEdges[0]!.map((h) => h.forward)).toEqual(sub.lineEdges[0]!.map(() => true));
    expect(sub.lineEdges[1]!.every((h) => !h.forward)).toBe(true);
  });

  test('nearly parallel lines cross once', () => {
    const sub = cut(square, [line([0, 50], [100, 50]), line([0, 49.95], [100, 50.05])]);
    expectAreas(sub, [5000 - 1.25, 5000 - 1.25, 1.25, 1.25]);
  });

  test('parallel lines a twentieth of a millimetre apart bound a strip', () => {
    const sub = cut(square, [line([0, 50], [100, 50]), line([0, 50.05], [100, 50.05])]);
    expectAreas(sub, [5000, 4995, 5]);
  });

  test('nearly parallel curves that wind about each other keep every face', () => {
    const a: Curve = [
      [0, 50],
      [30, 80],
      [60, 20],
      [100, 50],
    ];
    const b: Curve = [
      [0, 50.2],
      [30, 79.6],
      [60, 20.4],
      [100, 49.8],
    ];
    const sub = cut(square, [[a], [b]]);
    expect(sub.faces.length).toBeGreaterThanOrEqual(4);
    const c: Curve = [
      [0, 50.004],
      [30, 79.996],
      [60, 20.004],
      [100, 49.996],
    ];
    expect(cut(square, [[a], [c]]).faces.length).toBe(2);
  });
});

describe('lines with lines', () => {
  test('three lines through one point meet in one node', () => {
    const sub = cut(square, [line([0, 50], [100, 50]), line([0, 0], [100, 100]), line([30, 100], [70, 0])]);
    expect(sub.faces.length).toBe(6);
    expect(sub.nodes.filter(([x, y]) => Math.hypot(x - 50, y - 50) < 1).length).toBe(1);
  });

  test('T-joins from both sides at one point meet in one node', () => {
    const sub = cut(square, [
      line([0, 50], [100, 50]),
      line([50, 0], [50, 50]),
      line([50, 100], [50, 50.003]),
    ]);
    expectAreas(sub, [2500, 2500, 2500, 2500]);
    expect(sub.nodes.length).toBe(6);
  });

  test('a pinwheel has five faces', () => {
    const lines = [
      line([40, 0], [40, 60]),
      line([100, 40], [40, 40]),
      line([60, 100], [60, 40]),
      line([0, 60], [60, 60]),
    ];
    const sub = cut(square, lines);
    expectAreas(sub, [2400, 2400, 2400, 2400, 400]);
    expect(sub.looseEnds).toEqual([]);
  });

  test('a line that crosses itself bounds its loop', () => {
    const sub = cut(square, [line([0, 50], [60, 50], [60, 20], [40, 20], [40, 100])]);
    expectAreas(sub, [7400, 2000, 600]);
    expect(sub.lineEdges[0]!.length).toBe(3);
  });

  test('a cubic with a loop bounds its loop', () => {
    const sub = cut(square, [
      [
        [
          [20, 0],
          [140, 90],
          [-40, 90],
          [80, 0],
        ],
      ],
    ]);
    expect(sub.faces.length).toBe(3);
  });

  test('a line that leaves and enters again cuts each part inside', () => {
    const shape = ring([0, 0], [100, 0], [100, 100], [70, 100], [70, 30], [30, 30], [30, 100], [0, 100]);
    const sub = cut(shape, [line([-5, 60], [105, 60])]);
    expectAreas(
      sub,
      [30 * 40 + 30 * 60 * 2 + 40 * 30 - 1200, 1200, 1200].sort((a, b) => b - a),
    );
    expect(sub.lineEdges[0]!.length).toBe(2);
    expect(sub.looseEnds).toEqual([]);
  });

  test('a line wholly outside, a point and a tiny line are idle', () => {
    const sub = cut(square, [
      line([200, 0], [200, 100]),
      line([50, 50], [50, 50]),
      [],
      line([40, 40], [40.3, 40]),
    ]);
    expectAreas(sub, [10000]);
    expect(sub.idleLines).toEqual([0, 1, 2, 3]);
    expect(sub.looseEnds).toEqual([]);
  });
});

describe('rings inside', () => {
  test('insets nest, each a hole of the one round it', () => {
    const sub = cut(square, [
      ring([10, 10], [90, 10], [90, 90], [10, 90]),
      ring([20, 20], [20, 80], [80, 80], [80, 20]),
      circle(50, 50, 10),
    ]);
    const dot = signedArea(circle(50, 50, 10));
    expectAreas(
      sub,
      [3600, 3600 - dot, 2800, dot].sort((a, b) => b - a),
      1e-8,
    );
    expect(sub.faces.map((f) => f.holes.length)).toEqual([1, 1, 1, 0]);
    expect(sub.idleLines).toEqual([]);
  });

  test('an inset held by a line is still a hole’s face; the line has the same face on both sides', () => {
    const sub = cut(square, [ring([30, 30], [70, 30], [70, 70], [30, 70]), line([0, 50], [30, 50])]);
    expectAreas(sub, [8400, 1600]);
    const bridge = sub.edges[sub.lineEdges[1]![0]!.edge]!;
    expect(bridge.forwardFace).toBe(bridge.backwardFace);
    expect(sub.idleLines).toEqual([1]);
  });

  test('two insets crossing each other make three faces inside', () => {
    const sub = cut(square, [
      ring([20, 20], [60, 20], [60, 60], [20, 60]),
      ring([40, 40], [80, 40], [80, 80], [40, 80]),
    ]);
    expectAreas(sub, [10000 - 2800, 1200, 1200, 400]);
  });

  test('a ring drawn the other way round gives the same faces', () => {
    const one = cut(square, [circle(50, 50, 30)]);
    expectAreas(cut(square, [reversePath(circle(50, 50, 30))]), areas(one));
  });
});

describe('any drawing', { timeout: 60_000 }, () => {
  test('the same input gives the same answer to the last bit', () => {
    for (let seed = 0; seed < 40; seed += 1) {
      const { outline, lines } = randomDrawing(seed, true);
      expect(JSON.stringify(subdivide(outline, lines))).toBe(JSON.stringify(subdivide(outline, lines)));
    }
  });

  test('mirrored, turned, moved and scaled drawings have the same faces, and so has one started from another corner', () => {
    const matrices: Matrix[] = [
      [0, 1, -1, 0, 0, 0],
      [1, 0, 0, 1, 1234.5, -987.6],
      [Math.cos(0.3), Math.sin(0.3), -Math.sin(0.3), Math.cos(0.3), 10, 20],
    ];
    for (let seed = 0; seed < 60; seed += 1) {
      const { outline, lines } = randomDrawing(seed, seed % 2 === 0);
      const plain = areas(subdivide(outline, lines));
      const close = (other: Subdivision): void => {
        const found = areas(other);
        expect(found.length).toBe(plain.length);
        found.forEach((a, i) => expect(Math.abs(a - plain[i]!)).toBeLessThan(5e-5 * signedArea(outline)));
      };
      for (const m of matrices)
        close(
          subdivide(
            transformPath(outline, m),
            lines.map((l) => transformPath(l, m)),
          ),
        );
      const mirror: Matrix = [-1, 0, 0, 1, 0, 0];
      close(
        subdivide(
          reversePath(transformPath(outline, mirror)),
          lines.map((l) => transformPath(l, mirror)),
        ),
      );
      close(subdivide([...outline.slice(2), ...outline.slice(0, 2)], lines));
      close(subdivide(outline, lines.map(reversePath)));
    }
  });

  test('drawings on a coarse grid, full of coincidences, keep every promise', () => {
    const point = fc
      .tuple(fc.integer({ min: -1, max: 9 }), fc.integer({ min: -1, max: 9 }))
      .map(([x, y]): Pt => [x * 12.5, y * 12.5]);
    const drawn = fc
      .array(point, { minLength: 1, maxLength: 6 })
      .chain((points) => fc.boolean().map((closed) => pathThrough(points, closed)));
    fc.assert(
      fc.property(fc.array(drawn, { maxLength: 6 }), (lines) => {
        expect(brokenPromises(square, lines, subdivide(square, lines))).toEqual([]);
      }),
      { numRuns: 700, seed: 21 },
    );
  });

  test('drawings with every point a little off keep every promise', () => {
    const near = fc.integer({ min: -4, max: 4 }).map((v) => v * 0.004);
    const coordinate = fc.tuple(fc.integer({ min: 0, max: 4 }), near).map(([v, d]) => v * 25 + d);
    const point = fc.tuple(coordinate, coordinate).map(([x, y]): Pt => [x, y]);
    const curve = fc.tuple(point, point, point, point).map((c): Path => [c]);
    const drawn = fc.oneof(
      curve,
      fc.array(point, { minLength: 2, maxLength: 4 }).map((p) => pathThrough(p, false)),
    );
    fc.assert(
      fc.property(fc.array(drawn, { maxLength: 6 }), (lines) => {
        expect(brokenPromises(square, lines, subdivide(square, lines))).toEqual([]);
      }),
      { numRuns: 700, seed: 22 },
    );
  });

  test('any finite numbers are survived, however large', () => {
    const number = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.integer({ min: -50, max: 50 }),
    );
    const point = fc.tuple(number, number);
    const curve = fc.oneof(
      fc.tuple(point, point),
      fc.tuple(point, point, point, point),
    ) as fc.Arbitrary<Curve>;
    fc.assert(
      fc.property(
        fc.array(curve, { maxLength: 4 }),
        fc.array(fc.array(curve, { maxLength: 3 }), { maxLength: 3 }),
        (outline, lines) => {
          expect(subdivide(outline, lines).faces).toBeDefined();
        },
      ),
      { numRuns: 400, seed: 23 },
    );
  });

  test('two hundred curved lines make two hundred and one faces', () => {
    const random = randomFrom(7);
    const comb = Array.from({ length: 200 }, (_, i): Path => {
      const x = (i + 1) * (100 / 201);
      const bend = 0.2 * random();
      return [
        [
          [x, 0],
          [x + bend, 30],
          [x - bend, 70],
          [x, 100],
        ],
      ];
    });
    const sub = cut(square, comb);
    expect(sub.faces.length).toBe(201);
    expect(sub.looseEnds).toEqual([]);
  });

  test('a grid of curves on a smooth outline has the faces Euler’s formula asks for', () => {
    const outline = smoothRing([
      [0, 0],
      [100, -10],
      [110, 100],
      [-5, 105],
    ]);
    const lines = [20, 40, 60, 80].flatMap((v): Path[] => [
      [
        [
          [-40, v],
          [30, v + 15],
          [60, v - 15],
          [150, v],
        ],
      ],
      [
        [
          [v, -40],
          [v + 15, 30],
          [v - 15, 60],
          [v, 150],
        ],
      ],
    ]);
    expect(cut(outline, lines).faces.length).toBe(25);
  });
});
