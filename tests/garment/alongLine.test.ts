import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { acrossLine, alongLine } from '../../src/garment/spots';
import type { Pt } from '../../src/geometry';
import type { ColourId, Design, LineId, PieceId } from '../../src/pattern';
import { reshapeLine } from '../../src/workbench/store/lineEdits';
import { catchField } from '../../src/workbench/drawing/catchField';
import { movePath } from '../../src/workbench/drawing/moveLine';
import { lined, ringThrough } from '../making/designs';

const DOWN: Pt = [0, 1];
const LINE = 'line-1' as LineId;

/** A piece that widens downwards, cut across at 200 mm: chalk above, slate below. */
const sloping = (): Design => ({
  ...lined(
    ringThrough([
      [0, 0],
      [300, 0],
      [340, 400],
      [-40, 400],
    ]),
    [
      [
        [-20, 200],
        [320, 200],
      ],
    ],
  ),
  marks: [
    { piece: 'front' as PieceId, at: [150, 100], colour: 'chalk' as ColourId },
    { piece: 'front' as PieceId, at: [150, 300], colour: 'slate' as ColourId },
  ],
});

const coloursDown = (design: Design): string[] =>
  [...deriveGarment(design).panels].sort((a, b) => a.flat.at[1] - b.flat.at[1]).map(({ colour }) => colour);

test('a line moved along keeps its ends on the edges and the panels their colours', () => {
  const at = alongLine(sloping(), LINE, DOWN);
  const moved = at(120)!;
  const [curve] = moved.lines[0]!.path;
  expect(curve![0][0]).toBeCloseTo(-32, 6);
  expect(curve![0][1]).toBeCloseTo(320, 6);
  expect(coloursDown(moved)).toEqual(['chalk', 'slate']);
});

test('a line lies after moving along just where the hand would have put it', () => {
  const design = sloping();
  const field = catchField(deriveGarment(design).pieces[0]!, LINE);
  const byHand = reshapeLine(LINE, movePath(design.lines[0]!.path, field, [0, -73]))(design);
  expect(alongLine(design, LINE, DOWN)(-73)!.lines).toEqual(byHand.lines);
});

test('no offset gives the very design, and past the edge of the piece there is none', () => {
  const design = sloping();
  const at = alongLine(design, LINE, DOWN);
  expect(at(0)).toBe(design);
  expect(at(-205)).toBeNull();
  expect(at(260)).toBeNull();
});

test('a panel never takes another colour: where it would, there is no design', () => {
  const design = sloping();
  const near: Design = {
    ...design,
    marks: [design.marks[0]!, { ...design.marks[1]!, at: [150, 390] }],
    lines: design.lines.map((l) => ({
      ...l,
      path: [
        [
          [-37, 370],
          [337, 370],
        ],
      ],
    })),
  };
  const at = alongLine(near, LINE, DOWN);
  expect(coloursDown(at(-25)!)).toEqual(['chalk', 'slate']);
  // slate would be cut for the most part from what was chalk
  expect(at(-60)).toBeNull();
});

test('a line that the design does not have is moved nowhere', () => {
  expect(alongLine(sloping(), 'line-9' as LineId, DOWN)(10)).toBeNull();
});

test('a line is moved square to the way from its start to its end', () => {
  expect(acrossLine(sloping().lines[0]!.path)!.map(Math.abs)).toEqual([0, 1]);
  expect(acrossLine([])).toBeNull();
});
