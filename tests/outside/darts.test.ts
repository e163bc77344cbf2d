import { expect, test } from 'vitest';
import { designFromTracings, readTracing } from '../../src/files';
import {
  type Design,
  type OutlinePlace,
  type Piece,
  type WholePiece,
  dartAngle,
  dartIntake,
  dartLegLengths,
  openOut,
  swingMap,
} from '../../src/pattern';
import { rectangle, piece, dart as dartOf } from '../making/designs';
import { pathThrough } from '../../src/geometry';

// Everything below is worked out anew with complex numbers on corner points: nothing of src/geometry is used for what is expected.
type C = readonly [number, number];
const plus = (a: C, b: C): C => [a[0] + b[0], a[1] + b[1]];
const minus = (a: C, b: C): C => [a[0] - b[0], a[1] - b[1]];
const times = (a: C, b: C): C => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const abs = (a: C): number => Math.sqrt(a[0] ** 2 + a[1] ** 2);
const over = (a: C, b: C): C => {
  const n = b[0] ** 2 + b[1] ** 2;
  return [(a[0] * b[0] + a[1] * b[1]) / n, (a[1] * b[0] - a[0] * b[1]) / n];
};
const turn = (p: C, about: C, radians: number): C =>
  plus(about, times(minus(p, about), [Math.cos(radians), Math.sin(radians)]));
/** Argument of (b - p)/(a - p), radians. */
const angleAt = (p: C, a: C, b: C): number => {
  const q = over(minus(b, p), minus(a, p));
  return Math.atan2(q[1], q[0]);
};
/** Shoelace, mm². */
const shoelace = (ring: readonly C[]): number =>
  Math.abs(
    ring.reduce(
      (s, a, i) => s + a[0] * ring[(i + 1) % ring.length]![1] - a[1] * ring[(i + 1) % ring.length]![0],
      0,
    ) / 2,
  );
const along = (line: readonly C[]): number =>
  line.slice(1).reduce((s, p, i) => s + abs(minus(p, line[i]!)), 0);

/** Points of a curve given by four control points, the last left out, by Bernstein's sum. */
const bend = (a: C, b: C, c: C, d: C, n = 2000): C[] =>
  Array.from({ length: n }, (_, i) => {
    const [t, u] = [i / n, 1 - i / n];
    const w = [u ** 3, 3 * u * u * t, 3 * u * t * t, t ** 3] as const;
    return [0, 1].map((k) => w[0] * a[k]! + w[1] * b[k]! + w[2] * c[k]! + w[3] * d[k]!) as unknown as C;
  });

/** Written as it would be traced: a path for the reader, and the same as points for the check. */
const text = (p: C): string => `${p[0]} ${p[1]}`;

// An invented half bodice, mm: fold at the left, a side dart, a waist dart, a shoulder dart and a fisheye dart.
const NECK: C = [0, 92];
const NECK_SHOULDER: C = [70, 12];
const SHOULDER: C = [190, 56];
const UNDERARM: C = [248, 216];
const SIDE_A: C = [250, 262];
const SIDE_B: C = [249, 288];
const SIDE_WAIST: C = [214, 418];
const HEM: C = [0, 430];
const neckline = [NECK, [34, 90], [62, 62], NECK_SHOULDER] as const;
const armhole = [SHOULDER, [170, 120], [176, 206], UNDERARM] as const;
const lower = [SIDE_B, [242, 330], [216, 380], SIDE_WAIST] as const;
const hem = [SIDE_WAIST, [150, 428], [80, 430], HEM] as const;
const BUST: C = [118, 250];

const bezier = (c: readonly C[]): string => `C${c.slice(1).map(text).join(' ')}`;
const outlineText = `M${text(NECK)}${bezier(neckline)}L${text(SHOULDER)}${bezier(armhole)}L${text(SIDE_A)}L${text(SIDE_B)}${bezier(lower)}${bezier(hem)}Z`;
const outlinePoints: C[] = [
  ...bend(...(neckline as unknown as [C, C, C, C])),
  NECK_SHOULDER,
  ...bend(...(armhole as unknown as [C, C, C, C])),
  UNDERARM,
  SIDE_A,
  ...bend(...(lower as unknown as [C, C, C, C])),
  ...bend(...(hem as unknown as [C, C, C, C])),
  HEM,
];

const svgOf = (
  darts: string,
): string => `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="460mm" viewBox="0 0 300 460">
  <path data-role="outline" d="${outlineText}"/>
  <path data-role="fold" d="M${text(HEM)}L${text(NECK)}"/>
  <path data-role="grain" d="M30 380L30 150"/>
  <path data-role="edge neckline" d="M${text(NECK)}${bezier(neckline)}"/>
  <path data-role="edge shoulder" d="M${text(NECK_SHOULDER)}L${text(SHOULDER)}"/>
  <path data-role="edge armhole" d="M${text(SHOULDER)}${bezier(armhole)}"/>
  <path data-role="edge side seam" d="M${text(UNDERARM)}L${text(SIDE_A)}L${text(SIDE_B)}${bezier(lower)}"/>
  <path data-role="edge hem" d="M${text(SIDE_WAIST)}${bezier(hem)}"/>
  ${darts}
</svg>`;

function bodice(darts: string): Piece {
  const read = readTracing(svgOf(darts), 'bodice.svg');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return designFromTracings([read.value]).pieces[0]!;
}
const NET: Design['allowances']['tracing'] = { kind: 'net', outer: 15 };
const opened = (p: Piece): WholePiece => openOut(p, NET).whole;
const edge = (w: WholePiece, name: string): number => w.edges.find((e) => e.name === name)!.length;
const swing = (p: Piece, dart: number, ...parts: [OutlinePlace, number][]): Piece => ({
  ...p,
  darts: p.darts.map((d, i) =>
    i === dart
      ? {
          ...d,
          treatment: { kind: 'swing', parts: parts.map(([to, share]) => ({ to, share, close: null })) },
        }
      : d,
  ),
});
const MM = 0.2;
const DEGREE = Math.PI / 180;
const near = (value: number, expected: number, by: number): void =>
  expect(Math.abs(value - expected)).toBeLessThan(by);

const sideDart = `<path data-role="dart" d="M${text(SIDE_A)}L${text(BUST)}L${text(SIDE_B)}"/>`;

// "Dart (sewing)", encyclopedia article, mirror at piglix.com (n.d.): the angle at the point is the intake and does not change when a dart is moved;
// the width at the edge does. From that w' = w L'/L (derived): 50 mm on a 200 mm leg are 14.3615°, and 37.5 mm on a 150 mm leg.
test('a dart of 50 mm on 200 mm legs is 14.3615° and becomes 37.5 mm wide on 150 mm legs', () => {
  const half = Math.asin(25 / 200);
  near((2 * half) / DEGREE, 14.3615, 5e-5);
  const x = 200 * Math.cos(half);
  const names = [
    {
      name: 'top',
      path: pathThrough(
        [
          [-200, -150],
          [x, -150],
        ],
        false,
      ),
    },
  ];
  const traced = piece(rectangle(200 + x, 350, [-200, -150]), {
    darts: [dartOf([x, -25], [0, 0], [x, 25])],
    edgeNames: names,
    grain: [
      [-150, 0],
      [-150, 100],
    ],
  });
  const before = opened(traced).darts[0]!;
  near(dartIntake(before), 50, 1e-9);
  const after = opened(swing(traced, 0, [{ edge: 'top', nth: 0, share: 200 / (200 + x) }, 1])).darts;
  expect(after).toHaveLength(1);
  near(dartAngle(after[0]!), dartAngle(before), 1e-9);
  near(dartLegLengths(after[0]!)[0]!, 150, 1e-6);
  near(dartIntake(after[0]!), 37.5, 1e-6);
});

test('area, intake, angle and edges of a half bodice with side, waist, shoulder and fisheye darts agree with complex numbers', () => {
  const waist: readonly [C, C, C] = [
    [100, hemY(100)],
    [112, 292],
    [124, hemY(124)],
  ];
  const shoulder: readonly [C, C, C] = [onShoulder(0.45), [128, 108], onShoulder(0.57)];
  const fisheye: readonly C[] = [
    [60, 240],
    [67, 320],
    [60, 400],
    [53, 320],
  ];
  const p = bodice(`${sideDart}
    <path data-role="dart" d="M${waist.map(text).join('L')}"/>
    <path data-role="dart" d="M${shoulder.map(text).join('L')}"/>
    <path data-role="dart" d="M${fisheye.map(text).join('L')}Z"/>`);
  const w = opened(p);
  const hemPart = hemPoints(100, 124);
  const wedges = [
    shoelace([SIDE_A, BUST, SIDE_B]),
    shoelace([...hemPart, waist[1]]),
    shoelace(shoulder),
    shoelace(fisheye),
  ];
  near(w.area, 2 * (shoelace(outlinePoints) - wedges.reduce((a, b) => a + b, 0)), 2);
  const [side, mid, top, eye] = w.darts.filter((d) => !d.mirrored) as [
    WholePiece['darts'][number],
    WholePiece['darts'][number],
    WholePiece['darts'][number],
    WholePiece['darts'][number],
  ];
  near(dartIntake(side), abs(minus(SIDE_A, SIDE_B)), MM);
  near(dartIntake(mid), abs(minus(waist[0], waist[2])), MM);
  near(dartIntake(top), abs(minus(shoulder[0], shoulder[2])), MM);
  near(dartIntake(eye), 14, MM);
  near(dartAngle(side), Math.abs(angleAt(BUST, SIDE_A, SIDE_B)), 0.1 * DEGREE);
  near(dartAngle(mid), Math.abs(angleAt(waist[1], waist[0], waist[2])), 0.1 * DEGREE);
  near(dartAngle(top), Math.abs(angleAt(shoulder[1], shoulder[0], shoulder[2])), 0.1 * DEGREE);
  near(dartAngle(eye), 2 * Math.atan2(7, 80), 0.1 * DEGREE);
  near(edge(w, 'shoulder'), 0.88 * abs(minus(SHOULDER, NECK_SHOULDER)), MM);
  const sideLength =
    abs(minus(UNDERARM, SIDE_A)) + along([...bend(...(lower as unknown as [C, C, C, C])), SIDE_WAIST]);
  near(edge(w, 'side seam'), sideLength, MM);
  near(edge(w, 'hem'), 2 * (along([...bend(...(hem as unknown as [C, C, C, C])), HEM]) - along(hemPart)), MM);
});

/** Height of the hem at an x, and its points between two. */
const hemLine: C[] = [...bend(...(hem as unknown as [C, C, C, C]), 20000), HEM];
function hemY(x: number): number {
  return hemLine.reduce((best, p) => (Math.abs(p[0] - x) < Math.abs(best[0] - x) ? p : best))[1];
}
function hemPoints(from: number, to: number): C[] {
  return hemLine.filter((p) => p[0] >= from - 0.01 && p[0] <= to + 0.01).toReversed();
}
function onShoulder(share: number): C {
  return plus(NECK_SHOULDER, times(minus(SHOULDER, NECK_SHOULDER), [share, 0]));
}

test('a dart with curved legs takes out what lies between its curves', () => {
  const legs = [
    [SIDE_A, [210, 263], [160, 256], BUST],
    [BUST, [160, 262], [210, 272], SIDE_B],
  ] as const;
  const w = opened(bodice(`<path data-role="dart" d="M${text(SIDE_A)}${legs.map(bezier).join('')}"/>`));
  const wedge = legs.flatMap((l) => bend(...(l as unknown as [C, C, C, C])));
  near(w.area, 2 * (shoelace(outlinePoints) - shoelace([...wedge, SIDE_B])), 2);
  const own = w.darts[0]!;
  near(dartAngle(own), Math.abs(angleAt(BUST, SIDE_A, SIDE_B)), 0.1 * DEGREE);
  legs.forEach((l, i) => {
    const end = l[3];
    near(dartLegLengths(own)[i]!, along([...bend(...(l as unknown as [C, C, C, C])), end]), MM);
  });
});

test('a fisheye dart with curved legs takes out what lies between its curves', () => {
  const sides = [
    [
      [60, 240],
      [64, 270],
      [68, 295],
      [68, 320],
    ],
    [
      [68, 320],
      [68, 345],
      [64, 372],
      [60, 400],
    ],
    [
      [60, 400],
      [56, 372],
      [52, 345],
      [52, 320],
    ],
    [
      [52, 320],
      [52, 295],
      [56, 270],
      [60, 240],
    ],
  ] as const;
  const d = `M60 240${sides.map((s) => bezier(s as unknown as C[])).join('')}Z`;
  const w = opened(bodice(`<path data-role="dart" d="${d}"/>`));
  const ring = sides.flatMap((s) => bend(...(s as unknown as [C, C, C, C])));
  near(w.area, 2 * (shoelace(outlinePoints) - shoelace(ring)), 2);
  near(dartIntake(w.darts[0]!), 16, MM);
});

test('the side dart swung to the shoulder: every point of the part between is turned about the dart’s point by its angle', () => {
  const p = swing(bodice(sideDart), 0, [{ edge: 'shoulder', nth: 0, share: 0.5 }, 1]);
  const before = opened(bodice(sideDart));
  const w = opened(p);
  const angle = angleAt(BUST, SIDE_A, SIDE_B);
  const cut = onShoulder(0.5);
  const own = w.darts.find((d) => !d.mirrored)!;
  near(dartAngle(own), Math.abs(angle), 1e-6);
  near(dartIntake(own), 2 * abs(minus(cut, BUST)) * Math.sin(Math.abs(angle) / 2), MM);
  // The fold's part stays: what lies from the cut round the armhole to the dart turns, so that its upper leg comes to the lower one.
  const shut = turn(SIDE_A, BUST, angle);
  near(angleAt(BUST, shut, SIDE_B), 0, 1e-9);
  const half = [
    ...bend(...(neckline as unknown as [C, C, C, C])),
    NECK_SHOULDER,
    cut,
    BUST,
    ...[cut, ...bend(...(armhole as unknown as [C, C, C, C])), UNDERARM, SIDE_A].map((q) =>
      turn(q, BUST, angle),
    ),
    ...bend(...(lower as unknown as [C, C, C, C])),
    ...bend(...(hem as unknown as [C, C, C, C])),
    HEM,
  ];
  near(w.area, 2 * shoelace(half), 2);
  near(w.area, before.area, 2);
  for (const name of ['shoulder', 'armhole', 'neckline', 'hem', 'side seam']) {
    if (name === 'side seam') continue;
    near(edge(w, name), edge(before, name), 0.01);
  }
  near(
    edge(w, 'side seam'),
    edge(before, 'side seam'),
    MM + Math.abs(abs(minus(SIDE_A, BUST)) - abs(minus(SIDE_B, BUST))),
  );
  const map = swingMap(p);
  for (const q of [armhole[3], [165, 150], [220, 240]] as C[]) {
    const [x, y] = map.point(q);
    const [ex, ey] = turn(q, BUST, angle);
    near(x, ex, 1e-6);
    near(y, ey, 1e-6);
  }
  for (const q of [
    [30, 200],
    [200, 380],
    [60, 60],
  ] as C[])
    expect(map.point(q)).toEqual(q);
});

test('a dart split between shoulder and neckline keeps the sum of its angles, and a third of it where it was', () => {
  const p = swing(
    bodice(sideDart),
    0,
    [{ edge: 'shoulder', nth: 0, share: 0.5 }, 1 / 3],
    [{ edge: 'neckline', nth: 0, share: 0.6 }, 1 / 3],
  );
  const { whole, problems } = openOut(p, NET);
  expect(problems.map((x) => x.code)).not.toContain('dart-not-swung');
  const angles = whole.darts.filter((d) => !d.mirrored).map(dartAngle);
  const angle = Math.abs(angleAt(BUST, SIDE_A, SIDE_B));
  expect(angles).toHaveLength(3);
  for (const a of angles) near(a, angle / 3, 0.1 * DEGREE);
  near(whole.area, opened(bodice(sideDart)).area, 2);
  for (const name of ['shoulder', 'armhole', 'neckline', 'hem'])
    near(edge(whole, name), edge(opened(bodice(sideDart)), name), 0.01);
});

test('a dart that another one lies in the way of is carried along: swinging the waist dart turns the side dart too', () => {
  const waist: readonly [C, C, C] = [
    [100, hemY(100)],
    [112, 292],
    [124, hemY(124)],
  ];
  const p = swing(bodice(`${sideDart}<path data-role="dart" d="M${waist.map(text).join('L')}"/>`), 1, [
    { edge: 'neckline', nth: 0, share: 0.6 },
    1,
  ]);
  const { whole, problems } = openOut(p, NET);
  expect(problems.map((x) => x.code)).not.toContain('dart-not-swung');
  const [side] = whole.darts.filter((d) => !d.mirrored && d.traced === 0);
  const angle = angleAt(waist[1], waist[2], waist[0]);
  const [x, y] = turn(BUST, waist[1], angle);
  if (side?.kind !== 'single') throw new Error('no side dart');
  near(side.point[0], x, MM);
  near(side.point[1], y, MM);
  near(dartAngle(side), Math.abs(angleAt(BUST, SIDE_A, SIDE_B)), 1e-6);
});

// A cut tracing: the intake counts on the stitching line, where the legs cross it.
test('on a cutting line the dart’s intake is that on the stitching line inside it', () => {
  const traced = piece(rectangle(300, 400), { darts: [dartOf([130, 400], [150, 220], [170, 400])] });
  const { whole } = openOut(traced, { kind: 'cut', included: 15 });
  near(dartIntake(whole.darts[0]!), 40 * (165 / 180), 1e-6);
  near(dartAngle(whole.darts[0]!), 2 * Math.atan2(20, 180), 1e-9);
});

// Seam length match: 1/16 in (1.6 mm), 1/8 in (3.2 mm) works for many. "10 Patternwork Skills", Threads no. 200, 2018/19.
test('legs that differ by more than 1.5 and 3 mm are told as seams are', () => {
  const told = (difference: number): string[] => {
    const [a, b]: [C, C] = [
      [130, 400],
      [170, 400],
    ];
    // The point is at 180 and 180 + difference from the mouth's ends: where two circles meet.
    const x = (180 ** 2 - (180 + difference) ** 2) / 80 + 150;
    const y = 400 - Math.sqrt(180 ** 2 - (x - 130) ** 2);
    near(abs(minus([x, y], b)) - abs(minus([x, y], a)), difference, 1e-9);
    const traced = piece(rectangle(300, 400), { darts: [dartOf(a, [x, y], b)] });
    return openOut(traced, NET)
      .problems.map((p) => p.code)
      .filter((c) => c.startsWith('dart'));
  };
  expect(told(0.2)).toEqual([]);
  expect(told(1.4)).toEqual(['dart-legs-differ-slightly']);
  expect(told(1.6)).toEqual(['dart-legs-differ']);
  expect(told(2.9)).toEqual(['dart-legs-differ']);
  expect(told(3.3)).toEqual(['dart-legs-differ-much']);
});
