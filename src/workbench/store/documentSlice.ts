import type { StateCreator } from 'zustand/vanilla';
import { settled } from '../../panels';
import type { Design } from '../../pattern';

/** Pure; gives back the same object when nothing changes. */
export type Edit = (design: Design) => Design;

/** A step that can be taken back; `label` names what was done. */
export interface DoneStep {
  readonly label: string;
  readonly doc: Design;
}

export interface DocumentSlice {
  readonly doc: Design;
  /** The design as a running drag would leave it; shown, not kept. */
  readonly draft: Design | null;
  readonly past: readonly DoneStep[];
  readonly future: readonly DoneStep[];
  preview(edit: Edit): void;
  cancel(): void;
  commit(label: string, edit: Edit): void;
  undo(): void;
  redo(): void;
  /** Put another design on the table. It can be taken back like any other step. */
  replace(label: string, design: Design): void;
}

/** Steps kept for taking back. */
const STEPS_KEPT = 500;

/** Freeze a document in development and tests, so that changing it in place is noticed at once. */
function frozen<T>(value: T): T {
  if (import.meta.env.DEV && typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const part of Object.values(value)) frozen(part);
  }
  return value;
}

/** Works a design out as far as the screen needs it; throws where a promise of ours is broken. */
export type WorkOut = (design: Design) => unknown;

/** What an edit leaves in the document beside what it changes, from the document before it. */
export interface CarriedOver {
  /** While something is being dragged: must cost next to nothing. */
  readonly meanwhile: (before: Design, after: Design) => Design;
  readonly done: (before: Design, after: Design) => Design;
}

const NOTHING_KEPT: CarriedOver = { meanwhile: (_, after) => after, done: (_, after) => after };

/**
 * The document with its steps. A drag previews from the starting document and commits once.
 * Every edit leaves tied lines in step with what they are tied to.
 * @param workOut an edit whose result cannot be worked out is not taken: the last sound document stays, and `onBroken` is told
 * @param keep what stays with the panels: their numbers. A design put on the table as a whole comes with its own
 */
export const documentSlice =
  <S extends DocumentSlice>(
    start: Design,
    workOut: WorkOut = () => null,
    onBroken: (failure: unknown) => void = () => undefined,
    keep: CarriedOver = NOTHING_KEPT,
  ): StateCreator<S, [], [], DocumentSlice> =>
  (set) => {
    const sound = (edit: Edit, doc: Design, kept: CarriedOver['done']): Design => {
      try {
        const next = frozen(kept(doc, settled(edit(doc))));
        workOut(next);
        return next;
      } catch (failure) {
        onBroken(failure);
        return doc;
      }
    };
    const change = (next: (s: S) => Partial<DocumentSlice> | S): void => set(next as (s: S) => Partial<S>);
    const commit = (label: string, edit: Edit, kept = keep.done): void =>
      change((s) => {
        const doc = sound(edit, s.doc, kept);
        if (doc === s.doc) return s.draft ? { draft: null } : s;
        return { doc, draft: null, past: [...s.past, { label, doc: s.doc }].slice(-STEPS_KEPT), future: [] };
      });
    return {
      doc: frozen(start),
      draft: null,
      past: [],
      future: [],
      preview: (edit) => change((s) => ({ draft: sound(edit, s.doc, keep.meanwhile) })),
      cancel: () => change((s) => (s.draft ? { draft: null } : s)),
      commit: (label, edit) => commit(label, edit),
      replace: (label, design) => commit(label, () => design, NOTHING_KEPT.done),
      undo: () =>
        change((s) => {
          const step = s.past.at(-1);
          if (!step) return s;
          return {
            doc: step.doc,
            draft: null,
            past: s.past.slice(0, -1),
            future: [...s.future, { ...step, doc: s.doc }],
          };
        }),
      redo: () =>
        change((s) => {
          const step = s.future.at(-1);
          if (!step) return s;
          return {
            doc: step.doc,
            draft: null,
            future: s.future.slice(0, -1),
            past: [...s.past, { ...step, doc: s.doc }],
          };
        }),
    };
  };
