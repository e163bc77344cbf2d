import type { PanelledPiece } from '../../src/panels';

/**
 * A plain way to compare with: every line runs through whatever it crosses if it was drawn earlier, and lines are taken whenever nothing ends on them any
 * more. What is left when nothing can be taken is trapped. No looking at angles, no search.
 */
export function takenLineByLine(piece: PanelledPiece): { readonly seams: number; readonly trapped: number } {
  const through = new Map<number, number>();
  const parts: { from: number; to: number }[] = [];
  for (const { stretches } of piece.runs) {
    const part = parts.length;
    let [from, count] = [-1, part];
    stretches.forEach(({ from: a, to: b }, i) => {
      if (from < 0) from = a;
      const isLast = i + 1 === stretches.length;
      if (!isLast && !through.has(b) && !piece.outlineNodes.has(b)) through.set(b, count);
      else {
        parts.push({ from, to: b });
        from = -1;
        count += 1;
      }
    });
  }
  const waiting = new Set(parts.keys());
  for (let taken = true; taken;) {
    const blocked = new Set<number>();
    for (const w of waiting)
      for (const node of [parts[w]!.from, parts[w]!.to]) {
        const on = through.get(node);
        if (on !== undefined && on !== w && waiting.has(on)) blocked.add(on);
      }
    taken = false;
    for (const w of [...waiting]) if (!blocked.has(w)) taken = waiting.delete(w);
  }
  return { seams: parts.length, trapped: waiting.size };
}
