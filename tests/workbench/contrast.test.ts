import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { contrast } from '../../src/pattern';
import { INK, inkOn } from '../../src/workbench/canvas/ink';

const tokens = new Map(
  [
    ...readFileSync(new URL('../../src/workbench/look/tokens.css', import.meta.url), 'utf8').matchAll(
      /--([\w-]+): (#[0-9a-f]{6});/g,
    ),
  ].map(([, name, fill]) => [name!, fill!]),
);
const colour = (name: string): string => {
  const fill = tokens.get(name);
  if (!fill) throw new Error(`no colour ${name}`);
  return fill;
};

test('black on white has the contrast that WCAG 2.2 gives it: 21 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
  // 4.54 for #767676 on white: the well-known least grey for normal text (WebAIM contrast checker; from memory)
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

// WCAG 2.2, 1.4.3: 4.5 for text
test.each([
  [
    'graphite',
    ['table', 'table-deep', 'paper', 'paper-shade', 'tape', 'chalk', 'indigo-wash', 'madder-wash'],
  ],
  ['graphite-soft', ['table', 'table-deep', 'paper', 'tape', 'indigo-wash']],
  ['indigo', ['paper', 'tape', 'chalk', 'table']],
  ['madder', ['paper', 'chalk', 'madder-wash', 'indigo-wash']],
  ['chalk', ['indigo', 'madder', 'graphite']],
] as const)('text in %s reads on every ground it stands on', (text, grounds) => {
  for (const ground of grounds)
    expect(contrast(colour(text), colour(ground)), `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
});

test('screen inks and the page’s colours are the same', () => {
  for (const name of ['graphite', 'indigo', 'madder'] as const) expect(INK[name]).toBe(colour(name));
});

// WCAG 2.2, 1.4.11: 3 for lines and marks
test('grain arrows on any cloth take the ink that reads better', () => {
  expect(inkOn('#101418')).toBe(INK.chalk);
  expect(inkOn('#f4f0e6')).toBe(INK.graphite);
  for (let g = 0; g < 256; g += 5) {
    const fill = `#${g.toString(16).padStart(2, '0').repeat(3)}`;
    expect(contrast(fill, inkOn(fill))).toBeGreaterThanOrEqual(3);
  }
});
