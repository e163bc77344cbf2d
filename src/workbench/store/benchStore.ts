import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { deriveGarment, type Garment } from '../../garment';
import { settled } from '../../panels';
import type { Design } from '../../pattern';
import { keepNumbers, numberChanges, numbersMeanwhile, sayNumberChanges, withNumbers } from '../../sewing';
import { documentSlice, type DocumentSlice, type CarriedOver } from './documentSlice';
import { sessionSlice, type SessionSlice } from './sessionSlice';

export type BenchState = DocumentSlice & SessionSlice;
export type BenchStore = StoreApi<BenchState>;

const BROKEN_ADVICE =
  'Your work is as it was before. Save it to a file, and send that file with a word on what you tried to whoever looks after this program.';

/** Panels keep their numbers whatever is drawn. */
const NUMBERS: CarriedOver = {
  meanwhile: (before, after) => numbersMeanwhile(deriveGarment(before), after),
  done: (before, after) => {
    const kept = keepNumbers(deriveGarment(before), after);
    return kept === after ? after : withNumbers(deriveGarment(kept));
  },
};

/** Say what a change did to the numbers of panels: after what was said of the change itself, and to everybody where panels were renumbered. */
function tellNumbers(bench: BenchStore): void {
  bench.subscribe(({ doc }, { doc: before }) => {
    // only numbers that were kept here: not a design put on the table, nor a step taken back
    if (doc === before || doc.numbers === before.numbers || bench.getState().past.at(-1)?.doc !== before)
      return;
    if (doc.numbers.length === 0 || !doc.pieces.some((p) => before.pieces.includes(p))) return;
    const changes = numberChanges(deriveGarment(before), deriveGarment(doc));
    const words = sayNumberChanges(changes);
    if (!words) return;
    queueMicrotask(() => {
      const { spoken, doc: now, set } = bench.getState();
      if (now !== doc) return;
      set({ spoken: `${spoken} ${words}`.trim() });
      if (changes.moved.length > 0)
        set({ notice: { tone: 'good', title: 'Panels have other numbers', lines: [words], of: doc } });
    });
  });
}

/** A bench with one design on it. */
export function createBench(start: Design): BenchStore {
  const bench = createStore<BenchState>()((set, get, store) => {
    const broken = (failure: unknown): void => {
      console.error(failure);
      queueMicrotask(() =>
        set({
          notice: {
            tone: 'bad',
            title: 'The bench could not work this out, so the last change was not made.',
            lines: [failure instanceof Error ? failure.message : String(failure), BROKEN_ADVICE],
          },
        }),
      );
    };
    return {
      ...documentSlice<BenchState>(settled(start), deriveGarment, broken, NUMBERS)(set, get, store),
      ...sessionSlice<BenchState>()(set, get, store),
    };
  });
  tellNumbers(bench);
  return bench;
}

/** What is to be seen now: the running drag's design, or the kept one. */
export const shownDesign = (s: BenchState): Design => s.draft ?? s.doc;

/** The garment of the kept design (remembered by document). */
export const garmentOf = (s: BenchState): Garment => deriveGarment(s.doc);
export const shownGarment = (s: BenchState): Garment => deriveGarment(shownDesign(s));

export const BenchContext = createContext<BenchStore | null>(null);

/** The bench's store. @throws RangeError outside a bench */
export function useBenchStore(): BenchStore {
  const store = useContext(BenchContext);
  if (!store) throw new RangeError('there is no bench around this component');
  return store;
}

/** Part of the bench's state; the component renders again only when that part changes. */
export const useBench = <T>(part: (s: BenchState) => T): T => useStore(useBenchStore(), part);
