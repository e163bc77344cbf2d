import 'fake-indexeddb/auto';
import { expect, test, vi } from 'vitest';
import { openDesign, saveDesign } from '../../src/files';
import { CURRENT, SET_ASIDE, keepDesign } from '../../src/workbench/keep/keeper';
import { firstDesign } from '../../src/workbench/keep/firstDesign';
import { browserShelf, type Shelf } from '../../src/workbench/keep/shelf';
import { createBench } from '../../src/workbench/store/benchStore';
import { renameDesign } from '../../src/workbench/store/patternEdits';
import { WHOLE, designOf, straight } from './pieces';

const start = designOf(WHOLE, straight('line-1', [0, 200], [200, 200]));
const open = (text: string) => Promise.resolve(openDesign(text, 'kept'));
const example = () => Promise.resolve(start);

const onPlainShelf = (): Shelf & { kept: Map<string, string> } => {
  const kept = new Map<string, string>();
  return {
    kept,
    put: async (key, text) => void kept.set(key, text),
    get: async (key) => kept.get(key) ?? null,
  };
};

test('every change is kept and comes back as the same design', async () => {
  const shelf = browserShelf();
  const bench = createBench(start);
  const stop = keepDesign(bench, shelf);
  bench.getState().commit('rename', renameDesign('kept away'));
  await vi.waitFor(() => expect(bench.getState().keeping.state).toBe('kept'));
  const again = await firstDesign(browserShelf(), open, example);
  expect(again.from).toBe('shelf');
  expect(again.design).toEqual(bench.getState().doc);
  stop();
});

test('of many quick changes the last one is kept', async () => {
  const shelf = onPlainShelf();
  const bench = createBench(start);
  keepDesign(bench, shelf);
  for (let i = 0; i < 30; i += 1) bench.getState().commit('rename', renameDesign(`name ${i}`));
  await vi.waitFor(() => expect(bench.getState().keeping.state).toBe('kept'));
  expect(shelf.kept.get(CURRENT)).toBe(saveDesign(bench.getState().doc));
});

test('a full store is said lastingly, until a save succeeds again', async () => {
  const shelf = onPlainShelf();
  let full = true;
  const put = shelf.put;
  shelf.put = (key, text) =>
    full ? Promise.reject(new DOMException('full', 'QuotaExceededError')) : put(key, text);
  const bench = createBench(start);
  keepDesign(bench, shelf);
  bench.getState().commit('rename', renameDesign('one'));
  await vi.waitFor(() =>
    expect(bench.getState().keeping).toEqual({ state: 'failed', why: 'The browser’s storage is full.' }),
  );
  bench.getState().commit('rename', renameDesign('two'));
  await vi.waitFor(() => expect(bench.getState().keeping.state).toBe('failed'));
  full = false;
  bench.getState().commit('rename', renameDesign('three'));
  await vi.waitFor(() => expect(bench.getState().keeping.state).toBe('kept'));
});

test('a store that gives back something else is not trusted', async () => {
  const shelf = onPlainShelf();
  shelf.get = () => Promise.resolve('something else');
  const bench = createBench(start);
  keepDesign(bench, shelf);
  bench.getState().commit('rename', renameDesign('one'));
  await vi.waitFor(() => expect(bench.getState().keeping.state).toBe('failed'));
});

test('without a kept design the example is on the table', async () => {
  expect(await firstDesign(onPlainShelf(), open, example)).toEqual({
    design: start,
    from: 'example',
    trouble: null,
    unread: false,
  });
});

test('a kept design that cannot be opened is set aside, not overwritten', async () => {
  const shelf = onPlainShelf();
  shelf.kept.set(CURRENT, '{"format":"panelwright design","version":1,"name":');
  const first = await firstDesign(shelf, open, example);
  expect(first.from).toBe('example');
  expect(first.trouble).toMatch(/set aside/);
  expect(shelf.kept.get(SET_ASIDE)).toContain('"version":1');
});

test('a browser that lets nothing be kept still gets a bench, and is told', async () => {
  const blocked: Shelf = {
    put: () => Promise.reject(new Error('no')),
    get: () => Promise.reject(new Error('no')),
  };
  const first = await firstDesign(blocked, open, example);
  expect(first.design).toBe(start);
  expect(first.trouble).toMatch(/Save your work to a file/);
});

test('a store that never answers counts as failed, so that the bench opens all the same', async () => {
  const never = browserShelf(40);
  const opening = vi.spyOn(indexedDB, 'open').mockImplementation(() => new EventTarget() as never);
  const first = await firstDesign(never, open, example);
  opening.mockRestore();
  expect(first.design).toBe(start);
  expect(first.unread).toBe(true);
});

test('a browser without any such store says so in words, not in the words of its engine', async () => {
  vi.stubGlobal('indexedDB', undefined);
  const bench = createBench(start);
  keepDesign(bench, browserShelf());
  bench.getState().commit('rename', renameDesign('one'));
  await vi.waitFor(() => expect(bench.getState().keeping.state).toBe('failed'));
  vi.unstubAllGlobals();
  expect(bench.getState().keeping).toMatchObject({
    why: expect.stringContaining('lets the page keep nothing'),
  });
});

test('a design that could not be read is set aside before the first save, should the store come back', async () => {
  const shelf = onPlainShelf();
  shelf.kept.set(CURRENT, 'last week’s work');
  const bench = createBench(start);
  keepDesign(bench, shelf, true);
  bench.getState().commit('rename', renameDesign('one'));
  await vi.waitFor(() => expect(bench.getState().keeping.state).toBe('kept'));
  bench.getState().commit('rename', renameDesign('two'));
  await vi.waitFor(() => expect(shelf.kept.get(CURRENT)).toBe(saveDesign(bench.getState().doc)));
  expect(shelf.kept.get(SET_ASIDE)).toBe('last week’s work');
});
