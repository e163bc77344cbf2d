import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openDesign } from '../../src/files';
import type { Pt } from '../../src/geometry';
import { checkGarment, deriveGarment } from '../../src/garment';
import type { Closing, ClosingId, PanelLine, Trim, TrimId } from '../../src/pattern';
import { type SewingPlan, checkPlan, planSewing } from '../../src/sewing';
import { line } from '../neighbours/garments';
import { BACK_AT, SLEEVE_AT, backLine, frontLine, shirt, sleeveLine, wanting } from './garments';

const unit = fc.double({ min: 0, max: 1, noNaN: true });

/** A straight line anywhere on a piece, a level one, or one down it. */
const someLines = fc
  .array(fc.tuple(fc.constantFrom('front', 'back', 'sleeve'), fc.nat({ max: 2 }), unit, unit, unit), {
    maxLength: 7,
  })
  .map((list) =>
    list.map(([piece, way, p, q, r], i): PanelLine => {
      const box = {
        front: [0, 0, 260, 580],
        back: [BACK_AT[0], 0, 260, 580],
        sleeve: [SLEEVE_AT[0] - 165, SLEEVE_AT[1] - 130, 330, 440],
      }[piece] as [number, number, number, number];
      const at = (u: number, v: number): Pt => [box[0] + u * box[2], box[1] + v * box[3]];
      const ends: [Pt, Pt] =
        way === 0
          ? [at(-0.1, p), at(1.1, p)]
          : way === 1
            ? [at(p, -0.1), at(q, 1.1)]
            : [at(p, q), at(1.1, r)];
      return line(`line-${i + 1}`, piece, ends, { once: way === 2 && r < 0.5 });
    }),
  );

const zip: Closing = {
  ...{ id: 'closing-1' as ClosingId, kind: 'hidden', length: null, allowance: null, slot: 0 },
  on: { kind: 'edge', piece: 'back' as never, edge: 'centre back', nth: 0 },
};

const ALL_OF_IT = { kind: 'line', from: 0, to: 1 } as const;
const RIBBON: Omit<Trim, 'id' | 'on'> = {
  ...{ name: 'ribbon', kind: 'straight', width: 10, fill: '#204060', rows: 2, shrinkage: 0, soldIn: null },
};

test('whatever is drawn on front, back and sleeve, and whatever is wished, the plan of the garment can be sewn', () => {
  fc.assert(
    fc.property(
      someLines,
      fc.record({
        sleeves: fc.constantFrom('flat' as const, 'set in' as const),
        fewThreads: fc.boolean(),
        isRound: fc.boolean(),
        zipKind: fc.constantFrom(null, 'hidden' as const, 'shown' as const),
        wished: fc.array(fc.tuple(fc.nat({ max: 99 }), fc.nat({ max: 99 })), { maxLength: 4 }),
      }),
      (lines, { sleeves, fewThreads, isRound, zipKind, wished }) => {
        const bands = isRound
          ? [frontLine('band-1', 520), backLine('band-2', 520), sleeveLine('band-3', 270)]
          : [];
        const all = [...lines, ...bands];
        const wanted = { sleeves, fewThreads, inTheRound: isRound ? all.map((l) => l.id) : [] };
        const closings = zipKind ? [{ ...zip, kind: zipKind }] : [];
        const design = wanting(shirt(all, { closings }), wanted);
        const { plan, pieces, neighbours } = deriveGarment(design);
        expect(checkPlan(plan, pieces, { neighbours, wishes: [], trims: [], closings })).toEqual([]);
        const keyAt = (n: number): string => plan.steps[n % plan.steps.length]!.key;
        const wishes = wished.map(([a, b]) => ({ earlier: keyAt(a), later: keyAt(b) }));
        const other = planSewing({ design: wanting(design, { order: wishes }), pieces, neighbours }).plan;
        expect(checkPlan(other, pieces, { neighbours, wishes, trims: [], closings })).toEqual([]);
      },
    ),
    { seed: 51, numRuns: 30 },
  );
});

test('with trims on any of the lines it can be sewn too, each trim on seams that are sewn', () => {
  fc.assert(
    fc.property(someLines, fc.array(fc.nat({ max: 6 }), { minLength: 1, maxLength: 3 }), (lines, on) => {
      const trims = on.flatMap((n, i): Trim[] =>
        lines[n]
          ? [{ ...RIBBON, id: `trim-${i + 1}` as TrimId, on: { ...ALL_OF_IT, line: lines[n].id } }]
          : [],
      );
      const { plan, pieces, neighbours } = deriveGarment(shirt(lines, { trims }));
      expect(checkPlan(plan, pieces, { neighbours, wishes: [], trims })).toEqual([]);
    }),
    { seed: 52, numRuns: 15 },
  );
});

test('the replay notices steps out of order, seams left out and units that are not there', () => {
  const lines = [frontLine('line-1', 300), backLine('line-2', 300), sleeveLine('line-3', 200)];
  const { plan, pieces, neighbours } = deriveGarment(shirt(lines));
  const faultsOf = (steps: SewingPlan['steps']): number =>
    checkPlan({ ...plan, steps: steps.map((s, i) => ({ ...s, step: i + 1 })) }, pieces, {
      neighbours,
      wishes: [],
      trims: [],
    }).length;
  expect(faultsOf(plan.steps)).toBe(0);
  const { steps } = plan;
  steps.forEach((step, i) => {
    const isFree = step.kind === 'edge';
    const without = steps.filter((s) => s !== step);
    // an edge that may be left as it is can be left out
    if (!isFree) expect(faultsOf(without)).toBeGreaterThan(0);
    if (step.needs.length > 0) expect(faultsOf([step, ...without])).toBeGreaterThan(0);
    const one = { ...step, joins: [step.joins[0].slice(1), step.joins[1]] as const };
    const isUnit =
      step.kind === 'seam' || step.key.startsWith('join front/shoulder') || step.key.includes('cap');
    if (isUnit) expect(faultsOf(steps.with(i, one))).toBeGreaterThan(0);
  });
});

test('the demo reads from the first panels to the last hem', () => {
  const opened = openDesign(readFileSync('demo-data/sheath.json'), 'sheath.json');
  if (!opened.ok) throw new Error('the demo cannot be opened');
  const garment = deriveGarment(opened.value);
  expect(checkGarment(garment)).toEqual([]);
  const between = garment.plan.steps.filter((s) => s.edges.length > 0);
  expect(between.map((s) => s.text)).toEqual([
    'Set the zip into the centre back: 6–9 to the other half.',
    'Sew the centre back: 6–9 to the other half.',
    'Sew both shoulders: 1–5 to 6–9.',
    'Finish the neckline of 5+9.',
    'Sew both sleeves into the armholes: 1–9 to 10–12.',
    'Sew both sides and underarms, each in one go: 1–4+10–12 to 6–8+10–12.',
    'Turn up and sew the hem of 1+6.',
    'Turn up and sew the hem of 10.',
  ]);
});
