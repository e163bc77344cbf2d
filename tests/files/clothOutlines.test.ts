import { expect, test } from 'vitest';
import { signedAreaOfPoints } from '../../src/geometry';
import { readClothOutlines } from '../../src/files';
import { svg, valueOf } from './drawing';

const read = (content: string, file = 'left from the skirt.svg') =>
  valueOf(readClothOutlines(svg(content), file));
const codeOf = (content: string): string => {
  const outcome = readClothOutlines(svg(content), 'scrap.svg');
  return outcome.ok ? 'ok' : outcome.problems[0].code;
};

test('a closed outline is a piece of cloth at its true size, moved to the corner and called like its file', () => {
  expect(read('<rect x="30" y="40" width="200" height="100"/>')).toEqual([
    {
      name: 'left from the skirt',
      outline: [
        [0, 0],
        [200, 0],
        [200, 100],
        [0, 100],
      ],
    },
  ]);
});

test('each closed outline is a piece of its own, the largest first; curves are flattened finely', () => {
  const pieces = read('<rect width="50" height="30"/><circle cx="150" cy="150" r="100"/>');
  expect(pieces.map(({ name }) => name)).toEqual(['left from the skirt 1', 'left from the skirt 2']);
  expect(signedAreaOfPoints(pieces[0]!.outline) / (Math.PI * 100 ** 2)).toBeCloseTo(1, 3);
  expect(signedAreaOfPoints(pieces[1]!.outline)).toBeCloseTo(1500, 6);
});

test('strokes that meet end to end are one outline, whichever way they were drawn', () => {
  const [piece, ...others] = read('<path d="M0 0H200V90"/><path d="M0 0V90H200"/>');
  expect(others).toEqual([]);
  expect(signedAreaOfPoints(piece!.outline)).toBeCloseTo(18000, 6);
});

test.each([
  ['nothing drawn', '<text>cloth</text>', 'no-cloth-outline'],
  ['an open line', '<path d="M0 0H200V90"/>', 'outline-open'],
  ['a loop', '<path d="M0 0L200 90V0L0 90Z"/>', 'outline-crosses-itself'],
  ['nothing but strokes as thin as a pen’s', '<rect width="200" height="0.5"/>', 'no-cloth-outline'],
  ['a number that is none', '<rect width="wide" height="90"/>', 'bad-number'],
])('%s is refused with a clear word', (_, content, code) => {
  expect(codeOf(content)).toBe(code);
});

test('a drawing that does not say how large it is is refused until somebody says so', () => {
  const text =
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 50"><rect width="100" height="50"/></svg>';
  const refused = readClothOutlines(text, 'scrap.svg');
  expect(refused.ok ? 'ok' : refused.problems[0].code).toBe('scale-unknown');
  const [piece] = valueOf(readClothOutlines(text, 'scrap.svg', 10));
  expect(signedAreaOfPoints(piece!.outline)).toBeCloseTo(1000 * 500, 6);
});
