import type { LaySpace, LayState } from './laySpace';

interface Row {
  readonly at: number;
  readonly length: number;
  used: number;
}

/**
 * The plainest lay: pieces side by side across the cloth in rows, the longest first, each in the first row with room.
 * Always free of overlap; the measure that every plan must beat or equal. Each piece takes its first allowed turn.
 */
export function rowPlan(space: LaySpace): LayState {
  const n = space.count;
  const { gap, width } = space.job;
  const state: LayState = { x: new Float64Array(n), y: new Float64Array(n), shape: new Int32Array(n) };
  const shapeOf = (i: number): number => space.turns[i]![0]!;
  const order = Array.from({ length: n }, (_, i) => i).sort(
    (i, j) => space.shapes[shapeOf(j)]!.length - space.shapes[shapeOf(i)]!.length || i - j,
  );
  const rows: Row[] = [];
  let end = 0;
  for (const i of order) {
    const shape = space.shapes[shapeOf(i)]!;
    let row = rows.find((r) => r.used + gap + shape.width <= width);
    if (!row) {
      row = { at: rows.length === 0 ? 0 : end + gap, length: shape.length, used: -gap };
      rows.push(row);
      end = row.at + row.length;
    }
    state.x[i] = row.at;
    state.y[i] = row.used + gap;
    state.shape[i] = shapeOf(i);
    row.used += gap + shape.width;
  }
  return state;
}
