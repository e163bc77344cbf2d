import { firstX, latticeAbove, settleX } from './domain';
import type { Domain } from './domain';
import type { LaySpace, LayState } from './laySpace';

interface Row {
  readonly at: number;
  end: number;
  /** Up to where the row is taken, from the near side; and from where, at the far side. */
  used: number;
  top: number;
}

/** Rounding of doubles at cloth size, mm. */
const ROUNDING = 1e-9;

/** The first place across for a shape in a row; null if there is no room. */
function placeIn(row: Row, d: Domain, width: number): number | null {
  const y = latticeAbove(Math.max(d.lowY, row.used), d.fromY, d.stepY);
  return y <= d.highY + ROUNDING && y + width <= row.top + ROUNDING
    ? Math.min(y, Math.max(d.highY, d.lowY))
    : null;
}

/** The first allowed place along at or behind `at`. */
const behind = (d: Domain, at: number): number =>
  Math.max(firstX(d), latticeAbove(Math.max(d.lowX, at), d.fromX, d.stepX));

/**
 * The plainest lay: pieces side by side across the cloth in rows, the longest first, each in the first row with room.
 * Always free of overlap; the measure that every plan must beat or equal. Each piece takes its first allowed turn. On a bounded
 * piece of cloth it may reach beyond the end.
 */
export function rowPlan(space: LaySpace): LayState {
  const n = space.count;
  const { gap } = space.job;
  const state: LayState = { x: new Float64Array(n), y: new Float64Array(n), shape: new Int32Array(n) };
  const shapeOf = (i: number): number => space.turns[i]![0]!;
  const order = Array.from({ length: n }, (_, i) => i).sort(
    (i, j) => space.shapes[shapeOf(j)]!.length - space.shapes[shapeOf(i)]!.length || i - j,
  );
  const rows: Row[] = [];
  let end = -gap;
  for (const i of order) {
    const { domain, length, width } = space.shapes[shapeOf(i)]!;
    // only the last row may still grow along the cloth
    let row = rows.find((r, k) => {
      const x = behind(domain, r.at);
      return (k === rows.length - 1 || x + length <= r.end + ROUNDING) && placeIn(r, domain, width) !== null;
    });
    if (!row) {
      row = { at: rows.length === 0 ? 0 : end + gap, end: 0, used: -Infinity, top: Infinity };
      rows.push(row);
    }
    const y = placeIn(row, domain, width)!;
    const x = settleX(domain, behind(domain, row.at), Infinity);
    state.x[i] = x;
    state.y[i] = y;
    state.shape[i] = shapeOf(i);
    row.end = Math.max(row.end, x + length);
    end = Math.max(end, row.end);
    if (domain.lowY === domain.highY) row.top = y - gap;
    else row.used = y + width + gap;
  }
  return state;
}
