import type { Design } from '../../pattern';

/** An item of a list that stays, by its place in the list before; or a new one. */
type Item = number | { readonly now: unknown };

/** What differs between two designs, as data: parts that are the very same objects are not said again. */
export type DesignChanges = readonly (
  | { readonly key: keyof Design; readonly list: readonly Item[] }
  | { readonly key: keyof Design; readonly value: unknown }
)[];

function listChanges(before: readonly unknown[], after: readonly unknown[]): readonly Item[] {
  const places = new Map(before.map((item, i) => [item, i]));
  return after.map((item) => places.get(item) ?? { now: item });
}

/** Say what of a design has changed. While a line is dragged it is that line, some marks and little more. */
export function changesOf(before: Design, after: Design): DesignChanges {
  const keys = (Object.keys(after) as (keyof Design)[]).filter((key) => before[key] !== after[key]);
  return keys.map((key) => {
    const [was, is] = [before[key], after[key]];
    return Array.isArray(was) && Array.isArray(is) ? { key, list: listChanges(was, is) } : { key, value: is };
  });
}

/**
 * The changed design. What stayed is the very same object as in `before`, so that all that was worked out from it is remembered.
 * @param before the design that the changes were said of, or a copy of it
 */
export function withChanges(before: Design, changes: DesignChanges): Design {
  if (changes.length === 0) return before;
  const parts = changes.map((change) => {
    if ('value' in change) return [change.key, change.value];
    const was = before[change.key] as unknown as readonly unknown[];
    return [change.key, change.list.map((item) => (typeof item === 'number' ? was[item] : item.now))];
  });
  return { ...before, ...Object.fromEntries(parts) } as Design;
}
