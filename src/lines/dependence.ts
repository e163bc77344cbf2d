import type { LineId, LineTies, PanelLine } from '../pattern';

/** The lines that a line's ties refer to. */
export function refersTo({ nodes, run }: LineTies): readonly LineId[] {
  const own = nodes.flatMap((tie): LineId[] =>
    tie && (tie.kind === 'line' || tie.kind === 'neighbour') ? [tie.line] : [],
  );
  return run?.until.kind === 'line' ? [...own, run.until.line] : own;
}

/** Whether a line hangs, through ties, on another one (or is that one). */
export function hangsOnLine(lines: readonly PanelLine[], line: LineId, on: LineId): boolean {
  const seen = new Set<LineId>();
  const follow = (id: LineId): boolean => {
    if (id === on) return true;
    if (seen.has(id)) return false;
    seen.add(id);
    const ties = lines.find((l) => l.id === id)?.ties;
    return ties ? refersTo(ties).some(follow) : false;
  };
  return follow(line);
}

/** Tied lines so that each comes after those it refers to; `rings` are those that refer to themselves in a circle. */
export function inTieOrder(lines: readonly PanelLine[]): {
  readonly order: readonly PanelLine[];
  readonly rings: ReadonlySet<LineId>;
} {
  const byId = new Map(lines.map((l) => [l.id, l]));
  const state = new Map<LineId, 'open' | 'done'>();
  const order: PanelLine[] = [];
  const rings = new Set<LineId>();
  const trail: LineId[] = [];
  const visit = (line: PanelLine): void => {
    if (state.get(line.id) === 'done') return;
    if (state.get(line.id) === 'open') {
      for (const id of trail.slice(trail.indexOf(line.id))) rings.add(id);
      return;
    }
    state.set(line.id, 'open');
    trail.push(line.id);
    for (const id of line.ties ? refersTo(line.ties) : []) {
      const other = byId.get(id);
      if (other) visit(other);
    }
    trail.pop();
    state.set(line.id, 'done');
    if (line.ties) order.push(line);
  };
  lines.forEach(visit);
  return { order, rings };
}
