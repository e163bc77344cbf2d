// @vitest-environment jsdom
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readTracing } from '../../src/files';

/** What our reader makes of a CSS colour. */
function ours(colour: string): string | undefined {
  const outcome = readTracing(
    `<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"><rect id="outline" width="99" height="99"/><rect id="colour" width="50" height="50" fill="${colour}"/></svg>`,
    'c.svg',
  );
  return outcome.ok ? outcome.value.pieces[0]!.fills[0]?.fill : undefined;
}

/** What jsdom's CSS engine makes of it, as six hex digits. */
function theirs(colour: string): string {
  const element = document.createElement('p');
  document.body.append(element);
  element.style.color = colour;
  const [r, g, b] = getComputedStyle(element)
    .color.match(/[\d.]+/g)!
    .map(Number);
  element.remove();
  return `#${[r, g, b].map((v) => Math.round(v!).toString(16).padStart(2, '0')).join('')}`;
}

// CSS Color Module Level 4 (W3C), section 6.1, names a few of each letter
test.each(
  'aliceblue beige coral darkslategray floralwhite gold hotpink indigo khaki lightgoldenrodyellow mediumaquamarine navajowhite orchid peru rebeccapurple salmon teal violet whitesmoke yellowgreen grey cyan magenta tomato'.split(
    ' ',
  ),
)('the colour keyword %s means what a browser’s CSS engine says', (name) => {
  expect(ours(name)).toBe(theirs(name));
});

test('hex, rgb and hsl colours are those of a CSS engine', () => {
  const byte = fc.integer({ min: 0, max: 255 });
  const share = fc.integer({ min: 0, max: 100 });
  fc.assert(
    fc.property(byte, byte, byte, fc.integer({ min: 0, max: 359 }), share, share, (r, g, b, h, s, l) => {
      expect(ours(`rgb(${r}, ${g}, ${b})`)).toBe(theirs(`rgb(${r}, ${g}, ${b})`));
      const near = (a: string, z: string): boolean =>
        [1, 3, 5].every(
          (i) =>
            Math.abs(Number.parseInt(a.slice(i, i + 2), 16) - Number.parseInt(z.slice(i, i + 2), 16)) <= 1,
        );
      const hsl = `hsl(${h}, ${s}%, ${l}%)`;
      expect(near(ours(hsl)!, theirs(hsl))).toBe(true);
    }),
    { numRuns: 100, seed: 5 },
  );
});
