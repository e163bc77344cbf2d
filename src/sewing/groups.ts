import type { PanelId } from '../panels';

/** Panels sewn together so far: each group is a list that its members share. */
export class Groups {
  readonly #groupOf = new Map<PanelId, readonly PanelId[]>();

  constructor(panels: readonly PanelId[]) {
    for (const p of panels) this.#groupOf.set(p, [p]);
  }

  /** @throws RangeError for a panel that was not given at the start */
  of(panel: PanelId): readonly PanelId[] {
    const group = this.#groupOf.get(panel);
    if (!group) throw new RangeError(`no panel ${panel} here`);
    return group;
  }

  join(p: PanelId, q: PanelId): void {
    const [a, b] = [this.of(p), this.of(q)];
    if (a === b) return;
    const both = [...a, ...b];
    for (const panel of both) this.#groupOf.set(panel, both);
  }
}
