import { expect, test } from 'vitest';
import { readTracing } from '../../src/files';

/** Width of a traced outline that is as wide as its page, mm. */
function pageWidth(width: string): number {
  const outcome = readTracing(
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${width}" viewBox="0 0 7 7"><rect id="outline" width="7" height="7"/></svg>`,
    'page.svg',
  );
  if (!outcome.ok) throw new Error(outcome.problems[0].code);
  return outcome.value.pieces[0]!.outline[0]![1]![0];
}

/** Length of a shape drawn with this unit inside a page whose user unit is 1 px, mm. */
function drawnLength(length: string): number {
  const outcome = readTracing(
    `<svg xmlns="http://www.w3.org/2000/svg" width="960" height="960"><rect id="outline" width="${length}" height="30"/></svg>`,
    'page.svg',
  );
  if (!outcome.ok) throw new Error(outcome.problems[0].code);
  return outcome.value.pieces[0]!.outline[0]![1]![0];
}

// W3C SVG 1.1 test case coords-units-03-b, 2009: 2.54 cm = 25.4 mm = 72 pt = 6 pc = 1 in.
// CSS Values and Units (W3C): 1 in = 96 px, 1 pt = 1/72 in, 1 pc = 1/6 in, 1 Q = 1/40 cm.
test.each(['2.54cm', '25.4mm', '72pt', '6pc', '1in', '96px', '96', '101.6Q'])(
  '%s is one inch, 25.4 mm',
  (inch) => {
    expect(pageWidth(inch)).toBeCloseTo(25.4, 9);
    expect(drawnLength(inch)).toBeCloseTo(25.4, 6);
  },
);

// Derived: 100 units are 26.458 mm at 96 to the inch; 35.278 mm would be 72 to the inch, a third too large.
test('a unitless drawing is 96 units to the inch, not 72', () => {
  expect(pageWidth('100')).toBeCloseTo(26.4583333, 6);
});
