/**
 * The usual ways a drawing comes out at the wrong size, made as files and named from one known length. Units: CSS Values and Units (W3C),
 * 1 in = 96 px = 72 pt = 25.4 mm; the inch is that of 1959. That 100 units are 26.458 mm at 96 to the inch and 35.278 mm at 72 is worked
 * out from those.
 */
import { expect, test } from 'vitest';
import { readTracing } from '../../src/files';
import { boxOfPoints, flattenRing } from '../../src/geometry';
import { scaleCheck } from '../../src/pattern';

/** Width and height of a drawn rectangle as read, mm. */
function readSize(svgSize: string, w: number, h: number): { width: number; height: number } {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" ${svgSize}><path id="outline" d="M0 0H${w}V${h}H0Z"/></svg>`;
  const read = readTracing(text, 'front.svg');
  if (!read.ok) throw new Error(read.problems.map((p) => p.code).join());
  const box = boxOfPoints(flattenRing(read.value.pieces[0]!.outline));
  return { width: box.maxX - box.minX, height: box.maxY - box.minY };
}

test('100 units without a unit are 26.458 mm, and 35.278 mm when they were meant at 72 to the inch', () => {
  const { width } = readSize('width="1000" height="1000"', 100, 300);
  expect(width).toBeCloseTo(26.458, 3);
  const check = scaleCheck({ measured: width, true: 35.278 }, null);
  expect(check.scaleX).toBeCloseTo(4 / 3, 4);
  expect(check.cause?.kind).toBe('96:72');
});

/** A real front of 480 × 950 mm, written down by somebody who meant one thing in a file that says another. */
const TRUE = { width: 480, height: 950 };
test.each([
  ['mm typed into a file of pixels', 'width="960" height="1900"', 1, '96:25.4'],
  ['inches typed into a page of mm', 'width="99mm" height="99mm" viewBox="0 0 99 99"', 1 / 25.4, '25.4'],
  ['cm typed into a page of mm', 'width="99mm" height="99mm" viewBox="0 0 99 99"', 1 / 10, '10'],
  ['mm typed into a page of cm', 'width="999cm" height="999cm" viewBox="0 0 999 999"', 1, '1:10'],
  ['inches typed into a page of cm', 'width="99cm" height="99cm" viewBox="0 0 99 99"', 1 / 25.4, '2.54'],
  ['72 to the inch in a file of pixels', 'width="960" height="1900"', 72 / 25.4, '96:72'],
  ['90 to the inch in a file of pixels', 'width="960" height="1900"', 90 / 25.4, '96:90'],
  [
    '96 to the inch on a page of points',
    'width="999pt" height="999pt" viewBox="0 0 999 999"',
    96 / 25.4,
    '72:96',
  ],
])('%s is found out by a width and a height, and put right', (_, size, perMm, kind) => {
  const read = readSize(size, TRUE.width * perMm, TRUE.height * perMm);
  const check = scaleCheck(
    { measured: read.width, true: TRUE.width + 1 },
    { measured: read.height, true: TRUE.height - 1 },
  );
  expect(check.cause?.kind).toBe(kind);
  expect(check.scaleX).toBe(check.scaleY);
  expect(Math.abs(read.width * check.scaleX - TRUE.width)).toBeLessThan(1);
  expect(Math.abs(read.height * check.scaleY - TRUE.height)).toBeLessThan(1);
});
