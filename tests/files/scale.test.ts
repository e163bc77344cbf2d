import { expect, test } from 'vitest';
import { readTracing } from '../../src/files';
import { piece, refusedFor, svg } from './drawing';

/** Far corner of a 100 × 50 outline drawn on a page with these root attributes, mm. */
const corner = (root: string, scale?: number): readonly number[] => {
  const traced = piece(
    svg('<rect id="outline" width="100" height="50"/>', root),
    'x.svg',
    scale === undefined ? {} : { scale },
  );
  return traced.outline[1]!.at(-1) as unknown as readonly number[];
};
const near = (x: number, y: number) => [expect.closeTo(x, 5), expect.closeTo(y, 5)];
const PX = 25.4 / 96;

test.each([
  ['width="200mm" height="100mm" viewBox="0 0 200 100"', 100, 50],
  ['width="20cm" height="10cm" viewBox="0 0 400 200"', 50, 25],
  ['width="10in" height="10in" viewBox="0 0 100 100"', 254, 127],
  ['width="720pt" height="60pc" viewBox="0 0 100 100"', 254, 127],
  ['width="800Q" height="400Q" viewBox="0 0 200 100"', 100, 50],
  ['width="960px" height="960" viewBox="0 0 100 100"', 254, 127],
  ['width="200mm" height="100mm"', 100 * PX, 50 * PX],
  ['width="200" height="100"', 100 * PX, 50 * PX],
  ['', 100 * PX, 50 * PX],
  ['width="200mm" viewBox="0 0 400 100"', 50, 25],
  ['height="200mm" viewBox="0 0 400 400"', 50, 25],
  ['width="200mm" height="100%" viewBox="0 0 400 100"', 50, 25],
])('a page with %s has the scale it says', (root, x, y) => {
  expect(corner(root)).toEqual(near(x, y));
});

test('the viewBox may start anywhere', () => {
  const traced = piece(
    svg(
      '<rect id="outline" x="-50" y="-20" width="10" height="10"/>',
      'width="100mm" height="100mm" viewBox="-50 -20 100 100"',
    ),
  );
  expect(traced.outline[0]![0]).toEqual([0, 0]);
});

test.each([
  ['viewBox="0 0 200 200"', 50, 75],
  ['viewBox="0 0 200 200" preserveAspectRatio="xMinYMin"', 50, 25],
  ['viewBox="0 0 200 200" preserveAspectRatio="xMaxYMax meet"', 50, 125],
  ['viewBox="0 0 200 100" preserveAspectRatio="none"', 50, 100],
  ['viewBox="0 0 200 200" preserveAspectRatio="xMinYMin slice"', 100, 50],
  ['viewBox="0 0 200 200" preserveAspectRatio="xMidYMid slice"', 50, 50],
])('a page of 100 × 200 mm with %s places the drawing as preserveAspectRatio says', (root, x, y) => {
  expect(corner(`width="100mm" height="200mm" ${root}`)).toEqual(near(x, y));
});

test('a drawing that does not say how large it is asks for a scale', () => {
  for (const root of [
    'viewBox="0 0 100 100"',
    'width="100%" height="100%" viewBox="0 0 10 10"',
    'width="100%"',
    'width="50em" viewBox="0 0 9 9"',
  ]) {
    expect(refusedFor(svg('<rect id="outline" width="100" height="50"/>', root))).toBe('scale-unknown');
    expect(corner(root, 2)).toEqual(near(200, 100));
  }
});

test('a given scale is not used where the drawing says its size', () => {
  expect(corner('width="200mm" height="100mm" viewBox="0 0 200 100"', 5)).toEqual(near(100, 50));
});

test('a drawing without any size is taken at 96 units to the inch, and says so', () => {
  const outcome = readTracing(svg('<rect id="outline" width="100" height="50"/>', ''), 'x.svg');
  expect(outcome.problems.map((p) => p.code)).toEqual(['scale-assumed']);
});
