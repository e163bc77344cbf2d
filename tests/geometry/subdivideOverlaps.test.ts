import { describe, expect, test } from 'vitest';
import { reversePath, signedArea, type Curve, type Path } from '../../src/geometry';
import { areas, circle, cut, expectAreas, line, middlePart, ring, square } from './cutSquare';

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
