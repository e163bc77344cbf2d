import { expect, test } from 'vitest';
import { reportedSeams } from '../../src/files/reportedSeams';
import { type Garment, deriveGarment } from '../../src/garment';
import { type Pt, distance, nearestOnPath, offsetRing } from '../../src/geometry';
import {
  type Design,
  type LineId,
  type PanelLine,
  type Piece,
  type Problem,
  severityOf,
} from '../../src/pattern';
import { USUAL, bezier, bodice, bodiceParts, garmentDesign, line, notch } from './garments';

const STRAIGHT = { waistIn: 0, flare: 0 } as const;
const front = bodice('front', STRAIGHT);
const back = bodice('back', { ...STRAIGHT, at: [900, 0] }, { onFold: false });

/** A line across the front at one height and across the back at another. */
const across = (y: number, backY: number): Design =>
  garmentDesign(
    [front, back],
    [
      line('line-1', 'front', [
        [0, y],
        [240, y],
      ]),
      line('line-2', 'back', [
        [900, backY],
        [1140, backY],
      ]),
    ],
  );

const misses = (garment: Garment): Problem[] => garment.problems.filter((p) => p.code.startsWith('lines-'));

test.each([
  [0, null],
  [0.03, null],
  [0.8, 'hint'],
  [1.5, 'hint'],
  [1.6, 'warning'],
  [3, 'warning'],
  [3.1, 'error'],
  [20, 'error'],
])('lines %d mm apart at the side seam are told as %s', (mm, severity) => {
  const garment = deriveGarment(across(400, 400 + mm));
  const found = misses(garment);
  expect(found.map(severityOf)).toEqual(severity ? [severity] : []);
  const rows = reportedSeams(garment).filter((s) => s.a.startsWith('front/side seam'));
  expect(rows.map((r) => [r.a, r.b])).toEqual([
    ['front/side seam', 'back/side seam'],
    ['front/side seam, mirrored', 'back/side seam'],
  ]);
  for (const r of rows) {
    expect(r.mismatches.map((m) => [m.line, m.meets])).toEqual(severity ? [['L1', 'L2']] : []);
    for (const m of r.mismatches) expect(m.mm).toBeCloseTo(mm, 4);
  }
  if (severity) {
    expect(found[0]!.piece).toBe('front');
    expect(distance(found[0]!.at!, [240, 400])).toBeLessThan(0.01);
  }
});

test('what is meant to be off is silent, and said so in the report', () => {
  const design = { ...across(400, 420), meantOff: [{ line: 'line-2' as LineId, end: 'end' as const }] };
  const garment = deriveGarment(design);
  expect(misses(garment)).toEqual([]);
  const [row] = reportedSeams(garment).filter((s) => s.a === 'front/side seam');
  expect(row!.mismatches.map((m) => m.meant)).toEqual([true]);
});

test('lines farther apart than 60 mm have nothing to do with each other', () => {
  expect(misses(deriveGarment(across(300, 361)))).toEqual([]);
  expect(misses(deriveGarment(across(300, 359)))).toHaveLength(1);
});

test('each line end meets one other: the nearest two first', () => {
  const design = across(400, 410);
  const second = line('line-3', 'front', [
    [0, 425],
    [240, 425],
  ]);
  const garment = deriveGarment({ ...design, lines: [...design.lines, second] });
  const seam = garment.neighbours.seams.find((s) => s.a === 'front/side seam')!;
  expect(seam.meetings.map((m) => [m.a.label, m.b.label, Math.round(m.mm)])).toEqual([['L1', 'L2', 10]]);
  expect(seam.alone.map((a) => a.end.label)).toEqual(['L3']);
});

test('a line that is on one side of the body only is compared with that side', () => {
  const onFold = bodice('back', { ...STRAIGHT, at: [900, 0] });
  // The wearer's left: right on the front's drawing, left on the back's.
  const once = (id: string, name: string, from: Pt, to: Pt): PanelLine =>
    line(id, name, [from, to], { once: true });
  const left = once('line-1', 'front', [60, 570], [240, 400]);
  const sameSide = once('line-2', 'back', [840, 570], [660, 404]);
  const otherSide = once('line-2', 'back', [960, 570], [1140, 404]);
  expect(misses(deriveGarment(garmentDesign([front, onFold], [left, sameSide])))).toHaveLength(1);
  expect(misses(deriveGarment(garmentDesign([front, onFold], [left, otherSide])))).toEqual([]);
});

test('seams whose lengths differ beyond the ease meant are told with numbers', () => {
  const longer = bodice('back', { ...STRAIGHT, side: 390, at: [900, 0] }, { onFold: false });
  const told = deriveGarment(garmentDesign([front, longer])).problems.filter((p) =>
    p.code.startsWith('seam-lengths'),
  );
  expect(told.map((p) => [p.code, p.facts])).toEqual([
    [
      'seam-lengths-differ',
      expect.objectContaining({ a: 'front/side seam', b: 'back/side seam', least: 0, most: 0 }),
    ],
  ]);
  const facts = told[0]!.facts as { lengthA: number; lengthB: number };
  expect(facts.lengthA).toBeCloseTo(380, 6);
  expect(facts.lengthB).toBeCloseTo(390, 6);
});

test('widths that differ on the two sides of a seam are told once', () => {
  const design = across(400, 400);
  const edges = [{ piece: back.id, edge: 'side seam', width: 20 }];
  const told = deriveGarment({ ...design, allowances: { ...design.allowances, edges } }).problems.filter(
    (p) => p.code === 'joined-widths-differ',
  );
  expect(told).toHaveLength(1);
});

test('a line drawn across both sides of the body misses once, not twice', () => {
  const whole = line('line-1', 'front', [
    [-300, 400],
    [300, 400],
  ]);
  const other = line('line-2', 'back', [
    [900, 404],
    [1140, 404],
  ]);
  expect(misses(deriveGarment(garmentDesign([front, back], [whole, other])))).toHaveLength(1);
});

test('a cutting line with its allowance inside gives the figures of its stitching line, notches too', () => {
  const bowed = { waistIn: 12, flare: 24 } as const;
  const numbers = [bowed, { ...bowed, side: 386, at: [900, 0] as Pt }];
  const marks = numbers.map((n) => notch(bezier(bodiceParts({ ...USUAL, ...n }).side[0]!, 0.3)));
  const net = [
    bodice('front', bowed, { onFold: false, notches: [marks[0]!] }),
    bodice('back', { ...bowed, side: 386, at: [900, 0] }, { onFold: false, notches: [marks[1]!] }),
  ];
  const cut = net.map((p): Piece => {
    const outer = offsetRing(
      p.outline,
      p.outline.map(() => 15),
    )[0]!;
    // Names are traced along the cutting line, marks where they touch it.
    const edgeNames = p.edgeNames.map((e) => {
      const own = p.outline.flatMap((c, i) => (e.path.some((d) => d[0] === c[0]) ? [i] : []));
      return { name: e.name, path: outer.ring.filter((_, k) => own.includes(outer.origins[k]!)) };
    });
    const notches = p.notches.map((n) => notch(nearestOnPath(outer.ring, n.at).point));
    return { ...p, outline: outer.ring, edgeNames, notches };
  });
  const lines = [
    line('line-1', 'front', [
      [-20, 450],
      [300, 450],
    ]),
    line('line-2', 'back', [
      [880, 455],
      [1200, 455],
    ]),
  ];
  const rows = [net, cut].map((pieces, i) => {
    const design = garmentDesign(pieces, lines);
    const tracing =
      i === 0 ? ({ kind: 'net', outer: 15 } as const) : ({ kind: 'cut', included: 15 } as const);
    const garment = deriveGarment({ ...design, allowances: { ...design.allowances, hem: 15, tracing } });
    return reportedSeams(garment).find((r) => r.a === 'front/side seam')!;
  });
  expect(rows[0]!.mismatches).toHaveLength(1);
  expect(Math.abs(rows[0]!.mismatches[0]!.mm - rows[1]!.mismatches[0]!.mm)).toBeLessThan(0.1);
  expect(Math.abs(rows[0]!.lengthA - rows[1]!.lengthA)).toBeLessThan(0.1);
  expect(Math.abs(rows[0]!.lengthB - rows[1]!.lengthB)).toBeLessThan(0.1);
});
