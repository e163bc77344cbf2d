import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { deriveGarment, type Garment } from '../../garment';
import { settled } from '../../panels';
import type { Design } from '../../pattern';
import { documentSlice, type DocumentSlice } from './documentSlice';
import { sessionSlice, type SessionSlice } from './sessionSlice';

export type BenchState = DocumentSlice & SessionSlice;
export type BenchStore = StoreApi<BenchState>;

const BROKEN_ADVICE =
  'Your work is as it was before. Save it to a file, and send that file with a word on what you tried to whoever looks after this program.';

/** A bench with one design on it. */
export const createBench = (start: Design): BenchStore =>
  createStore<BenchState>()((set, get, store) => {
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
      ...documentSlice<BenchState>(settled(start), deriveGarment, broken)(set, get, store),
      ...sessionSlice<BenchState>()(set, get, store),
    };
  });

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
