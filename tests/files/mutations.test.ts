import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { designFromTracings, openDesign, readTracing, saveDesign } from '../../src/files';
import { sayProblem } from '../../src/pattern';

const SHEATH = readFileSync('demo-data/sheath.svg', 'utf8');
const BODICE = readFileSync('demo-data/bodice.svg', 'utf8');
const DESIGN = readFileSync('tests/files/v1.json', 'utf8');

/** One small damage: cut, dropped, doubled or overwritten text. */
const damage = fc.record({
  kind: fc.constantFrom('cut', 'drop', 'double', 'write'),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 1, max: 60 }),
  text: fc.constantFrom(
    '<',
    '>',
    '"',
    '&',
    '/',
    'NaN',
    '1e999',
    '-',
    '}',
    ']',
    '0',
    '<g>',
    '</g>',
    ' id="fold"',
    'M',
    'Z',
    '\u0000',
    '-1e9',
    'null',
  ),
});
type Damage = typeof damage extends fc.Arbitrary<infer T> ? T : never;

function damaged(text: string, { kind, at, length, text: put }: Damage): string {
  const i = Math.floor(at * text.length);
  if (kind === 'cut') return text.slice(0, i);
  if (kind === 'drop') return text.slice(0, i) + text.slice(i + length);
  if (kind === 'double') return text.slice(0, i + length) + text.slice(i);
  return text.slice(0, i) + put + text.slice(i + (length % 5));
}

/** Finite coordinates within reach, wherever they stand in a value. */
function assertFinite(value: unknown): void {
  if (typeof value === 'number') expect(Number.isFinite(value) && Math.abs(value) <= 1e6).toBe(true);
  else if (Array.isArray(value)) for (const v of value) assertFinite(v);
  else if (typeof value === 'object' && value !== null) for (const v of Object.values(value)) assertFinite(v);
}

test('a damaged drawing always gives a tracing or clear problems, never an error or a number that is none', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(SHEATH, BODICE),
      fc.array(damage, { minLength: 1, maxLength: 4 }),
      (file, damages) => {
        const outcome = readTracing(damages.reduce(damaged, file), 'damaged.svg');
        for (const p of outcome.problems) expect(sayProblem(p, 'mm')).toMatch(/^[^\n]+$/);
        if (outcome.ok) {
          assertFinite(outcome.value.pieces);
          const design = designFromTracings([outcome.value]);
          const again = openDesign(saveDesign(design), 'saved.json');
          expect(again).toStrictEqual({ ok: true, value: design, problems: [] });
        } else expect(outcome.problems.length).toBeGreaterThan(0);
      },
    ),
    { numRuns: 600, seed: 20260 },
  );
}, 60_000);

test('a damaged design always gives a design or clear problems, never an error', () => {
  fc.assert(
    fc.property(fc.array(damage, { minLength: 1, maxLength: 3 }), (damages) => {
      const outcome = openDesign(damages.reduce(damaged, DESIGN), 'damaged.json');
      for (const p of outcome.problems) expect(sayProblem(p, 'mm')).toMatch(/^[^\n]+$/);
      if (outcome.ok) assertFinite(outcome.value);
      else expect(outcome.problems).toHaveLength(1);
    }),
    { numRuns: 600, seed: 20261 },
  );
}, 60_000);
