import { ringFault } from '../../files';
import { boxOfPoints, signedAreaOfPoints, type Line, type Polyline, type Pt } from '../../geometry';
import { MM_PER_INCH, type Units } from '../../pattern';

/** Corners snap to whole centimetres, or half inches, mm. */
export const SNAP: Readonly<Record<Units, number>> = { cm: 10, in: MM_PER_INCH / 2 };

/** Lines of the board's grid: every 10 cm, or 4 in, mm. */
export const GRID: Readonly<Record<Units, number>> = { cm: 100, in: 4 * MM_PER_INCH };

/** The smallest board, mm, and how far it goes on beyond the corners. */
const BOARD: Pt = [1200, 800];
const BEYOND = 200;

/** How large a board is that has these corners on it, mm, in whole lines of its grid. */
export function boardFor(corners: Polyline, units: Units): Pt {
  const { maxX, maxY } = boxOfPoints([...corners, [0, 0]]);
  const up = (v: number): number => Math.ceil(v / GRID[units]) * GRID[units];
  return [up(Math.max(BOARD[0], maxX + BEYOND)), up(Math.max(BOARD[1], maxY + BEYOND))];
}

/** The nearest place on the snapping grid that is on the board. */
export function snapped([x, y]: Pt, units: Units): Pt {
  const to = (v: number): number => Math.max(0, Math.round(v / SNAP[units]) * SNAP[units]);
  return [to(x), to(y)];
}

/** What keeps corners from being a piece of cloth, in words; null for a sound one. */
export function cornersFault(corners: Polyline): string | null {
  if (corners.length < 3) return 'Give at least three corners.';
  const ring = corners.map((p, i): Line => [p, corners[(i + 1) % corners.length]!]);
  const fault = ringFault(ring);
  if (fault?.kind === 'crosses') return 'The outline crosses or touches itself. Move a corner.';
  return fault || signedAreaOfPoints(corners) === 0 ? 'The corners lie in one line. Move one of them.' : null;
}

/** With one more corner after the last. */
export const withCorner = (corners: Polyline, p: Pt): Pt[] => [...corners, p];

export const withoutCorner = (corners: Polyline, i: number): Pt[] => corners.filter((_, k) => k !== i);

export const cornerMoved = (corners: Polyline, i: number, p: Pt): Pt[] =>
  corners.map((own, k) => (k === i ? p : own));
