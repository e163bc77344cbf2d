import { expect, test } from 'vitest';
import { type Path, nearestOnPath, pathLength, pointAtLength } from '../../src/geometry';
import { panelledPiece } from '../../src/panels';
import { type ClosingId, type Design, type LineId, type TrimId, sayProblem } from '../../src/pattern';
import { betweenLines, panelToTrim, parallelPath, trimToPanel } from '../../src/trim';
import { tied } from '../../src/lines';
import { designOf, line, piece, quarterCircle, straight, trimsOf } from './trimmedDesign';

const box = piece('front');
const sliced = (d: Design): ReturnType<typeof panelledPiece> => panelledPiece(d.pieces[0]!, d);
const narrowest = (d: Design): ReturnType<typeof panelledPiece>['panels'][number] =>
  [...sliced(d).panels].sort((a, b) => a.area - b.area)[0]!;
const toTrim = (d: Design): ReturnType<typeof panelToTrim> =>
  panelToTrim(d, sliced(d), narrowest(d), 'new' as TrimId);
const toPanel = (d: Design): ReturnType<typeof trimToPanel> =>
  trimToPanel(d, [sliced(d)], 'new' as TrimId, 'fresh' as LineId);
const value = (o: ReturnType<typeof toTrim>): Design => {
  if (!o.ok) throw new Error(sayProblem(o.problems[0]));
  return o.value;
};
const xs = (d: Design): number[] => d.lines.map((l) => l.path[0]![0][0]).sort((a, b) => a - b);

const pair = [line('left', straight([100, 0], [100, 600])), line('right', straight([110, 0], [110, 600]))];

test('two parallel straight lines become one exactly halfway, with a trim as wide as the panel in its colour', () => {
  const after = value(toTrim(designOf(pair, [], [box])));
  expect(after.lines.map((l) => [l.id, l.path])).toEqual([['left', straight([105, 0], [105, 600])]]);
  expect(after.trims).toMatchObject([
    { width: 10, fill: '#112233', kind: 'straight', on: { line: 'left', from: 0, to: 1 } },
  ]);
  expect(trimsOf(after).problems.filter((p) => p.code.startsWith('trim-end'))).toEqual([]);
});

test('there and back gives the same two lines, and a panel between them in the same colour', () => {
  const start = designOf(pair, [], [box]);
  const back = value(toPanel(value(toTrim(start))));
  expect(back.trims).toEqual([]);
  expect(xs(back)).toEqual([100, 110]);
  expect(back.lines.every((l) => pathLength(l.path) === 600)).toBe(true);
  expect(narrowest(back).area).toBeCloseTo(6000, 3);
  expect(sliced(back).panels).toHaveLength(3);
});

test('back and there again gives the same line and width', () => {
  const trim = value(toTrim(designOf(pair, [], [box])));
  const again = value(toTrim(value(toPanel(trim))));
  expect(again.lines.map((l) => l.path)).toEqual(trim.lines.map((l) => l.path));
  expect(again.trims.map((t) => t.width)).toEqual([10]);
});

test('a slanting pair that ends on a slanting edge is put on that edge', () => {
  const slant = piece('front', {
    outline: straight([0, 0], [400, 100], [400, 600], [0, 600], [0, 0]),
  });
  const lines = [
    line('left', straight([100, 25], [100, 600])),
    line('right', straight([112, 28], [112, 600])),
  ];
  const after = value(toTrim(designOf(lines, [], [slant])));
  expect(after.lines[0]!.path).toEqual(straight([106, 26.5], [106, 600]));
  const back = value(toPanel(after));
  for (const l of back.lines) expect(nearestOnPath(slant.outline, l.path[0]![0]).distance).toBeLessThan(1e-9);
  expect(xs(back).map((x) => Math.round(x * 1e9) / 1e9)).toEqual([100, 112]);
});

test('curves that are parallel to each other give the parallel halfway', () => {
  const [inner, outer] = [quarterCircle([0, 0], 195), quarterCircle([0, 0], 205)];
  const between = betweenLines(inner, outer);
  if (typeof between === 'string') throw new Error(between);
  expect(between.width).toBeCloseTo(10, 1);
  const middle = between.middle as Path;
  for (const share of [0.1, 0.35, 0.5, 0.8]) {
    const { point } = pointAtLength(middle, share * pathLength(middle));
    expect(Math.hypot(...point)).toBeCloseTo(200, 0);
    expect(Math.abs(nearestOnPath(inner, point).distance - 5)).toBeLessThan(0.05);
  }
});

test('a curved trim becomes two lines at half its width and back to where it was', () => {
  const curve = quarterCircle([0, 0], 200);
  const beside = parallelPath(curve, 6)!;
  const other = parallelPath(curve, -6)!;
  const between = betweenLines(other, beside);
  if (typeof between === 'string') throw new Error(between);
  expect(between.width).toBeCloseTo(12, 1);
  for (const share of [0, 0.2, 0.5, 0.9, 1]) {
    const { point } = pointAtLength(between.middle, share * pathLength(between.middle));
    expect(nearestOnPath(curve, point).distance).toBeLessThan(0.06);
  }
});

test('lines that run apart are refused, with the reason', () => {
  const lines = [line('left', straight([100, 0], [100, 600])), line('right', straight([104, 0], [130, 600]))];
  const out = toTrim(designOf(lines, [], [box]));
  expect(out.ok).toBe(false);
  expect(out.problems[0]!.facts).toEqual({ why: 'run apart' });
});

test('a narrow panel along the outline is refused: it has only one panel line', () => {
  const out = toTrim(designOf([line('left', straight([8, 0], [8, 600]))], [], [box]));
  expect(out.problems[0]!.facts).toEqual({ why: 'outline' });
});

test('a line that ended on one of the two ends on what takes their place, tied or not', () => {
  const stem = line('stem', straight([110, 300], [400, 300]));
  const free = value(toTrim(designOf([...pair, stem], [], [box])));
  expect(free.lines.find((l) => l.id === 'stem')!.path).toEqual(straight([105, 300], [400, 300]));
  const base = designOf([...pair, stem], [], [box]);
  const held = { ...base, lines: base.lines.map((l) => tied(base, l)) };
  const after = value(toTrim(held));
  expect(after.lines.every((l) => l.ties !== null)).toBe(true);
  expect(after.lines.find((l) => l.id === 'stem')!.path[0]![0][0]).toBeCloseTo(105, 6);
  const back = value(toPanel(after));
  expect(back.lines.find((l) => l.id === 'stem')!.path[0]![0][0]).toBeCloseTo(110, 6);
  expect(back.lines.every((l) => l.ties !== null)).toBe(true);
});

test('the new line is free where only one of the two was tied', () => {
  const base = designOf(pair, [], [box]);
  const half = { ...base, lines: [tied(base, base.lines[0]!), base.lines[1]!] };
  expect(value(toTrim(half)).lines[0]!.ties).toBeNull();
});

test('a trim on part of a line cannot be cut as a panel', () => {
  const d = value(toTrim(designOf(pair, [], [box])));
  const part = { ...d, trims: d.trims.map((t) => ({ ...t, on: { ...t.on, to: 0.5 } as never })) };
  expect(toPanel(part).problems[0]!.facts).toMatchObject({ why: 'part' });
});

test('trims, the zip and the width of the line that goes are handed to the one that stays, wishes about it are forgotten', () => {
  const start = designOf(pair, [], [box]);
  const design: Design = {
    ...start,
    trims: [
      {
        ...{ id: 'trim-1' as TrimId, name: 'tape', kind: 'straight', width: 4, fill: '#ffffff', rows: 1 },
        ...{ shrinkage: 0, soldIn: null, on: { kind: 'line', line: 'right' as LineId, from: 0, to: 1 } },
      },
    ],
    closings: [
      {
        ...{ id: 'zip-1' as ClosingId, kind: 'hidden', length: null, allowance: null, slot: 10 },
        on: { kind: 'line', line: 'right' as LineId },
      },
    ],
    allowances: { ...start.allowances, lines: [{ line: 'right' as LineId, width: 8 }] },
    sewing: {
      ...start.sewing,
      inTheRound: ['right' as LineId],
      order: [
        { earlier: 'seam right', later: 'seam left' },
        { earlier: 'seam left', later: 'hem front/hem' },
      ],
    },
  };
  const after = value(toTrim(design));
  expect(after.trims.map((t) => t.on)).toMatchObject([{ line: 'left' }, { line: 'left' }]);
  expect(after.closings.map((c) => c.on)).toEqual([{ kind: 'line', line: 'left' }]);
  expect(after.allowances.lines).toEqual([{ line: 'left', width: 8 }]);
  expect(after.sewing).toMatchObject({
    inTheRound: [],
    order: [{ earlier: 'seam left', later: 'hem front/hem' }],
  });
});
