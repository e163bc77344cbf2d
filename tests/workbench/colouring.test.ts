import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import type { ColourId, Design } from '../../src/pattern';
import { panelAt, twinOf } from '../../src/workbench/drawing/find';
import { dabbed } from '../../src/workbench/hands/colourHand';
import {
  addColour,
  changeColour,
  freshColour,
  recolour,
  removeColour,
} from '../../src/workbench/store/colourEdits';
import { paintPanels } from '../../src/workbench/store/paintPanels';
import { addLine, deleteLine, freshLineId, reshapeLine } from '../../src/workbench/store/lineEdits';
import { HALF, WHOLE, designOf, straight } from './pieces';

const withRed = (d: Design): [Design, ColourId] => {
  const red = { ...freshColour(d), fill: '#aa2222', name: 'red' };
  return [addColour(red)(d), red.id];
};
const colourUnder = (d: Design, x: number, y: number): ColourId =>
  panelAt(deriveGarment(d).pieces[0]!.panels, [x, y])!.colour;

test('a painted panel takes its colour, its neighbour keeps its own', () => {
  const [d, red] = withRed(designOf(WHOLE, straight('line-1', [0, 200], [200, 200])));
  const panel = panelAt(deriveGarment(d).panels, [100, 300])!;
  const painted = paintPanels([panel], red)(d);
  expect(colourUnder(painted, 100, 300)).toBe(red);
  expect(colourUnder(painted, 100, 100)).toBe(d.colours[0]!.id);
});

test('painting a panel the colour it has changes nothing', () => {
  const d = designOf(WHOLE);
  expect(paintPanels(deriveGarment(d).panels, d.colours[0]!.id)(d)).toBe(d);
});

test('a painted panel that is split gives both parts its colour, and keeps it when the line goes or moves', () => {
  const [d, red] = withRed(designOf(WHOLE, straight('line-1', [0, 200], [200, 200])));
  const painted = paintPanels([panelAt(deriveGarment(d).panels, [100, 300])!], red)(d);
  const id = freshLineId(painted);
  const split = addLine(
    id,
    WHOLE.id,
    [
      [
        [0, 300],
        [200, 300],
      ],
    ],
    false,
  )(painted);
  expect([colourUnder(split, 100, 250), colourUnder(split, 100, 350)]).toEqual([red, red]);
  const moved = reshapeLine('line-1' as never, [
    [
      [0, 150],
      [200, 150],
    ],
  ])(split);
  expect([colourUnder(moved, 100, 170), colourUnder(moved, 100, 100)]).toEqual([red, d.colours[0]!.id]);
  expect(colourUnder(deleteLine(id)(moved), 100, 330)).toBe(red);
});

test('both sides of an opened-out piece are dabbed together only when they are twins and it is asked for', () => {
  const d = designOf(HALF, straight('line-1', [50, 0], [50, 400]));
  const piece = deriveGarment(d).pieces[0]!;
  const side = panelAt(piece.panels, [80, 200])!;
  const middle = panelAt(piece.panels, [0, 200])!;
  expect(dabbed(piece, side, true)).toHaveLength(2);
  expect(dabbed(piece, side, false)).toEqual([side]);
  expect(twinOf(piece, middle)).toBeNull();
});

test('removing a cloth gives its panels the first one; the last cloth stays', () => {
  const [d, red] = withRed(designOf(WHOLE));
  const painted = paintPanels(deriveGarment(d).panels, red)(d);
  const removed = removeColour(red)(painted);
  expect(colourUnder(removed, 100, 100)).toBe(d.colours[0]!.id);
  const last = { ...removed, colours: removed.colours.slice(0, 1) };
  expect(removeColour(last.colours[0]!.id)(last)).toBe(last);
});

test('a cloth called by the word for its colour is called by the new one when its colour changes; a name of its own stays', () => {
  const [d, red] = withRed(designOf(WHOLE));
  const nameOf = (x: Design): string => x.colours.find(({ id }) => id === red)!.name;
  const black = recolour(red, '#000000')(d);
  expect(nameOf(black)).toBe('black');
  const second = addColour({ ...freshColour(black), fill: '#2040c0', name: 'blue' })(black);
  expect(nameOf(recolour(red, '#2244cc')(second))).toBe('blue 2');
  const linen = changeColour(red, { name: 'Aunt’s linen' })(d);
  expect(nameOf(recolour(red, '#000000')(linen))).toBe('Aunt’s linen');
  expect(recolour(red, '#aa2222')(d)).toBe(d);
});

test('every new cloth gets a name that tells it from the others', () => {
  let d = designOf(WHOLE);
  for (let i = 0; i < 20; i += 1) d = addColour(freshColour(d))(d);
  expect(new Set(d.colours.map(({ name }) => name)).size).toBe(d.colours.length);
});
