import { expect, test } from 'vitest';
import { checkLay, layJobs, planCloth } from '../../src/fabric';
import { deriveGarment } from '../../src/garment';
import { finish, fitByLine, nearlyFitting } from '../../src/garment/spots';
import type { Pt } from '../../src/geometry';
import { boxOfPoints } from '../../src/geometry';
import type { ColourId, Design, PieceId, Remnant, RemnantId } from '../../src/pattern';
import { lined, rectangle } from '../making/designs';

const CHALK = 'chalk' as ColourId;

const stripOf = (name: string, length: number, width: number, colour = CHALK): Remnant => ({
  id: name as RemnantId,
  name,
  colour,
  outline: [
    [0, 0],
    [length, 0],
    [length, width],
    [0, width],
  ],
  count: 1,
});

/** A block 300 across and 600 down, cut across at 200: chalk above, slate below. */
const block = (remnants: readonly Remnant[]): Design => ({
  ...lined(rectangle(300, 600), [
    [
      [0, 200],
      [300, 200],
    ],
  ]),
  marks: [
    { piece: 'front' as PieceId, at: [150, 100] as Pt, colour: CHALK },
    { piece: 'front' as PieceId, at: [150, 400] as Pt, colour: 'slate' as ColourId },
  ],
  remnants,
});

/** The number of the chalk panel and how long and wide it is cut. */
function chalk(design: Design): { number: number; down: number; across: number } {
  const job = layJobs(deriveGarment(design)).find(({ colour }) => colour === CHALK)!;
  const { minX, minY, maxX, maxY } = boxOfPoints(job.pieces[0]!.cutting);
  return { number: job.pieces[0]!.number, down: maxY - minY, across: maxX - minX };
}

test.each([
  [7.5, 8],
  [12, 12],
  [12.2, 13],
  [39.5, 40],
])('a panel %s mm too long for the cloth fits once its line is moved up %s mm', (missing, by) => {
  const { number, down, across } = chalk(block([]));
  const design = block([stripOf('left from the skirt', down - missing, across)]);
  expect(nearlyFitting(design)).toEqual([number]);
  const fits = finish(fitByLine(design, number));
  expect(fits).toMatchObject([{ number, label: 'L1', by, remnantName: 'left from the skirt' }]);
  const moved = fits[0]!.design;
  expect(chalk(moved).down).toBeCloseTo(down - by, 6);
  const job = layJobs(deriveGarment(moved)).find(({ colour }) => colour === CHALK)!;
  const { own, bought } = planCloth(job, moved.remnants);
  expect(own).toHaveLength(1);
  expect(bought.placed).toEqual([]);
  const width = boxOfPoints(own[0]!.within!.outline).maxY;
  expect(checkLay({ ...job, width, within: own[0]!.within }, own[0]!.placed)).toEqual([]);
});

test('no line is moved farther than 40 mm, or for a panel that fits or is too wide', () => {
  const { number, down, across } = chalk(block([]));
  const fitsOf = (...remnants: Remnant[]): number => finish(fitByLine(block(remnants), number)).length;
  expect(fitsOf(stripOf('much too short', down - 41, across))).toBe(0);
  expect(fitsOf(stripOf('long enough', down, across))).toBe(0);
  expect(fitsOf(stripOf('too narrow', down, across - 5))).toBe(0);
  expect(fitsOf(stripOf('slate', down - 10, across, 'slate' as ColourId))).toBe(0);
});

test('panels that fit one’s own cloth, or by far do not, are not nearly fitting', () => {
  const { down, across } = chalk(block([]));
  expect(nearlyFitting(block([stripOf('good', down, across)]))).toEqual([]);
  expect(nearlyFitting(block([stripOf('scrap', 50, 50)]))).toEqual([]);
  expect(nearlyFitting(block([]))).toEqual([]);
});

test('a line that ends on the moved one and is held by nothing goes along', () => {
  const two = (remnants: readonly Remnant[]): Design => ({
    ...lined(rectangle(300, 600), [
      [
        [0, 200],
        [300, 200],
      ],
      [
        [150, 200],
        [150, 600],
      ],
    ]),
    marks: block([]).marks,
    remnants,
  });
  const { number, down, across } = chalk(two([]));
  const design = two([stripOf('scrap', down - 12, across)]);
  const [fit, ...others] = finish(fitByLine(design, number));
  expect(others).toEqual([]);
  expect(fit).toMatchObject({ label: 'L1', by: 12 });
  const [first, second] = fit!.design.lines.map(({ path }) => path);
  expect(first![0]![0]).toEqual([0, 188]);
  expect(second![0]![0][1]).toBeCloseTo(188, 6);
  expect(deriveGarment(fit!.design).problems.map(({ code }) => code)).not.toContain('line-ends-in-the-open');
});
