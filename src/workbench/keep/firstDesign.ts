import type { Design, Outcome } from '../../pattern';
import { CURRENT, SET_ASIDE } from './keeper';
import type { Shelf } from './shelf';

/** What the bench begins with, and what must be said about it. */
export interface FirstDesign {
  readonly design: Design;
  readonly from: 'shelf' | 'example';
  /** Why the kept design is not on the table, if there was one. */
  readonly trouble: string | null;
  /** The shelf did not answer: what may lie on it must not be overwritten unread. */
  readonly unread: boolean;
}

/**
 * The design kept last time, else the example. A kept text that cannot be opened is set aside on the shelf and said so; it is
 * never overwritten unread.
 */
export async function firstDesign(
  shelf: Shelf,
  open: (text: string) => Promise<Outcome<Design>>,
  example: () => Promise<Design>,
): Promise<FirstDesign> {
  let text: string | null = null;
  try {
    text = await shelf.get(CURRENT);
  } catch {
    return {
      design: await example(),
      from: 'example',
      trouble:
        'Kept designs cannot be read in this browser (a private window, perhaps). Save your work to a file.',
      unread: true,
    };
  }
  if (text === null) return { design: await example(), from: 'example', trouble: null, unread: false };
  const opened = await open(text);
  if (opened.ok) return { design: opened.value, from: 'shelf', trouble: null, unread: false };
  try {
    await shelf.put(SET_ASIDE, text);
  } catch {
    return {
      design: await example(),
      from: 'example',
      trouble: 'The kept design could not be opened or set aside.',
      unread: true,
    };
  }
  return {
    design: await example(),
    from: 'example',
    trouble:
      'The kept design could not be opened. It is set aside in this browser; the example is on the table instead.',
    unread: false,
  };
}
