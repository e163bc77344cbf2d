import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { endOf, startOf } from '../../src/geometry';
import type { Design } from '../../src/pattern';
import { curableEnds, type CurableEnd } from '../../src/workbench/drawing/openEnd';
import { reshapeLine } from '../../src/workbench/store/lineEdits';
import { HALF, WHOLE, designOf, straight } from './pieces';

const endsOf = (d: Design): CurableEnd[] => {
  const { problems, pieces } = deriveGarment(d);
  return curableEnds(problems, pieces[0]!.whole, d.lines);
};
const openProblems = (d: Design): number =>
  deriveGarment(d).problems.filter((p) => p.code === 'line-ends-in-the-open').length;

test('a line that stops short is a problem at its end, and extending it cures it', () => {
  const d = designOf(WHOLE, straight('line-1', [0, 200], [160, 200]));
  expect(openProblems(d)).toBe(1);
  const [open] = endsOf(d);
  expect(open).toMatchObject({ end: 'end', at: [160, 200], ahead: [1, 0] });
  expect(open!.gap).toBeCloseTo(40, 3);
  const cured = reshapeLine(open!.line, open!.cured)(d);
  expect(openProblems(cured)).toBe(0);
  expect(deriveGarment(cured).panels).toHaveLength(2);
});

test('both ends in the open are cured one after the other', () => {
  let d = designOf(WHOLE, straight('line-1', [40, 200], [160, 200]));
  expect(endsOf(d)).toHaveLength(2);
  d = reshapeLine('line-1' as never, endsOf(d)[0]!.cured)(d);
  d = reshapeLine('line-1' as never, endsOf(d)[0]!.cured)(d);
  expect(openProblems(d)).toBe(0);
  expect(startOf(d.lines[0]!.path)[0]).toBeCloseTo(0, 6);
  expect(endOf(d.lines[0]!.path)[0]).toBeCloseTo(200, 6);
});

test('on an opened-out piece a line and its image are one open end, cured together', () => {
  const d = designOf(HALF, straight('line-1', [30, 0], [30, 250]));
  expect(openProblems(d)).toBe(2);
  const ends = endsOf(d);
  expect(ends).toHaveLength(1);
  expect(openProblems(reshapeLine(ends[0]!.line, ends[0]!.cured)(d))).toBe(0);
});

test('a line joined to its image over the fold is cured at its own outer end', () => {
  const d = designOf(HALF, straight('line-1', [0, 250], [60, 250]));
  const ends = endsOf(d);
  expect(ends).toHaveLength(1);
  const cured = reshapeLine(ends[0]!.line, ends[0]!.cured)(d);
  expect(openProblems(cured)).toBe(0);
  expect(startOf(cured.lines[0]!.path)).toEqual([0, 250]);
});

test('a line that reaches both edges has nothing to cure', () => {
  expect(endsOf(designOf(WHOLE, straight('line-1', [0, 200], [200, 200])))).toEqual([]);
});
