import { describe, expect, test } from 'vitest';
import { subdivide } from '../../src/geometry';
import { cut, expectAreas, line, square } from './cutSquare';

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

  test('an end that stops a hair short is drawn on, however small the gap', () => {
    for (let gap = 0.001; gap < 0.06; gap += 0.0005) {
      const sub = cut(square, [line([50, 0], [50, 60 - gap]), line([0, 60], [100, 60])]);
      expect([gap, sub.faces.length, sub.looseEnds]).toEqual([gap, 3, []]);
    }
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
