import { expect, test } from 'vitest';
import { type Ring, nearestOnPath, pathThrough, signedArea } from '../../src/geometry';
import { openOut, withoutWedges } from '../../src/pattern';
import { piece, rectangle, ringThrough } from '../making/designs';

const NET = { kind: 'net', outer: 15 } as const;
const edge = (name: string, ...points: [number, number][]) => ({ name, path: pathThrough(points, false) });

/** 200 wide, 300 tall half with the fold on its left. */
const half = piece(rectangle(200, 300), {
  fold: [
    [0, 0],
    [0, 300],
  ],
});

test('a half piece opens out to twice its area, and the fold is no edge any more', () => {
  const { whole } = openOut(half, NET);
  expect(whole.unfolded).toBe(true);
  expect(signedArea(whole.stitching)).toBeCloseTo(2 * 200 * 300, 9);
  expect(whole.edges.map((e) => e.length).sort((a, b) => a - b)).toEqual([300, 300, 400, 400]);
});

test('an edge that runs over the fold is one edge, the others come in two sides', () => {
  const { whole } = openOut(
    { ...half, edgeNames: [edge('side seam', [200, 0], [200, 300]), edge('hem', [0, 300], [200, 300])] },
    NET,
  );
  expect(whole.edges.map((e) => [e.name, e.length] as const).sort(([a], [b]) => a.localeCompare(b))).toEqual([
    ['edge 1', 400],
    ['hem', 400],
    ['side seam', 300],
    ['side seam, mirrored', 300],
  ]);
});

test('every curve knows its edge, and edges follow each other round the ring', () => {
  const { whole } = openOut(half, NET);
  expect(whole.edgeOf).toHaveLength(whole.stitching.length);
  whole.edges.forEach((e, i) => {
    for (let c = e.first; c <= e.last; c += 1) expect(whole.edgeOf[c]).toBe(i);
  });
});

test('a traced name laid over part of a straight side splits it there', () => {
  const { whole, problems } = openOut(
    piece(rectangle(200, 300), { edgeNames: [edge('zip', [200, 50], [200.5, 220])] }),
    NET,
  );
  expect(whole.edges.find((e) => e.name === 'zip')!.length).toBeCloseTo(170, 1);
  expect(whole.edges).toHaveLength(6);
  expect(problems.map((p) => p.code)).not.toContain('edge-name-off-outline');
});

test('a traced name off the outline is told and not used', () => {
  const { whole, problems } = openOut(
    piece(rectangle(200, 300), { edgeNames: [edge('zip', [150, 50], [150, 220])] }),
    NET,
  );
  expect(problems.map((p) => p.code)).toContain('edge-name-off-outline');
  expect(whole.edges.map((e) => e.name)).toEqual(['edge 1', 'edge 2', 'edge 3', 'edge 4']);
});

test('a dart is left out of the area, and its mouth out of the edge', () => {
  const dart = {
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [200, 90],
      [200, 110],
    ],
    point: [120, 100],
  } as const;
  const { whole } = openOut(
    { ...half, darts: [dart], edgeNames: [edge('side seam', [200, 0], [200, 300])] },
    NET,
  );
  expect(whole.darts).toHaveLength(2);
  expect(whole.area).toBeCloseTo(2 * (200 * 300 - (20 * 80) / 2), 6);
  expect(whole.edges.filter((e) => e.plainName === 'side seam').map((e) => e.length)).toEqual([
    expect.closeTo(280, 6),
    expect.closeTo(280, 6),
  ]);
});

test('a double-pointed dart is left out of the area', () => {
  const dart = {
    kind: 'double',
    legs: null,
    treatment: { kind: 'keep' },
    points: [
      [100, 50],
      [110, 150],
      [100, 250],
      [90, 150],
    ],
  } as const;
  const { whole } = openOut({ ...half, darts: [dart] }, NET);
  expect(whole.area).toBeCloseTo(2 * (200 * 300 - (20 * 200) / 2), 6);
});

test('a dart that stops short of the edge is drawn on along its legs and told', () => {
  const dart = {
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [196, 90],
      [196, 110],
    ],
    point: [120, 100],
  } as const;
  const { whole, problems } = openOut(piece(rectangle(200, 300), { darts: [dart] }), NET);
  expect(whole.darts[0]).toMatchObject({
    mouth: [
      [200, expect.closeTo(100 - (10 * 80) / 76, 9)],
      [200, expect.closeTo(100 + (10 * 80) / 76, 9)],
    ],
  });
  expect(problems.find((p) => p.code === 'dart-mouth-off-edge')).toMatchObject({
    facts: { gap: 4 },
    at: [196, 90],
  });
});

test('a cutting-line tracing is sewn inside by its allowance, darts and all', () => {
  const dart = {
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [200, 90],
      [200, 110],
    ],
    point: [120, 100],
  } as const;
  const { whole } = openOut(piece(rectangle(200, 300), { darts: [dart] }), { kind: 'cut', included: 10 });
  expect(signedArea(whole.stitching)).toBeCloseTo(180 * 280, 6);
  const intake = 20 * (70 / 80);
  expect(whole.area).toBeCloseTo(180 * 280 - (intake * 70) / 2, 4);
});

test('an allowance that swallows the piece is refused', () => {
  const { problems } = openOut(piece(rectangle(20, 300)), { kind: 'cut', included: 15 });
  expect(problems.map((p) => p.code)).toContain('allowance-swallows-piece');
});

test('a slanting fold mirrors as well', () => {
  const ring: Ring = ringThrough([
    [0, 0],
    [100, 30],
    [80, 200],
    [50, 100],
  ]);
  const { whole } = openOut(
    piece(ring, {
      fold: [
        [0, 0],
        [50, 100],
      ],
    }),
    NET,
  );
  expect(signedArea(whole.stitching)).toBeCloseTo(2 * signedArea(ring), 6);
});

test('levels reach over the whole piece and notches come in pairs', () => {
  const { whole } = openOut(
    {
      ...half,
      levels: [
        {
          name: 'waist',
          line: [
            [0, 150],
            [200, 150],
          ],
        },
      ],
      notches: [
        { at: [200, 150], inner: [194, 150] },
        { at: [0, 0], inner: [0, 6] },
      ],
    },
    NET,
  );
  expect(whole.levels[0]!.line).toEqual([
    [-200, 150],
    [200, 150],
  ]);
  expect(whole.notches.map((n) => n.at)).toEqual([
    [200, 150],
    [0, 0],
    [-200, 150],
  ]);
});

test('grain that was not traced is taken along the fold and told', () => {
  const { whole, problems } = openOut({ ...half, grain: null }, NET);
  expect(whole.grain).toEqual([
    [0, 0],
    [0, 300],
  ]);
  expect(problems.map((p) => p.code)).toContain('grain-assumed');
});

test('splicing a wedge out gives the area that subdividing gives', () => {
  const ring: Ring = [
    [
      [0, 0],
      [200, 0],
    ],
    [
      [200, 0],
      [230, 100],
      [170, 200],
      [200, 300],
    ],
    [
      [200, 300],
      [0, 300],
    ],
    [
      [0, 300],
      [0, 0],
    ],
  ];
  const whole = {
    kind: 'single',
    legs: null,
    treatment: { kind: 'keep' },
    mouth: [
      [205.5, 60],
      [199, 90],
    ],
    point: [120, 80],
  } as const;
  const halves = openOut(piece(ring, { darts: [whole] }), NET).whole;
  const placed = halves.darts[0]!;
  if (placed.kind !== 'single') throw new Error('the dart changed its kind');
  const [a, b] = placed.mouth;
  // The same wedge in two darts that share a leg: the shared leg ends on a corner of the first cut, so it is subdivided.
  const middle = nearestOnPath(halves.stitching, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]).point;
  const two = withoutWedges(halves.stitching, [
    { kind: 'single', legs: null, mouth: [a, middle], point: placed.point },
    { kind: 'single', legs: null, mouth: [middle, b], point: placed.point },
  ]);
  expect(two.wedgeArea).toBeCloseTo(withoutWedges(halves.stitching, [placed]).wedgeArea, 3);
});
