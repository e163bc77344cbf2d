/** The demo through the whole house: our own reader, and everything that follows from what it reads. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { sheathDesign } from '../../demo-data/drafting/sheathDesign';
import { designFromTracings, openDesign, readTracing, saveDesign } from '../../src/files';
import { deriveGarment } from '../../src/garment';
import { isRefusal, sayProblem } from '../../src/pattern';
import type { Outcome } from '../../src/pattern';

const read = (name: string) => {
  const file = `${name}.svg`;
  return readTracing(readFileSync(join(import.meta.dirname, '../../demo-data', file)), file);
};

function valueOf<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map((p) => sayProblem(p)).join('\n'));
  return outcome.value;
}

describe.each([
  { name: 'sheath', panels: { front: 5, back: 4, sleeve: 3 }, colours: 3 },
  { name: 'tshirt', panels: { front: 2, back: 2, sleeve: 2 }, colours: 2 },
  { name: 'bodice', panels: { front: 4, back: 4 }, colours: 3 },
])('the $name of the demo', ({ name, panels, colours }) => {
  test('is read without a problem, and nothing in it is left out', () => {
    const outcome = read(name);
    const { ignored, unclaimed } = valueOf(outcome);
    expect(outcome.problems).toEqual([]);
    expect(ignored).toEqual([]);
    expect(unclaimed).toEqual([]);
  });

  test('falls into the panels and cloths it was drawn with, every one coloured, and no line ends in the open', () => {
    const design = designFromTracings([valueOf(read(name))]);
    const garment = deriveGarment(design);
    const perPiece = garment.pieces.map((p) => [p.whole.name, p.panels.length]);
    expect(Object.fromEntries(perPiece)).toEqual(panels);
    expect(new Set(garment.panels.map((p) => p.colour)).size).toBe(colours);
    expect(design.marks.length).toBeGreaterThanOrEqual(garment.panels.length);
    expect(garment.problems.filter(isRefusal).map((p) => sayProblem(p))).toEqual([]);
  });
});

test('the design that the bench opens with is the sheath as our reader reads it, with its zip, and opens as the same', () => {
  const design = sheathDesign(valueOf(read('sheath')));
  expect(deriveGarment(design).plan.steps.filter((s) => s.kind === 'zip')).toHaveLength(1);
  const saved = readFileSync(join(import.meta.dirname, '../../demo-data/sheath.json'), 'utf8');
  expect(saved).toBe(saveDesign(design));
  expect(valueOf(openDesign(saved, 'sheath.json'))).toEqual(design);
  // the bench reads it without checking it: it must need no upgrade
  expect(JSON.parse(saved)).toEqual(design);
});
