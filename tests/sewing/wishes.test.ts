import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import type { Design, LineId } from '../../src/pattern';
import { type Moved, checkPlan, moveStep, sayNeed } from '../../src/sewing';
import { deleteLine } from '../../src/workbench/store/lineEdits';
import { forgetWishes, setFewThreads, setSleeves, wishOrder } from '../../src/workbench/store/orderEdits';
import { lined, rectangle } from '../making/designs';
import { backLine, frontLine, keysOf, sewn, shirt, sleeveLine, wanting, wish } from './garments';

const LINED = [
  frontLine('line-1', 300),
  frontLine('line-2', 400),
  backLine('line-3', 300),
  sleeveLine('line-4', 200),
];
const SHOULDERS = 'join front/shoulder back/shoulder';
const SLEEVES = 'join front/armhole sleeve/sleeve cap';
const SIDES = 'join front/side seam back/side seam';

const dragged = (design: Design, key: string, before: string | null): Moved =>
  moveStep(deriveGarment(design), key, before);

/** The design after a drag that is allowed. */
function after(design: Design, key: string, before: string | null): Design {
  const moved = dragged(design, key, before);
  if (!moved.ok) throw new Error(`${key} cannot be moved`);
  return wishOrder(moved.wishes)(design);
}

const why = (design: Design, key: string, before: string | null): string[] => {
  const moved = dragged(design, key, before);
  const { plan } = deriveGarment(design);
  return moved.ok ? [] : moved.why.map((w) => sayNeed(w, plan));
};

test('a step dragged up comes to lie right before the one it is dropped on; all others keep their order', () => {
  const start = shirt(LINED);
  const keys = keysOf(start);
  const moved = keysOf(after(start, 'seam line-4', 'seam line-1'));
  const without = (list: readonly string[]): string[] => list.filter((k) => k !== 'seam line-4');
  expect(moved.indexOf('seam line-4')).toBe(moved.indexOf('seam line-1') - 1);
  expect(without(moved)).toEqual(without(keys));
});

test('a step dragged down comes after all it is dragged over; all others keep their order', () => {
  const start = shirt(LINED);
  const keys = keysOf(start);
  const first = keys[0]!;
  const moved = keysOf(after(start, first, 'seam line-4'));
  expect(moved.indexOf(first)).toBe(moved.indexOf('seam line-4') - 1);
  expect(moved.filter((k) => k !== first)).toEqual(keys.filter((k) => k !== first));
});

test('the last drag wins over earlier ones, which are dropped', () => {
  const there = after(shirt(LINED), 'seam line-4', 'seam line-1');
  const back = after(there, 'seam line-1', 'seam line-4');
  const keys = keysOf(back);
  expect(keys.indexOf('seam line-1')).toBeLessThan(keys.indexOf('seam line-4'));
  expect(back.sewing.order).toEqual([wish('seam line-1', 'seam line-4')]);
});

test('what a step needs comes along', () => {
  const start = shirt(LINED);
  const moved = keysOf(after(start, 'hem sleeve/hem', 'hem front/hem'));
  expect(moved.indexOf('hem sleeve/hem')).toBe(moved.indexOf('hem front/hem') - 1);
  const early = keysOf(after(start, SHOULDERS, 'seam line-4'));
  expect(early.indexOf(SHOULDERS)).toBe(early.indexOf('seam line-4') - 1);
});

test('a drag that cannot be sewn says what comes first, and why', () => {
  const start = shirt(LINED);
  expect(why(start, SLEEVES, SHOULDERS)).toEqual([
    'Both shoulders are sewn first (step 6): an end of it is caught in step 8.',
  ]);
  expect(why(start, SIDES, 'seam line-1')[0]).toMatch(
    /^\d.* are sewn to \d.* first \(step \d\): an end of it is caught/,
  );
  // through others: hems wait for sides, sides for sleeves
  expect(why(start, 'hem front/hem', SHOULDERS).length).toBeGreaterThan(1);
});

test('a step can be dragged before another unless it waits for it, itself or through others', () => {
  const start = shirt(LINED);
  const { steps } = deriveGarment(start).plan;
  // by every chain of needs, as a table of who waits for whom
  const waits = steps.map((s) => steps.map((o) => s.needs.some((n) => n.key === o.key)));
  for (let k = 0; k < steps.length; k += 1)
    for (let i = 0; i < steps.length; i += 1)
      for (let j = 0; j < steps.length; j += 1) waits[i]![j] ||= waits[i]![k]! && waits[k]![j]!;
  steps.forEach((first, i) =>
    steps.slice(i + 1).forEach((later, d) => {
      const moved = dragged(start, later.key, first.key);
      expect([later.key, first.key, moved.ok]).toEqual([later.key, first.key, !waits[i + 1 + d]![i]]);
      if (!moved.ok) expect([moved.why[0]!.of, moved.why.at(-1)!.need.key]).toEqual([later.key, first.key]);
    }),
  );
});

test('a line that ends on another stays before it; the sentence says so', () => {
  const t = lined(rectangle(300, 300), [
    [
      [0, 100],
      [300, 100],
    ],
    [
      [150, 100],
      [150, 300],
    ],
  ]);
  expect(why(t, 'seam line-1', 'seam line-2')).toEqual([
    '1 is sewn to 2 first (step 1): its seam ends on that of step 2.',
  ]);
});

test('a wish about two lines that cross turns the crossing round', () => {
  const cross = lined(rectangle(300, 300), [
    [
      [0, 150],
      [300, 150],
    ],
    [
      [150, 0],
      [150, 300],
    ],
  ]);
  expect(keysOf(cross)).toContain('seam line-2 #2');
  const turned = after(cross, 'seam line-1', keysOf(cross)[0]!);
  expect(keysOf(turned)).toEqual(expect.arrayContaining(['seam line-1', 'seam line-1 #2', 'seam line-2']));
  expect(keysOf(turned).at(-1)).toBe('seam line-2');
  expect(sewn(turned).faults).toEqual([]);
});

test('a wish that what is sewn does not allow is told and does no harm', () => {
  const start = shirt(LINED);
  const wished = wanting(start, { order: [wish(SIDES, SHOULDERS), wish('seam line-9', SHOULDERS)] });
  const { garment, faults } = sewn(wished);
  expect(faults).toEqual([]);
  expect(garment.plan.steps.map((s) => s.key)).toEqual(keysOf(start));
  const told = garment.problems.filter((p) => p.code === 'order-wish-impossible');
  expect(told.map((p) => p.facts)).toEqual([{ earlier: 9, later: 6 }]);
});

test('wishes about a line go with it: its id may be given to another', () => {
  const wished = after(shirt(LINED), 'seam line-4', 'seam line-1');
  expect(deleteLine('line-4' as LineId)(wished).sewing.order).toEqual([]);
  expect(deleteLine('line-2' as LineId)(wished).sewing.order).toEqual(wished.sewing.order);
});

test('edits of wishes change nothing else, and nothing at all where all is so already', () => {
  const start = shirt(LINED);
  expect(forgetWishes(start)).toBe(start);
  expect(setSleeves('flat')(start)).toBe(start);
  expect(setFewThreads(false)(start)).toBe(start);
  expect(setSleeves('set in')(start).sewing).toEqual({ ...start.sewing, sleeves: 'set in' });
  const wished = after(start, 'seam line-4', 'seam line-1');
  expect(forgetWishes(wished).sewing).toEqual(start.sewing);
});

test('dragged about at random: what is allowed comes to lie there, what is not says why, and every plan can be sewn', () => {
  const any = fc.nat({ max: 1000 });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(any, any), { minLength: 1, maxLength: 4 }),
      fc.boolean(),
      (drags, isSetIn) => {
        let design = wanting(shirt(LINED), { sleeves: isSetIn ? 'set in' : 'flat' });
        for (const [from, to] of drags) {
          const keys = keysOf(design);
          const key = keys[from % keys.length]!;
          const before = keys[to % keys.length]!;
          if (key === before) continue;
          const moved = dragged(design, key, before);
          if (!moved.ok) {
            expect(why(design, key, before).every((text) => text.length > 0)).toBe(true);
            expect(moved.why.length).toBeGreaterThan(0);
            continue;
          }
          design = wishOrder(moved.wishes)(design);
          const now = keysOf(design);
          expect(now.indexOf(key)).toBeLessThan(now.indexOf(before));
          const { plan, pieces, neighbours } = deriveGarment(design);
          expect(checkPlan(plan, pieces, { neighbours, wishes: design.sewing.order, trims: [] })).toEqual([]);
        }
      },
    ),
    { seed: 21, numRuns: 12 },
  );
});
