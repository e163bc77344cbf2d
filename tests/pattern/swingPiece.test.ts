import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { designFromTracings, readTracing } from '../../src/files';
import { type Pt, distance, isInRing, flattenRing, pathThrough } from '../../src/geometry';
import {
  type Dart,
  type DartPart,
  type Piece,
  dartAngle,
  openOut,
  placeNear,
  swingMap,
  swingPlaces,
  swungPiece,
} from '../../src/pattern';
import { dart, doubleDart, piece, rectangle } from '../making/designs';

const NET = { kind: 'net', outer: 15 } as const;
const edge = (name: string, ...points: Pt[]) => ({ name, path: pathThrough(points, false) });
const to = (name: string, share: number, part = 1, close: DartPart['close'] = null): DartPart => ({
  to: { edge: name, nth: 0, share },
  share: part,
  close,
});
const swings = (d: Dart, ...parts: DartPart[]): Dart => ({ ...d, treatment: { kind: 'swing', parts } });

/** 300 wide, 400 tall, fold at the left, edges named. */
const half = (over: Partial<Piece>): Piece =>
  piece(rectangle(300, 400), {
    fold: [
      [0, 0],
      [0, 400],
    ],
    edgeNames: [
      edge('top', [0, 0], [300, 0]),
      edge('side', [300, 0], [300, 400]),
      edge('hem', [300, 400], [0, 400]),
    ],
    ...over,
  });
const sideDart = dart([300, 190], [150, 200], [300, 210]);
const whyNot = (p: Piece): unknown[] =>
  openOut(p, NET).problems.flatMap((x) => (x.code === 'dart-not-swung' ? [x.facts.why] : []));

test('marks on the part that turns go with it, those on the fold’s part stay', () => {
  const p = half({
    darts: [swings(sideDart, to('top', 0.5)), doubleDart([230, 60], [235, 100], [230, 140], [225, 100])],
    notches: [
      { at: [300, 100], inner: [294, 100] },
      { at: [300, 300], inner: [294, 300] },
    ],
    levels: [
      {
        name: 'bust',
        line: [
          [0, 180],
          [300, 180],
        ],
      },
      {
        name: 'own',
        line: [
          [220, 40],
          [290, 40],
        ],
      },
    ],
    grain: [
      [40, 300],
      [40, 100],
    ],
  });
  const s = swungPiece(p);
  expect(s.problems).toEqual([]);
  const map = swingMap(p);
  expect(s.notches[0]!.at).toEqual(map.point([300, 100]));
  expect(s.notches[0]!.at[1]).toBeGreaterThan(100);
  expect(s.notches[1]).toEqual(p.notches[1]);
  expect(s.grain).toEqual(p.grain);
  const fisheye = s.darts.find((d) => d.traced === 1)!.shape;
  expect(fisheye.kind === 'double' && fisheye.points[0]).toEqual(map.point([230, 60]));
  expect(s.levels[0]).toEqual(p.levels[0]);
  const [a, b] = s.levels[1]!.line;
  expect(a[1]).toBeCloseTo(b[1], 9);
  expect([(a[0] + b[0]) / 2, a[1]]).toEqual(map.point([255, 40]).map((v) => expect.closeTo(v, 9)));
  const { whole } = openOut(p, NET);
  expect(whole.notches).toHaveLength(4);
  expect(whole.edges.find((e) => e.name === 'top')!.length).toBeCloseTo(600, 6);
  expect(whole.darts.map((d) => [d.traced, d.mirrored, d.close])).toEqual([
    [0, false, null],
    [0, true, null],
    [1, false, null],
    [1, true, null],
  ]);
});

test('a part that panel lines swallow says so on the placed dart, the rest is kept', () => {
  const { whole } = openOut(half({ darts: [swings(sideDart, to('top', 0.5, 0.75, 'ease'))] }), NET);
  const own = whole.darts.filter((d) => !d.mirrored);
  expect(own.map((d) => d.close)).toEqual([null, 'ease']);
  const angle = dartAngle(sideDart);
  expect(own.map(dartAngle)).toEqual([expect.closeTo(angle / 4, 9), expect.closeTo((3 * angle) / 4, 9)]);
});

test('a dart can be swung to where the edge meets the fold, and two darts to one place', () => {
  const waist = dart([90, 400], [100, 290], [110, 400]);
  const p = half({ darts: [swings(sideDart, to('top', 0)), swings(waist, to('top', 0))] });
  const { whole, problems } = openOut(p, NET);
  expect(problems.filter((x) => x.code === 'dart-not-swung')).toEqual([]);
  expect(whole.area).toBeCloseTo(2 * (300 * 400 - 10 * 150 - 10 * 110), 2);
  expect(whole.edges.find((e) => e.name === 'hem')!.length).toBeCloseTo(2 * 280, 4);
  const own = whole.darts.filter((d) => !d.mirrored);
  expect(own.map(dartAngle)).toEqual([
    expect.closeTo(dartAngle(sideDart), 9),
    expect.closeTo(dartAngle(waist), 9),
  ]);
});

test('what cannot be swung stays, and is told why', () => {
  const fisheye = doubleDart([150, 100], [158, 200], [150, 300], [142, 200]);
  expect(whyNot(half({ darts: [swings(fisheye, to('top', 0.5))] }))).toEqual(['double-pointed']);
  expect(whyNot(half({ darts: [swings(sideDart, to('neckline', 0.5))] }))).toEqual(['no such place']);
  expect(whyNot(half({ darts: [swings(sideDart, to('side', 190 / 380))] }))).toEqual(['in the mouth']);
  const inTheWay = doubleDart([150, 80], [190, 110], [150, 140], [110, 110]);
  expect(whyNot(half({ darts: [swings(sideDart, to('top', 0.5)), inTheWay] }))).toEqual(['not seen']);
  const outside = dart([300, 190], [310, 200], [300, 210]);
  const spoilt = openOut(half({ darts: [swings(outside, to('top', 0.5))] }), NET);
  expect(spoilt.problems.map((p) => p.code)).toContain('dart-unsound');
  expect(spoilt.whole.darts).toEqual([]);
  const stays = openOut(half({ darts: [swings(sideDart, to('neckline', 0.5))] }), NET).whole;
  expect(stays.darts[0]).toMatchObject({ point: [150, 200], close: null });
  expect(stays.area).toBeCloseTo(2 * (300 * 400 - 10 * 150), 6);
});

test('the centre edge’s part stays on a piece without a fold, else the grain’s, else the larger', () => {
  const free = half({ fold: null, darts: [swings(sideDart, to('top', 0.5))], grain: null });
  const stays = (p: Piece, at: Pt): boolean => distance(swingMap(p).point(at), at) === 0;
  expect([stays(free, [20, 20]), stays(free, [280, 20])]).toEqual([true, false]);
  const grained: Piece = {
    ...free,
    grain: [
      [250, 30],
      [250, 130],
    ],
  };
  expect([stays(grained, [20, 20]), stays(grained, [280, 20])]).toEqual([false, true]);
  const centred: Piece = {
    ...grained,
    edgeNames: [...grained.edgeNames, edge('centre back', [0, 400], [0, 0])],
  };
  expect([stays(centred, [20, 20]), stays(centred, [280, 20])]).toEqual([true, false]);
});

test('a cut tracing swings on its cutting line, and its stitching line follows', () => {
  const p = half({ fold: null, darts: [swings(sideDart, to('top', 0.5))] });
  const { whole } = openOut(p, { kind: 'cut', included: 10 });
  const [own] = whole.darts;
  expect(dartAngle(own!)).toBeCloseTo(dartAngle(sideDart), 9);
  const inside = flattenRing(whole.outline);
  if (own?.kind !== 'single') throw new Error('not single');
  for (const m of own.mouth) expect(isInRing(m, inside)).toBe(true);
  expect(Math.max(...own.mouth.map((m) => m[1]))).toBeGreaterThan(9.9);
});

test('every place proposed for the darts of the examples can be swung to', () => {
  let count = 0;
  for (const file of ['bodice', 'sheath']) {
    const text = readFileSync(join(import.meta.dirname, `../../demo-data/${file}.svg`), 'utf8');
    const read = readTracing(text, file);
    if (!read.ok) throw new Error(file);
    for (const p of designFromTracings([read.value]).pieces) {
      p.darts.forEach((d, i) => {
        const places = swingPlaces(p, i);
        if (d.kind === 'double') expect(places).toEqual([]);
        for (const { place, at } of places) {
          const moved = {
            ...p,
            darts: p.darts.map((x, k) => (k === i ? swings(x, { to: place, share: 1, close: null }) : x)),
          };
          expect(whyNot(moved)).toEqual([]);
          const near = placeNear(p, at)!;
          expect(distance(near.at, at)).toBeLessThan(1e-6);
          count += 1;
        }
      });
    }
  }
  expect(count).toBeGreaterThan(20);
});

test('places are named by their edge, and where it ends', () => {
  const words = swingPlaces(half({ darts: [sideDart] }), 0).map((s) => s.words);
  expect(words).toEqual([
    'top, end at the fold',
    'top, middle',
    'top, end at side',
    'side, end at hem',
    'hem, middle',
    'hem, end at the fold',
  ]);
  const near = placeNear(half({ darts: [sideDart] }), [296, 305])!;
  expect(near).toEqual({
    place: { edge: 'side', nth: 0, share: expect.closeTo(285 / 380, 9) },
    at: [300, 305],
  });
});
