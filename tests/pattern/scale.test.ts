import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import {
  TAPE_READING,
  isGarmentSized,
  openedPiece,
  scaleCheck,
  scaleDesign,
  type Design,
  type LineTies,
  type PieceId,
  type ColourId,
} from '../../src/pattern';
import { dart, design, doubleDart, panelLine, piece, rectangle } from '../making/designs';

const known = (measured: number, real: number) => ({ measured, true: real });

test.each([
  [96 / 72, '96:72'],
  [72 / 96, '72:96'],
  [96 / 90, '96:90'],
  [90 / 96, '90:96'],
  [25.4, '25.4'],
  [1 / 25.4, '1:25.4'],
  [10, '10'],
  [0.1, '1:10'],
  [2.54, '2.54'],
  [1 / 2.54, '1:2.54'],
  [96 / 25.4, '96:25.4'],
  [25.4 / 96, '25.4:96'],
])(
  'a drawing that must be multiplied by %f has its cause named, also where the tape was read a little off',
  (ratio, kind) => {
    for (const slip of [1, 1.01, 0.99]) {
      const check = scaleCheck(known(400, 400 * ratio * slip), known(600, 600 * ratio * slip));
      expect(check.cause?.kind).toBe(kind);
      expect(check.scaleX).toBeCloseTo(ratio * slip, 9);
      expect(check.scaleY).toBe(check.scaleX);
      expect(check.isRight).toBe(false);
    }
    expect(scaleCheck(known(400, 400 * ratio), null).cause?.kind).toBe(kind);
  },
);

test('a ratio near none of them has no cause, and one near full size is put down to print or copy', () => {
  expect(scaleCheck(known(100, 170), known(100, 170)).cause).toBeNull();
  expect(scaleCheck(known(500, 485), known(500, 485)).cause?.kind).toBe('paper');
});

test('what a tape cannot tell from right is right', () => {
  const check = scaleCheck(known(500, 500 + TAPE_READING * 0.9), known(900, 900 - TAPE_READING * 0.5));
  expect(check).toMatchObject({ isRight: true, scaleX: 1, scaleY: 1, cause: null });
});

test('both ways are corrected alike where they differ by no more than measuring does, else each by its own', () => {
  // 500 read 1.5 mm over, 800 read 1.5 mm under: they differ by 0.49 %, which two readings explain
  const alike = scaleCheck(known(475, 501.5), known(760, 798.5));
  expect(alike.scaleX).toBe(alike.scaleY);
  expect(alike.scaleX).toBeCloseTo(1300 / 1235, 9);
  expect(alike.apart).toBeGreaterThan(0.004);
  const own = scaleCheck(known(500, 500), known(800, 824));
  expect([own.scaleX, own.scaleY]).toEqual([1, expect.closeTo(1.03, 9)]);
  expect(own.apart).toBeCloseTo(1 - 1 / 1.03, 9);
  expect(own.apartBy).toBeCloseTo(824 * (1 - 1 / 1.03), 6);
});

test('a known length must be above 0, and there must be one', () => {
  expect(() => scaleCheck(null, null)).toThrow(RangeError);
  expect(() => scaleCheck(known(0, 10), null)).toThrow(RangeError);
  expect(() => scaleCheck(known(10, -1), null)).toThrow(RangeError);
});

test('sizes that can hardly be a garment’s are doubtful', () => {
  expect([[600, 400], [30, 20], [9000]].map(isGarmentSized)).toEqual([true, false, false]);
});

const TIES: LineTies = {
  nodes: [
    {
      kind: 'inside',
      down: { kind: 'from', base: { kind: 'centre' }, by: 40 },
      over: { kind: 'from', base: { kind: 'centre' }, by: 10 },
    },
    null,
  ],
  run: null,
};

const DRAWN: Design = design(
  [
    piece(rectangle(200, 300, [50, 20]), {
      fold: [
        [50, 320],
        [50, 20],
      ],
      darts: [
        dart([120, 20], [125, 100], [130, 20]),
        doubleDart([150, 120], [160, 180], [150, 240], [140, 180]),
      ],
      notches: [{ at: [250, 150], inner: [244, 150] }],
      levels: [
        {
          name: 'waist',
          line: [
            [50, 150],
            [250, 150],
          ],
        },
      ],
      edgeNames: [
        {
          name: 'hem',
          path: [
            [
              [250, 320],
              [50, 320],
            ],
          ],
        },
      ],
    }),
  ],
  [
    panelLine(
      [
        [50, 200],
        [250, 210],
      ],
      0,
      { ties: TIES },
    ),
  ],
  { marks: [{ piece: 'front' as PieceId, at: [100, 250], colour: 'slate' as ColourId }] },
);

test('scaling carries everything drawn along and leaves what is given in mm of cloth', () => {
  const factor = fc.double({ min: 0.2, max: 5, noNaN: true });
  fc.assert(
    fc.property(factor, factor, (sx, sy) => {
      const scaled = scaleDesign(DRAWN, sx, sy);
      expect(scaled.allowances).toBe(DRAWN.allowances);
      const [was, is] = [DRAWN, scaled].map((d) => openedPiece(d.pieces[0]!, d).whole);
      expect(is!.area / (was!.area * sx * sy)).toBeCloseTo(1, 9);
      expect(is!.edges.map((e) => e.name)).toEqual(was!.edges.map((e) => e.name));
      expect(is!.darts).toHaveLength(was!.darts.length);
      expect(is!.notches[0]!.at).toEqual([250 * sx, expect.closeTo(150 * sy, 9)]);
      expect(is!.levels[0]!.line[0]![1]).toBeCloseTo(150 * sy, 9);
      expect(scaled.lines[0]!.path[0]![1]).toEqual([250 * sx, 210 * sy]);
      // the grain is upright: down goes with it, over across it
      expect(scaled.lines[0]!.ties!.nodes[0]).toMatchObject({ down: { by: 40 * sy }, over: { by: 10 * sx } });
      const back = scaleDesign(scaled, 1 / sx, 1 / sy);
      expect(openedPiece(back.pieces[0]!, back).whole.area).toBeCloseTo(was!.area, 6);
    }),
    { numRuns: 100, seed: 3 },
  );
});

test('a scaled design has the same panels in the same colours', () => {
  const plain = { ...DRAWN, lines: DRAWN.lines.map((l) => ({ ...l, ties: null })) };
  const [was, is] = [plain, scaleDesign(plain, 1.02, 0.99)].map((d) => deriveGarment(d).panels);
  expect(is!.map((p) => p.colour)).toEqual(was!.map((p) => p.colour));
  expect(is!.map((p) => p.area / (1.02 * 0.99))).toEqual(was!.map((p) => expect.closeTo(p.area, 3)));
});

test('scaling by one is no change, and by nothing a mistake', () => {
  expect(scaleDesign(DRAWN, 1, 1)).toBe(DRAWN);
  expect(() => scaleDesign(DRAWN, 0, 1)).toThrow(RangeError);
});
