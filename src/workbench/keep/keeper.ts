import { saveDesign } from '../../files';
import type { Design } from '../../pattern';
import type { BenchStore } from '../store/benchStore';
import type { Shelf } from './shelf';

/** The design on the table. */
export const CURRENT = 'current';
/** A kept text that could not be opened is moved here, not thrown away. */
export const SET_ASIDE = 'set aside';

function whyNot(failure: unknown): string {
  const name = failure instanceof DOMException || failure instanceof Error ? failure.name : '';
  if (name === 'QuotaExceededError') return 'The browser’s storage is full.';
  if (name === 'SecurityError' || name === 'InvalidStateError' || name === 'ReferenceError')
    return 'This browser lets the page keep nothing (a private window, perhaps).';
  if (name === 'TimeoutError') return 'The browser’s storage does not answer.';
  return failure instanceof Error && failure.message
    ? `The browser says: ${failure.message.replace(/[^.!?]$/, '$&.')}`
    : 'The browser does not say why.';
}

/**
 * Keep the design after every change: written, read back and compared. One save at a time; changes that come meanwhile are
 * saved next. A failure stays on screen until a save succeeds.
 * @param unread something may lie on the shelf that could not be read: it is set aside before the first save
 * @returns a function that stops keeping
 */
export function keepDesign(store: BenchStore, shelf: Shelf, unread = false): () => void {
  let wanted: Design | null = null;
  let busy = false;
  let mustSetAside = unread;

  const saveOnce = async (design: Design): Promise<void> => {
    const text = saveDesign(design);
    if (mustSetAside) {
      const before = await shelf.get(CURRENT);
      if (before !== null) await shelf.put(SET_ASIDE, before);
      mustSetAside = false;
    }
    await shelf.put(CURRENT, text);
    if ((await shelf.get(CURRENT)) !== text) throw new Error('what was kept is not what was saved.');
  };

  const work = async (): Promise<void> => {
    busy = true;
    while (wanted) {
      const design = wanted;
      wanted = null;
      if (store.getState().keeping.state !== 'failed') store.getState().set({ keeping: { state: 'saving' } });
      try {
        await saveOnce(design);
        store.getState().set({ keeping: { state: 'kept' } });
      } catch (failure) {
        store.getState().set({ keeping: { state: 'failed', why: whyNot(failure) } });
      }
    }
    busy = false;
  };

  return store.subscribe((s, before) => {
    if (s.doc === before.doc) return;
    wanted = s.doc;
    if (!busy) void work();
  });
}
