import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkGarment, deriveGarment, zipMarks, type PlacedClosing } from '../../src/garment';
import { type Path, type Pt, distance, distanceToSegment, flattenPath, startOf } from '../../src/geometry';
import type { Closing, ClosingId, Design, LineId, PieceId } from '../../src/pattern';
import { sayZip, takeZipOut, zipInLine, zipOnFold } from '../../src/workbench/store/closingEdits';
import { design, panelLine, piece, rectangle } from '../making/designs';
import { bodice, line } from '../neighbours/garments';

const front = bodice('front');
const back = bodice('back', { width: 230, side: 430, at: [900, 0] }, { onFold: false });
const zipJob = (on: string, edge: string) => ({
  piece: on as PieceId,
  edge,
  job: { kind: 'zip' as const },
});
const zip = (on: Closing['on'], over: Partial<Closing> = {}): Closing => ({
  id: 'zip-1' as ClosingId,
  kind: 'hidden',
  on,
  length: null,
  allowance: null,
  slot: 10,
  ...over,
});

/** Length along fine chords of an edge's path from its upper end to a point; no code of the zips' own. */
function walked(path: Path, p: Pt): number {
  const { points } = flattenPath(path, 0.0005);
  let [best, at, before] = [Infinity, 0, 0];
  points.slice(1).forEach((b, i) => {
    const near = distanceToSegment(p, points[i]!, b);
    if (near.distance < best) [best, at] = [near.distance, before + distance(points[i]!, b) * near.t];
    before += distance(points[i]!, b);
  });
  expect(best).toBeLessThan(0.01);
  return at;
}

test('an edge closed by a zip has the usual hidden one: one for a name, on the wearer’s left', () => {
  const doc = design([front, { ...back, cutting: 'pair' }], [], { edgeJobs: [zipJob('front', 'side seam')] });
  const { closings } = deriveGarment(doc);
  expect(closings).toHaveLength(1);
  const [own, other] = closings[0]!.sides;
  // the front is drawn with the wearer's left on the drawing's right
  expect(startOf(own!.path)[0]).toBeGreaterThan(0);
  expect([own!.piece, other!.piece]).toEqual(['front', 'back']);
  expect(closings[0]!.zip).toMatchObject({ kind: 'hidden', isOwn: false });
  expect(closings[0]!.allowance).toBe(20);
  expect(deriveGarment(design([front, back], [])).closings).toEqual([]);
});

test('the stop lies at the same length on both sides of the seam, to 0.1 mm', () => {
  const numbers = fc.record({
    flare: fc.double({ min: -40, max: 60, noNaN: true }),
    waistIn: fc.double({ min: -20, max: 30, noNaN: true }),
    side: fc.double({ min: 300, max: 700, noNaN: true }),
    other: fc.double({ min: -15, max: 15, noNaN: true }),
    length: fc.double({ min: 60, max: 280, noNaN: true }),
  });
  let most = 0;
  fc.assert(
    fc.property(numbers, ({ flare, waistIn, side, other, length }) => {
      const pieces = [
        bodice('front', { flare, waistIn, side }),
        bodice('back', { flare: flare / 2, side: side + other, at: [900, 0] }, { onFold: false }),
      ];
      const doc = design(pieces, [], {
        edgeJobs: [zipJob('front', 'side seam')],
        closings: [zip({ kind: 'edge', piece: 'front' as PieceId, edge: 'side seam', nth: 0 }, { length })],
      });
      const [placed] = deriveGarment(doc).closings;
      expect(placed!.sides).toHaveLength(2);
      const lengths = placed!.sides.map((s) => walked(s.path, s.stop));
      most = Math.max(most, ...lengths.map((l) => Math.abs(l - length)));
      for (const l of lengths) expect(Math.abs(l - length)).toBeLessThan(0.1);
    }),
    { numRuns: 150, seed: 7 },
  );
  expect(most).toBeLessThan(0.1);
});

const withWaist = (p: ReturnType<typeof bodice>, y: number) => ({
  ...p,
  levels: [
    {
      name: 'waist',
      line: [
        [0, y],
        [300, y],
      ] as const,
    },
  ],
});

test('a zip is proposed to about 20 cm below the waist, in a length that is sold, never longer than its seam', () => {
  const long = withWaist(bodice('back', { side: 900, flare: 40 }, { onFold: false }), 400);
  const doc = design([long], [], { edgeJobs: [zipJob('back', 'centre back')] });
  const [placed] = deriveGarment(doc).closings;
  // the centre back runs straight down from 80 to 1090: 520 to 20 cm below the waist at 400
  expect(placed!.seam).toBeCloseTo(1010, 6);
  expect(placed!.proposed).toBe(500);
  expect(deriveGarment({ ...doc, units: 'in' }).closings[0]!.proposed).toBeCloseTo(20 * 25.4, 9);
  const short = design([bodice('back', {}, { onFold: false })], [], {
    edgeJobs: [zipJob('back', 'centre back')],
  });
  const [only] = deriveGarment(short).closings;
  expect(only!.proposed % 50).toBe(0);
  expect(only!.proposed).toBeLessThanOrEqual(only!.seam);
  expect(only!.proposed).toBeGreaterThan(only!.seam * 0.7);
});

test('a piece on the fold gains a seam for its zip, with allowance, and loses it with the zip', () => {
  const plain = design([front], []);
  const zipped = zipOnFold('front' as PieceId)(plain);
  const garment = deriveGarment(zipped);
  expect(garment.panels).toHaveLength(2);
  expect(checkGarment(garment)).toEqual([]);
  const whole = deriveGarment(plain).panels[0]!;
  expect(garment.panels.reduce((sum, p) => sum + p.area, 0)).toBeCloseTo(whole.area, 3);
  // on each side of the fold an allowance as long as the seam and as wide as zips have
  const cut = garment.cutPieces.reduce((sum, c) => sum + c.cutArea, 0);
  const before = deriveGarment(plain).cutPieces[0]!.cutArea;
  const [placed] = garment.closings;
  expect(cut - before).toBeGreaterThan(2 * 20 * placed!.seam * 0.98);
  expect(zipOnFold('front' as PieceId)(zipped)).toBe(zipped);
  const out = takeZipOut(placed!.zip)(zipped);
  expect(out.lines).toEqual([]);
  expect(out.closings).toEqual([]);
});

test('a line that was drawn on the fold stays when its zip is taken out', () => {
  const doc: Design = design(
    [front],
    [
      panelLine(
        [
          [0, 80],
          [0, 570],
        ],
        0,
        { once: true },
      ),
    ],
  );
  const zipped = zipOnFold('front' as PieceId)(doc);
  expect(zipped.lines).toBe(doc.lines);
  expect(zipped.closings).toHaveLength(1);
  const out = takeZipOut(deriveGarment(zipped).closings[0]!.zip)(zipped);
  expect(out.lines).toBe(doc.lines);
});

/** A plain back with a line down it and one across it on one side only. */
const sliced = (over: Partial<Closing> = {}): Design =>
  design(
    [piece(rectangle(200, 600), { name: 'back' })],
    [
      line('line-1', 'back', [
        [100, 0],
        [100, 600],
      ]),
      line('line-2', 'back', [
        [100, 250],
        [200, 230],
      ]),
    ],
    { closings: [zip({ kind: 'line', line: 'line-1' as LineId }, { length: 300, ...over })] },
  );

const marksOf = (doc: Design): { panel: string; stops: Pt[]; slots: number; opening: number }[] => {
  const garment = deriveGarment(doc);
  return garment.panels.map((panel) => {
    const marks = zipMarks(garment.closings, panel, (id) => garment.seamById.get(id));
    return {
      panel: panel.id,
      stops: marks.flatMap((m) => (m.stop ? [m.stop.at] : [])),
      slots: marks.flatMap((m) => m.slot).length,
      opening: marks
        .flatMap((m) => m.opening)
        .flatMap((p) => p)
        .reduce((sum, c) => sum + distance(c[0], c.at(-1)! as Pt), 0),
    };
  });
};

test('the stop of a zip in a panel line is marked at equal length on the panels of both sides', () => {
  const marks = marksOf(sliced());
  expect(marks).toHaveLength(3);
  const stops = marks.flatMap((m) => m.stops);
  expect(stops).toHaveLength(2);
  for (const at of stops) expect(distance(at, [100, 300])).toBeLessThan(1e-6);
  expect(marks.map((m) => Math.round(m.opening)).toSorted((a, b) => a - b)).toEqual([50, 250, 300]);
  expect(marks.every((m) => m.slots === 0)).toBe(true);
});

test('a shown zip has its slot marked half its width inside on every panel, closed at the stop', () => {
  const doc = sliced({ kind: 'shown', slot: 12 });
  const garment = deriveGarment(doc);
  const slots = garment.panels.flatMap((panel) =>
    zipMarks(garment.closings, panel, (id) => garment.seamById.get(id)).flatMap((m) => m.slot),
  );
  // the side in one panel is two seams, the other two panels have one each; two ends at the stop
  expect(slots).toHaveLength(6);
  const ends = slots.flatMap((path) => path.flatMap((c) => [c[0], c.at(-1)! as Pt]));
  for (const [x, y] of ends) {
    expect([94, 100, 106].some((k) => Math.abs(x - k) < 0.01)).toBe(true);
    expect(y).toBeLessThan(300.01);
  }
});

test('what is said of a proposed zip puts it into the design', () => {
  const doc = design([back], [], { edgeJobs: [zipJob('back', 'centre back')] });
  const { zip: proposed } = deriveGarment(doc).closings[0]!;
  const shown = sayZip(proposed, { kind: 'shown' })(doc);
  expect(shown.closings).toHaveLength(1);
  const own = deriveGarment(shown).closings[0] as PlacedClosing;
  expect(own.zip).toMatchObject({ kind: 'shown', isOwn: true, slot: 10 });
  expect(own.slot).toBe(10);
  expect(sayZip(own.zip, { kind: 'shown' })(shown)).toBe(shown);
  const out = takeZipOut(own.zip)(shown);
  expect([out.closings, out.edgeJobs]).toEqual([[], []]);
  expect(zipInLine('none' as LineId)(doc)).toBe(doc);
});

test('what is wrong with a zip is told, with its place', () => {
  const codes = (doc: Design): string[] =>
    deriveGarment(doc)
      .problems.filter((p) => p.code.startsWith('zip-'))
      .map((p) => `${p.code} ${p.piece} ${p.at?.map((n) => Math.round(n)).join(' ')}`);
  expect(codes(sliced())).toEqual([]);
  expect(codes(sliced({ length: 700 }))).toEqual(['zip-longer-than-seam back 100 600']);
  const bent = design(
    [piece(rectangle(200, 600), { name: 'back' })],
    [
      panelLine(
        [
          [100, 0],
          [100, 200],
          [200, 300],
        ],
        0,
        { piece: 'back' as PieceId },
      ),
    ],
    { closings: [zip({ kind: 'line', line: 'line-1' as LineId }, { length: 250 })] },
  );
  expect(codes(bent)).toEqual(['zip-round-corner back 100 200']);
  const curved = design(
    [piece(rectangle(200, 600), { name: 'back' })],
    [
      panelLine(
        [
          [
            [100, 0],
            [100, 40],
            [120, 60],
            [160, 60],
          ],
          [
            [160, 60],
            [200, 60],
          ],
        ] as Path,
        0,
        {
          piece: 'back' as PieceId,
        },
      ),
    ],
    { closings: [zip({ kind: 'line', line: 'line-1' as LineId }, { length: 100 })] },
  );
  expect(codes(curved).map((c) => c.split(' ')[0])).toEqual(['zip-on-tight-curve']);
  const open = design(
    [piece(rectangle(200, 600), { name: 'back' })],
    [
      panelLine(
        [
          [50, 100],
          [150, 100],
          [150, 300],
          [50, 300],
          [50, 100],
        ],
        0,
        { piece: 'back' as PieceId },
      ),
    ],
    { closings: [zip({ kind: 'line', line: 'line-1' as LineId }, { length: 50 })] },
  );
  expect(codes(open).map((c) => c.split(' ')[0])).toContain('zip-end-open');
});

test('panel lines that miss each other across a zip are told', () => {
  const wide = bodice('back', { at: [900, 0], isRight: false });
  const across = (on: string, at: number, y: number) =>
    line(`line-${on}`, on, [
      [at, y],
      [at + (on === 'front' ? 300 : -300), y],
    ]);
  const doc = (off: number): Design =>
    design([front, wide], [across('front', 0, 300), across('back', 900, 300 + off)], {
      edgeJobs: [zipJob('front', 'side seam')],
      closings: [
        zip({ kind: 'edge', piece: 'front' as PieceId, edge: 'side seam', nth: 0 }, { length: 250 }),
      ],
    });
  const said = (d: Design): string[] =>
    deriveGarment(d)
      .problems.map((p) => p.code)
      .filter((c) => c === 'zip-lines-miss');
  expect(said(doc(0))).toEqual([]);
  expect(said(doc(5))).toEqual(['zip-lines-miss']);
});

test('the allowance at a zip is its own on both sides, else what was set by hand, else the usual one', () => {
  const doc = design([front, back], [], { edgeJobs: [zipJob('back', 'centre back')] });
  const widthIn = (d: Design): [number, number] => {
    const { closings, cutPieces, panels } = deriveGarment(d);
    const cut = cutPieces[panels.findIndex((p) => p.piece === 'back')]!;
    const label = cut.edgeLabels.find((e) => e.edgeName === 'centre back')!;
    return [label.allowance, closings[0]!.allowance];
  };
  expect(widthIn(doc)).toEqual([20, 20]);
  const byHand = {
    ...doc,
    allowances: {
      ...doc.allowances,
      edges: [{ piece: 'back' as PieceId, edge: 'centre back', width: 25 }],
    },
  };
  expect(widthIn(byHand)).toEqual([25, 25]);
  const { zip: proposed } = deriveGarment(byHand).closings[0]!;
  expect(widthIn(sayZip(proposed, { allowance: 18 })(byHand))).toEqual([18, 18]);
  const cut: Design = { ...doc, allowances: { ...doc.allowances, tracing: { kind: 'cut', included: 12 } } };
  expect(widthIn(cut)).toEqual([12, 12]);
});
