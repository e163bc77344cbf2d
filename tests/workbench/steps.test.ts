import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Design } from '../../src/pattern';
import { createBench } from '../../src/workbench/store/benchStore';
import { addLine, deleteLine, freshLineId } from '../../src/workbench/store/lineEdits';
import { renameDesign } from '../../src/workbench/store/patternEdits';
import { WHOLE, designOf, straight } from './pieces';

const start = designOf(WHOLE, straight('line-1', [0, 200], [200, 200]));
const rename = (name: string) => renameDesign(name);

test('an edit that changes nothing is no step, and redo survives it', () => {
  const bench = createBench(start);
  bench.getState().commit('rename', rename('one'));
  bench.getState().undo();
  bench.getState().commit('nothing', (d) => d);
  expect(bench.getState().past).toHaveLength(0);
  bench.getState().redo();
  expect(bench.getState().doc.name).toBe('one');
});

test('a drag previews from the kept design and leaves no step until it is committed', () => {
  const bench = createBench(start);
  bench.getState().preview((d) => ({ ...d, name: `${d.name}!` }));
  bench.getState().preview((d) => ({ ...d, name: `${d.name}!` }));
  expect(bench.getState().draft?.name).toBe(`${start.name}!`);
  expect(bench.getState().doc).toBe(start);
  bench.getState().cancel();
  expect(bench.getState().draft).toBeNull();
  expect(bench.getState().past).toHaveLength(0);
});

test('documents are frozen: changing one in place is noticed at once', () => {
  const bench = createBench(start);
  expect(() => {
    (bench.getState().doc as { name: string }).name = 'changed in place';
  }).toThrow(TypeError);
});

test('undo and redo, mixed with edits at random, agree with a plain list of documents', () => {
  const action = fc.oneof(
    fc.record({ kind: fc.constant('edit' as const), name: fc.string({ minLength: 1, maxLength: 3 }) }),
    fc.record({
      kind: fc.constantFrom('undo' as const, 'redo' as const, 'preview' as const, 'nothing' as const),
    }),
  );
  fc.assert(
    fc.property(fc.array(action, { maxLength: 60 }), (actions) => {
      const bench = createBench(start);
      let [list, at]: [Design[], number] = [[bench.getState().doc], 0];
      for (const a of actions) {
        if (a.kind === 'edit') {
          bench.getState().commit('rename', rename(a.name));
          const { doc } = bench.getState();
          if (doc !== list[at]) [list, at] = [[...list.slice(0, at + 1), doc], at + 1];
        } else if (a.kind === 'undo') [at] = [Math.max(0, at - 1), bench.getState().undo()];
        else if (a.kind === 'redo') [at] = [Math.min(list.length - 1, at + 1), bench.getState().redo()];
        else if (a.kind === 'preview') bench.getState().preview(rename('never kept'));
        else bench.getState().commit('nothing', (d) => d);
        expect(bench.getState().doc).toBe(list[at]);
      }
    }),
    { seed: 3, numRuns: 200 },
  );
});

test('new lines get ids of their own, also after one was deleted', () => {
  const bench = createBench(start);
  const first = freshLineId(bench.getState().doc);
  bench.getState().commit(
    'draw',
    addLine(
      first,
      WHOLE.id,
      [
        [
          [0, 300],
          [200, 300],
        ],
      ],
      false,
    ),
  );
  const second = freshLineId(bench.getState().doc);
  expect(new Set(['line-1', first, second]).size).toBe(3);
  bench.getState().commit('delete', deleteLine('line-1' as never));
  expect(bench.getState().doc.lines.map(({ id }) => id)).toEqual([first]);
  expect(bench.getState().doc.lines.some(({ id }) => id === freshLineId(bench.getState().doc))).toBe(false);
});
