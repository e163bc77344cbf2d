import { expect, test } from 'vitest';
import { openDesign, saveDesign } from '../../src/files';
import type { Pt } from '../../src/geometry';
import type { ColourId, Design, RemnantId } from '../../src/pattern';
import { removeColour } from '../../src/workbench/store/colourEdits';
import {
  addRemnants,
  asRectangle,
  changeRemnant,
  rectangleOf,
  removeRemnant,
} from '../../src/workbench/store/remnantEdits';
import { lined, rectangle } from '../making/designs';

const CHALK = 'chalk' as ColourId;
const SLATE = 'slate' as ColourId;
const plain = (): Design => lined(rectangle(300, 600), []);
const withTwo = (): Design =>
  addRemnants(
    [
      { name: 'left', outline: rectangleOf(500, 300) },
      { name: 'left', outline: rectangleOf(200, 100) },
    ],
    SLATE,
  )(plain());

test('pieces of one’s own are added one after another, each with a name and an id of its own', () => {
  const { remnants } = withTwo();
  expect(remnants.map(({ id, name, colour, count }) => [id, name, colour, count])).toEqual([
    ['remnant-1', 'left', SLATE, 1],
    ['remnant-2', 'left 2', SLATE, 1],
  ]);
  const third = addRemnants(
    [{ name: 'x', outline: rectangleOf(9, 9) }],
    CHALK,
  )(removeRemnant('remnant-1' as RemnantId)(withTwo()));
  expect(new Set(third.remnants.map(({ id }) => id)).size).toBe(2);
});

test('an outline is kept from the corner and the right way round, however it was drawn', () => {
  const drawn: Pt[] = [
    [50, 10],
    [50, 110],
    [250, 110],
    [250, 10],
  ];
  const [remnant] = addRemnants([{ name: 'scrap', outline: drawn }], CHALK)(plain()).remnants;
  expect(asRectangle(remnant!.outline)).toEqual({ length: 200, width: 100 });
  const opened = openDesign(saveDesign({ ...plain(), remnants: [remnant!] }), 'design.json');
  expect(opened.ok && opened.value.remnants).toEqual([remnant]);
});

test('only four corners at the corners of their box are a rectangle', () => {
  expect(asRectangle(rectangleOf(70, 30))).toEqual({ length: 70, width: 30 });
  expect(asRectangle([...rectangleOf(70, 30).slice(0, 3), [5, 30]])).toBeNull();
  expect(asRectangle(rectangleOf(70, 30).slice(0, 3))).toBeNull();
});

test('changing a piece to what it is changes nothing; another name, count or cloth does', () => {
  const design = withTwo();
  const id = 'remnant-1' as RemnantId;
  expect(changeRemnant(id, { count: 1, outline: rectangleOf(500, 300) })(design)).toBe(design);
  expect(changeRemnant('none' as RemnantId, { count: 2 })(design)).toBe(design);
  const changed = changeRemnant(id, { name: 'from the coat', count: 3, colour: CHALK })(design);
  expect(changed.remnants[0]).toMatchObject({ name: 'from the coat', count: 3, colour: CHALK });
  expect(changed.remnants[1]).toBe(design.remnants[1]);
  expect(removeRemnant('none' as RemnantId)(design)).toBe(design);
});

test('when a cloth is taken off the list, one’s own pieces of it are not lost', () => {
  const { remnants } = removeColour(SLATE)(withTwo());
  expect(remnants.map(({ colour, name }) => [colour, name])).toEqual([
    [CHALK, 'left'],
    [CHALK, 'left 2'],
  ]);
});
