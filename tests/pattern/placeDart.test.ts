import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Curve,
  type Pt,
  distance,
  nearestOnPath,
  pathLength,
  splitCurve,
  withEnds,
} from '../../src/geometry';
import { type Dart, dartLegLengths, openOut } from '../../src/pattern';
import { dart, piece, rectangle } from '../making/designs';

const NET = { kind: 'net', outer: 15 } as const;
const CUT = { kind: 'cut', included: 12 } as const;
const curved = (first: Curve, second: Curve): Dart => ({
  kind: 'single',
  mouth: [first[0], second.at(-1)!],
  point: second[0],
  legs: [[first], [second]],
  treatment: { kind: 'keep' },
});
const placed = (d: Dart, tracing: typeof NET | typeof CUT = NET) => {
  const { whole, problems } = openOut(piece(rectangle(200, 300), { darts: [d] }), tracing);
  const own = whole.darts[0]!;
  if (own.kind !== 'single') throw new Error('not single');
  return { own, whole, gaps: problems.filter((p) => p.code === 'dart-mouth-off-edge') };
};

test('one mouth end may touch and the other stop short: only that leg is drawn on, and its end is told', () => {
  const { own, gaps } = placed(dart([200, 90], [120, 100], [192, 109]));
  expect(own.mouth[0]).toEqual([200, 90]);
  expect(own.mouth[1][0]).toBeCloseTo(200, 9);
  expect(own.mouth[1][1]).toBeCloseTo(100 + (9 / 72) * 80, 9);
  expect(gaps).toHaveLength(1);
  expect(gaps[0]).toMatchObject({ facts: { gap: expect.closeTo(8, 9) }, at: [192, 109] });
});

test('a gap of a millimetre is closed without a word', () => {
  const { own, gaps } = placed(dart([199.2, 90], [120, 100], [199.2, 110]));
  expect(gaps).toEqual([]);
  for (const m of own.mouth) expect(m[0]).toBeCloseTo(200, 9);
});

test('a leg that runs beside the edge ends at the nearest point instead', () => {
  const { own } = placed(dart([195, 60], [190, 160], [200, 130]));
  expect(own.mouth[0]).toEqual([200, 60]);
});

test('legs traced over the edge, into the allowance, are cut back to it along themselves', () => {
  const { own, gaps } = placed(dart([216, 88], [120, 100], [216, 112]));
  expect(gaps).toEqual([]);
  for (const [i, m] of own.mouth.entries()) {
    expect(m[0]).toBeCloseTo(200, 9);
    expect(m[1]).toBeCloseTo(100 + (i === 0 ? -1 : 1) * (12 / 96) * 80, 9);
  }
});

test('curved legs are cut back where their curve crosses the edge, and stay that curve', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 5, max: 25, noNaN: true }),
      fc.double({ min: -12, max: 12, noNaN: true }),
      fc.double({ min: -12, max: 12, noNaN: true }),
      (over, bow, other) => {
        // legs that cross are drawn apart: see untangleLegs.test.ts
        fc.pre(other - bow > -7.5);
        const first: Curve = [
          [200 + over, 80],
          [180, 84 + bow],
          [150, 96 + bow],
          [120, 100],
        ];
        const second: Curve = [
          [120, 100],
          [150, 104 + other],
          [180, 112 + other],
          [200 + over, 122],
        ];
        for (const tracing of [NET, CUT]) {
          const { own, gaps } = placed(curved(first, second), tracing);
          expect(gaps).toEqual([]);
          const edge = tracing === NET ? 200 : 188;
          for (const m of own.mouth) expect(m[0]).toBeCloseTo(edge, 6);
          own.legs!.forEach((leg, i) => {
            for (const c of leg)
              for (const t of [0.2, 0.5, 0.8]) {
                const p = splitCurve(c, t)[0].at(-1)!;
                expect(nearestOnPath([i === 0 ? first : second], p).distance).toBeLessThan(1e-6);
              }
          });
        }
      },
    ),
    { seed: 3, numRuns: 150 },
  );
});

test('a curved leg that stops short is drawn straight on from its end', () => {
  const first: Curve = [
    [194, 82],
    [180, 86],
    [150, 97],
    [120, 100],
  ];
  const second: Curve = [
    [120, 100],
    [150, 103],
    [180, 114],
    [194, 118],
  ];
  const { own, gaps } = placed(curved(first, second));
  expect(gaps[0]?.facts).toEqual({ gap: 6 });
  // Straight on from [194, 82] in the direction away from its handle [180, 86]: 4 up in 14.
  expect(own.mouth[0][1]).toBeCloseTo(82 - (4 / 14) * 6, 9);
  expect(own.legs![0]).toHaveLength(2);
  expect(dartLegLengths(own)[0]).toBeCloseTo(pathLength([first]) + Math.hypot(6, (4 / 14) * 6), 6);
  for (const leg of own.legs!) leg.slice(1).forEach((c, i) => expect(c[0]).toEqual(leg[i]!.at(-1)));
});

test('mirrored darts mirror their curved legs', () => {
  const first: Curve = [
    [200, 80],
    [180, 84],
    [150, 96],
    [120, 100],
  ];
  const second: Curve = withEnds(
    [
      [120, 100],
      [150, 104],
      [180, 112],
      [200, 122],
    ],
    [120, 100],
    [200, 122],
  );
  const { whole } = openOut(
    piece(rectangle(200, 300), {
      darts: [curved(first, second)],
      fold: [
        [0, 0],
        [0, 300],
      ],
    }),
    NET,
  );
  const [own, image] = whole.darts;
  const flip = (p: Pt): Pt => [-p[0], p[1]];
  expect(dartLegLengths(image!)).toEqual(
    dartLegLengths(own!)
      .toReversed()
      .map((l) => expect.closeTo(l, 9)),
  );
  if (image?.kind !== 'single' || own?.kind !== 'single') throw new Error('not single');
  image.legs![0][0]!.forEach((p, i) =>
    expect(distance(p, flip(own.legs![1][0]!.toReversed()[i]!))).toBeLessThan(1e-9),
  );
});
