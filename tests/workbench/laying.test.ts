import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { pathBox } from '../../src/geometry';
import { layOut } from '../../src/workbench/drawing/tableLayout';
import { design, piece, rectangle } from '../making/designs';
import { WHOLE } from './pieces';

const boxesOf = (sizes: readonly (readonly [number, number])[]): ReturnType<typeof pathBox>[] => {
  const pieces = sizes.map(([w, h], i) =>
    piece(rectangle(w, h), { id: `piece-${i}` as never, name: `piece ${i}` }),
  );
  const garment = deriveGarment(design(pieces, []));
  const { shift } = layOut(garment.pieces);
  return garment.pieces.map(({ whole }) => {
    const [dx, dy] = shift.get(whole.piece.id)!;
    const { minX, minY, maxX, maxY } = pathBox(whole.outline);
    return { minX: minX + dx, minY: minY + dy, maxX: maxX + dx, maxY: maxY + dy };
  });
};

test('a front, a back and a sleeve lie side by side', () => {
  const boxes = boxesOf([
    [540, 1000],
    [280, 1000],
    [360, 500],
  ]);
  expect(new Set(boxes.map((b) => b.minY)).size).toBe(1);
  expect(boxes.map((b) => b.minX)).toEqual([0, 670, 1080]);
});

test('thirty pieces lie in rows, so that none is a speck', () => {
  const boxes = boxesOf(Array.from({ length: 30 }, () => [440, 440] as const));
  const rows = new Set(boxes.map((b) => b.minY));
  expect(rows.size).toBeGreaterThanOrEqual(4);
  expect(rows.size).toBeLessThanOrEqual(6);
});

test('no piece ever lies on another, and none is lost', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 30, max: 1500 }), fc.integer({ min: 30, max: 1500 })), {
        minLength: 1,
        maxLength: 14,
      }),
      (sizes) => {
        const boxes = boxesOf(sizes);
        expect(boxes).toHaveLength(sizes.length);
        boxes.forEach((a, i) =>
          boxes.slice(i + 1).forEach((b) => {
            const apart =
              a.maxX + 100 < b.minX ||
              b.maxX + 100 < a.minX ||
              a.maxY + 100 < b.minY ||
              b.maxY + 100 < a.minY;
            expect(apart).toBe(true);
          }),
        );
      },
    ),
    { numRuns: 60, seed: 5 },
  );
});

test('a level that two pieces share lies at one height', () => {
  const back = piece(rectangle(150, 300), {
    id: 'back' as never,
    name: 'back',
    levels: [
      {
        name: 'waist',
        line: [
          [0, 60],
          [150, 60],
        ],
      },
    ],
  });
  const { pieces } = deriveGarment(design([WHOLE, back], []));
  const { shift } = layOut(pieces);
  const waist = pieces.map(({ whole }) => whole.levels[0]!.line[0][1] + shift.get(whole.piece.id)![1]);
  expect(waist[0]).toBeCloseTo(waist[1]!, 9);
});
