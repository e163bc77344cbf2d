import { type Numbered, samePanels } from './keepNumbers';

/** What an edit did to the numbers of panels. */
export interface NumberChanges {
  /** Numbers of new panels. */
  readonly fresh: readonly number[];
  /** Numbers of panels that are gone. */
  readonly gone: readonly number[];
  /** Panels that are there still and have another number. */
  readonly moved: readonly { readonly from: number; readonly to: number }[];
}

/** Compare the numbers of two garments, panel by panel: those are the same that share the most area. */
export function numberChanges(before: Numbered, after: Numbered): NumberChanges {
  const fresh: number[] = [];
  const moved: { from: number; to: number }[] = [];
  const kept = new Set<number>();
  for (const { whole, panels } of after.pieces) {
    const old = before.pieces.find((p) => p.whole.piece.id === whole.piece.id)?.panels ?? [];
    const same = samePanels(panels, old);
    for (const { id } of panels) {
      const to = after.plan.numbers.get(id)!;
      const from = before.plan.numbers.get(same.get(id)!);
      if (from === undefined) fresh.push(to);
      else kept.add(from);
      if (from !== undefined && from !== to) moved.push({ from, to });
    }
  }
  // lining and facings have numbers too, but are no panels that an edit takes away
  const gone = before.pieces
    .flatMap(({ panels }) => panels.map((p) => before.plan.numbers.get(p.id)!))
    .filter((n) => !kept.has(n));
  const rising = (p: number, q: number): number => p - q;
  return { fresh: fresh.sort(rising), gone: gone.sort(rising), moved: moved.sort((p, q) => p.to - q.to) };
}

const listed = (items: readonly (number | string)[]): string =>
  items.length < 2 ? `${items[0] ?? ''}` : `${items.slice(0, -1).join(', ')} and ${items.at(-1)!}`;

/** Changes in words: `The new panel is 12; the others keep their numbers.` Empty where there are none. */
export function sayNumberChanges({ fresh, gone, moved }: NumberChanges): string {
  const said = [
    ...(fresh.length > 0
      ? [fresh.length === 1 ? `the new panel is ${fresh[0]!}` : `the new panels are ${listed(fresh)}`]
      : []),
    ...(gone.length > 0
      ? [gone.length === 1 ? `panel ${gone[0]!} is gone` : `panels ${listed(gone)} are gone`]
      : []),
    ...(moved.length > 0 ? [listed(moved.map(({ from, to }) => `${from} is now ${to}`))] : []),
  ];
  if (said.length === 0) return '';
  const text = `${said.join('; ')}; the others keep their numbers.`;
  return text.charAt(0).toUpperCase() + text.slice(1);
}
