import { describe, expect, test } from 'vitest';
import { signedArea, type Curve, type Pt } from '../../src/geometry';
import { areas, bezierPoint, circle, cut, expectAreas, line, middlePart, square } from './cutSquare';

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
