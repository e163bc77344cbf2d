import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Pt } from '../../src/geometry';
import { deriveGarment } from '../../src/garment';
import type { Design, LineId, PieceId } from '../../src/pattern';
import { numberChanges, sayNumberChanges } from '../../src/sewing';
import { type BenchStore, createBench, garmentOf } from '../../src/workbench/store/benchStore';
import { addLine, deleteLine, reshapeLine } from '../../src/workbench/store/lineEdits';
import { numberAnew } from '../../src/workbench/store/orderEdits';
import { renameDesign } from '../../src/workbench/store/patternEdits';
import { lined, rectangle } from '../making/designs';

const across = (y: number): [Pt, Pt] => [
  [0, y],
  [300, y],
];
const start = lined(rectangle(300, 300), [across(100), across(200)]);
const FRONT = 'front' as PieceId;

/** The number of the panel at a spot. */
function numberAt(design: Design, [x, y]: Pt): number {
  const { panels, plan } = deriveGarment(design);
  const [nearest] = panels.toSorted(
    (p, q) => Math.hypot(p.spot.at[0] - x, p.spot.at[1] - y) - Math.hypot(q.spot.at[0] - x, q.spot.at[1] - y),
  );
  return plan.numbers.get(nearest!.id)!;
}
const stripes = (design: Design, ...ys: number[]): number[] => ys.map((y) => numberAt(design, [150, y]));
const docOf = (bench: BenchStore): Design => bench.getState().doc;
const draw = (bench: BenchStore, id: string, y: number): void =>
  bench.getState().commit('draw', addLine(id as LineId, FRONT, [across(y)], true));

test('a new line gives one panel a new number; all others keep theirs', () => {
  const bench = createBench(start);
  const before = stripes(docOf(bench), 50, 150, 250);
  draw(bench, 'line-3', 230);
  const [a, b, small, large] = stripes(docOf(bench), 50, 150, 215, 265);
  expect([a, b]).toEqual(before.slice(0, 2));
  // the larger part is the panel that was there
  expect([large, small]).toEqual([before[2], 4]);
});

test('what changed is said: the new panel, panels that are gone, panels that got another number', () => {
  const bench = createBench(start);
  const first = garmentOf(bench.getState());
  draw(bench, 'line-3', 230);
  const second = garmentOf(bench.getState());
  expect(sayNumberChanges(numberChanges(first, second))).toBe(
    'The new panel is 4; the others keep their numbers.',
  );
  bench.getState().commit('delete', deleteLine('line-1' as LineId));
  const third = garmentOf(bench.getState());
  const said = sayNumberChanges(numberChanges(second, third));
  expect(said).toMatch(/^Panel \d is gone; 4 is now \d; the others keep their numbers\.$|^Panel 4 is gone;/);
  expect(sayNumberChanges({ fresh: [], gone: [], moved: [] })).toBe('');
});

test('the bench says it, after what it says of the edit, and to everybody where panels were renumbered', async () => {
  const bench = createBench(start);
  draw(bench, 'line-3', 230);
  bench.getState().set({ spoken: 'Line drawn.' });
  await Promise.resolve();
  expect(bench.getState().spoken).toBe('Line drawn. The new panel is 4; the others keep their numbers.');
  expect(bench.getState().notice).toBeNull();
});

test('numbers stay while lines move, also one dragged over the middle of its neighbour, and come back with undo', () => {
  const bench = createBench(start);
  draw(bench, 'line-3', 230);
  const numbers = stripes(docOf(bench), 50, 150, 215, 265);
  bench.getState().commit('move', reshapeLine('line-1' as LineId, [across(165)]));
  expect(stripes(docOf(bench), 80, 182, 215, 265)).toEqual(numbers);
  bench.getState().undo();
  expect(stripes(docOf(bench), 50, 150, 215, 265)).toEqual(numbers);
  bench.getState().undo();
  expect(docOf(bench).numbers).toEqual([]);
});

test('a drag shows the numbers that it leaves', () => {
  const bench = createBench(start);
  const edit = reshapeLine('line-1' as LineId, [across(120)]);
  bench.getState().preview(edit);
  const shown = stripes(bench.getState().draft!, 60, 160, 250);
  bench.getState().commit('move', edit);
  expect(stripes(docOf(bench), 60, 160, 250)).toEqual(shown);
});

test('edits that touch neither lines nor pieces write nothing; a design put on the table keeps its own numbers', () => {
  const bench = createBench(start);
  bench.getState().commit('rename', renameDesign('another'));
  expect(docOf(bench).numbers).toBe(start.numbers);
  draw(bench, 'line-3', 230);
  expect(docOf(bench).numbers).toHaveLength(4);
  bench.getState().replace('open', start);
  expect(docOf(bench).numbers).toEqual([]);
});

test('panels can be numbered anew in sewing order', () => {
  const bench = createBench(start);
  draw(bench, 'line-3', 230);
  bench.getState().commit('delete', deleteLine('line-2' as LineId));
  bench.getState().commit('number', numberAnew);
  const { plan } = garmentOf(bench.getState());
  const inHand = [...new Set(plan.steps.flatMap((s) => s.joins.flat()))].map((p) => plan.numbers.get(p)!);
  expect(inHand).toEqual(inHand.toSorted((p, q) => p - q));
});

test('whatever is drawn, moved, deleted or undone: numbers run from 1 without a gap, and no more change than must', () => {
  const y = fc.integer({ min: 2, max: 58 }).map((k) => k * 5);
  const action = fc.oneof(
    fc.record({ kind: fc.constant('draw' as const), y }),
    fc.record({ kind: fc.constantFrom('move' as const, 'delete' as const), y, which: fc.nat({ max: 20 }) }),
    fc.record({ kind: fc.constant('undo' as const) }),
  );
  fc.assert(
    fc.property(fc.array(action, { maxLength: 10 }), (actions) => {
      const bench = createBench(start);
      let drawn = 2;
      for (const a of actions) {
        const before = garmentOf(bench.getState());
        const lines = docOf(bench).lines;
        const id = 'which' in a && lines.length > 0 ? lines[a.which % lines.length]!.id : null;
        if (a.kind === 'draw') draw(bench, `line-${(drawn += 1)}`, a.y + 1);
        else if (a.kind === 'undo') bench.getState().undo();
        else if (id && a.kind === 'delete') bench.getState().commit('delete', deleteLine(id));
        else if (id && 'y' in a) bench.getState().commit('move', reshapeLine(id, [across(a.y + 3)]));
        const after = garmentOf(bench.getState());
        const numbers = [...after.plan.numbers.values()].toSorted((p, q) => p - q);
        expect(numbers).toEqual(numbers.map((_, i) => i + 1));
        if (a.kind === 'undo' || after === before || docOf(bench).numbers.length === 0) continue;
        const { fresh, gone, moved } = numberChanges(before, after);
        // a renumbered panel fills the gap that one that went has left, where no new panel does
        expect(moved.length).toBeLessThanOrEqual(Math.max(0, gone.length - fresh.length));
        for (const { from, to } of moved) expect(from).toBeGreaterThan(to);
      }
    }),
    { seed: 41, numRuns: 60 },
  );
});
