import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import type { ColourId, PanelMark } from '../../src/pattern';
import { type Threaded, fewestChanges, threadChanges } from '../../src/sewing/threads';
import { backLine, frontLine, sewn, shirt, sleeveLine, wanting } from './garments';

/** The fewest changes over every order that needs and parts allow: each is tried. */
function byTrying(tasks: readonly Threaded[]): number {
  let best = Infinity;
  const done = new Set<string>();
  const go = (thread: string | null, changes: number): void => {
    if (changes >= best) return;
    if (done.size === tasks.length) {
      best = changes;
      return;
    }
    const part = Math.min(...tasks.filter((t) => !done.has(t.key)).map((t) => t.part));
    for (const t of tasks) {
      if (done.has(t.key) || t.part !== part || !t.needs.every((n) => done.has(n))) continue;
      done.add(t.key);
      const isChange = t.thread !== null && thread !== null && t.thread !== thread;
      go(t.thread ?? thread, changes + (isChange ? 1 : 0));
      done.delete(t.key);
    }
  };
  go(null, 0);
  return best;
}

const someTasks = fc
  .array(
    fc.record({
      thread: fc.constantFrom('red', 'blue', 'sand', null),
      needs: fc.array(fc.nat({ max: 20 }), { maxLength: 2 }),
      part: fc.nat({ max: 1 }),
    }),
    { minLength: 1, maxLength: 8 },
  )
  .map((list) =>
    list
      .toSorted((p, q) => p.part - q.part)
      .map(({ thread, needs, part }, i): Threaded => ({
        key: `t${i}`,
        thread,
        part,
        needs: i === 0 ? [] : [...new Set(needs.map((n) => `t${n % i}`))],
      })),
  );

test('no order of the same steps has fewer changes of thread', () => {
  fc.assert(
    fc.property(someTasks, (tasks) => {
      const order = fewestChanges(tasks);
      expect(order.toSorted((p, q) => p - q)).toEqual([...tasks.keys()]);
      const at = new Map(order.map((i, place) => [tasks[i]!.key, place] as const));
      for (const t of tasks) for (const n of t.needs) expect(at.get(n)!).toBeLessThan(at.get(t.key)!);
      expect(order.every((i, k) => k === 0 || tasks[order[k - 1]!]!.part <= tasks[i]!.part)).toBe(true);
      expect(threadChanges(order.map((i) => tasks[i]!.thread))).toBe(byTrying(tasks));
    }),
    { seed: 31, numRuns: 300 },
  );
});

const LINED = [
  frontLine('line-1', 300),
  frontLine('line-2', 450),
  backLine('line-3', 300),
  backLine('line-4', 450),
  sleeveLine('line-5', 200),
];

/** The lowest panel of the front and of the back is of dark cloth: their lower seams take dark thread. */
function striped(fewThreads: boolean): ReturnType<typeof deriveGarment>['design'] {
  const plain = wanting(shirt(LINED), { fewThreads });
  const marks = deriveGarment(plain)
    .panels.filter((p) => p.spot.at[1] > 460 && p.piece !== 'sleeve')
    .map((p): PanelMark => ({ piece: p.piece, at: p.flat.at, colour: 'slate' as ColourId }));
  return { ...plain, marks };
}

test('the thread of a seam is that of its darker cloth; of a trim none', () => {
  const { plan } = deriveGarment(striped(false));
  const threadOf = (key: string): string | null => plan.steps.find((s) => s.key === key)!.thread;
  expect(threadOf('seam line-1')).toBe('chalk');
  expect(threadOf('seam line-2')).toBe('slate');
  expect(threadOf('hem front/hem')).toBe('slate');
});

test('with few threads a garment is sewn with no more changes than before, hems still last', () => {
  const [usual, few] = [sewn(striped(false)), sewn(striped(true))];
  expect(few.faults).toEqual([]);
  const changes = ({ garment }: typeof few): number => threadChanges(garment.plan.steps.map((s) => s.thread));
  expect(changes(few)).toBeLessThan(changes(usual));
  expect(few.garment.plan.steps.map((s) => s.key).toSorted()).toEqual(
    usual.garment.plan.steps.map((s) => s.key).toSorted(),
  );
});
