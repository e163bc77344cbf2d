import type { Cubic } from './types';

/**
 * A cubic as power terms, so that position, speed and bend come from a few multiplications. p(t) = ((a·t + b)·t + c)·t + d.
 * Plain numbers instead of points: parallels are fitted while a line is being dragged.
 */
export interface CubicTerms {
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  readonly cx: number;
  readonly cy: number;
  readonly dx: number;
  readonly dy: number;
  /** End point as given: the sum a + b + c + d would differ in its last digit. */
  readonly endX: number;
  readonly endY: number;
  /** Largest coordinate among a, b, c: tells a vanishing derivative from a small one. */
  readonly size: number;
}

/** Where a curve is at t and how it runs there. Filled in place by frameAt. */
export interface Frame {
  x: number;
  y: number;
  /** Unit direction of travel; where the derivative vanishes, the direction its neighbourhood tends to. */
  tx: number;
  ty: number;
  /** |c'|, mm per unit of t. */
  speed: number;
  /** c' × c'': curvature times speed cubed; positive where the curve turns from +x towards +y. */
  turn: number;
}

export const newFrame = (): Frame => ({ x: 0, y: 0, tx: 1, ty: 0, speed: 0, turn: 0 });

export function cubicTerms([p, q, r, s]: Cubic): CubicTerms {
  const cx = 3 * (q[0] - p[0]);
  const cy = 3 * (q[1] - p[1]);
  const bx = 3 * (r[0] - 2 * q[0] + p[0]);
  const by = 3 * (r[1] - 2 * q[1] + p[1]);
  const ax = s[0] - p[0] - cx - bx;
  const ay = s[1] - p[1] - cy - by;
  const size = Math.max(Math.abs(ax), Math.abs(ay), Math.abs(bx), Math.abs(by), Math.abs(cx), Math.abs(cy));
  return { ax, ay, bx, by, cx, cy, dx: p[0], dy: p[1], endX: s[0], endY: s[1], size };
}

/** Below this share of the curve's size a derivative counts as vanished. */
const VANISHED = 1e-9;
/** Below this share of size² a bend is rounding, not shape. */
const STRAIGHT = 1e-13;

export function frameAt(c: CubicTerms, t: number, out: Frame): void {
  out.x = t === 1 ? c.endX : ((c.ax * t + c.bx) * t + c.cx) * t + c.dx;
  out.y = t === 1 ? c.endY : ((c.ay * t + c.by) * t + c.cy) * t + c.dy;
  const vx = (3 * c.ax * t + 2 * c.bx) * t + c.cx;
  const vy = (3 * c.ay * t + 2 * c.by) * t + c.cy;
  const wx = 6 * c.ax * t + 2 * c.bx;
  const wy = 6 * c.ay * t + 2 * c.by;
  const speed = Math.sqrt(vx * vx + vy * vy);
  out.speed = speed;
  const turn = vx * wy - vy * wx;
  out.turn = Math.abs(turn) > STRAIGHT * c.size * c.size ? turn : 0;
  if (speed > VANISHED * c.size) {
    out.tx = vx / speed;
    out.ty = vy / speed;
  } else {
    limitDirection(c, t, wx, wy, out);
  }
}

/** Direction where c' = 0: the curve leaves along c'' (arrives against it), or along c''' where that vanishes as well. */
function limitDirection(c: CubicTerms, t: number, wx: number, wy: number, out: Frame): void {
  const second = Math.hypot(wx, wy);
  const sign = second > VANISHED * c.size && t > 0.5 ? -1 : 1;
  const [x, y] = second > VANISHED * c.size ? [wx, wy] : [c.ax, c.ay];
  const l = Math.hypot(x, y);
  out.tx = l > 0 ? (sign * x) / l : 1;
  out.ty = l > 0 ? (sign * y) / l : 0;
}

/** Roots of q0 + q1·t + q2·t² strictly inside (low, high), rising. */
export function quadraticRoots(q0: number, q1: number, q2: number, low = 0, high = 1): number[] {
  const most = Math.max(Math.abs(q0), Math.abs(q1), Math.abs(q2));
  if (most === 0) return [];
  let roots: number[];
  if (Math.abs(q2) < 1e-12 * most) {
    roots = q1 === 0 ? [] : [-q0 / q1];
  } else {
    const disc = q1 * q1 - 4 * q0 * q2;
    if (disc < 0) return [];
    const h = -0.5 * (q1 + (q1 < 0 ? -1 : 1) * Math.sqrt(disc));
    roots = h === 0 ? [0] : [h / q2, q0 / h];
  }
  return roots.filter((t) => t > low && t < high).sort((a, b) => a - b);
}

/** c' × c'' as q0 + q1·t + q2·t²; its roots are the inflections. */
export function bendTerms(c: CubicTerms): readonly [q0: number, q1: number, q2: number] {
  return [2 * (c.cx * c.by - c.cy * c.bx), 6 * (c.cx * c.ay - c.cy * c.ax), 6 * (c.bx * c.ay - c.by * c.ax)];
}

/** Parameters inside (low, high) where the curve runs along or against the direction (x, y). */
export const alongDirection = (c: CubicTerms, x: number, y: number, low: number, high: number): number[] =>
  quadraticRoots(c.cx * y - c.cy * x, 2 * (c.bx * y - c.by * x), 3 * (c.ax * y - c.ay * x), low, high);

const FIRST_LOOKS = 12;

/** Foot of a point near the curve: the best of a few looks, then Newton on (c − p)·c' = 0. For points whose foot is the only one near. */
export function nearestParameter(c: CubicTerms, x: number, y: number): { t: number; distance: number } {
  const away2 = (t: number): number =>
    (((c.ax * t + c.bx) * t + c.cx) * t + c.dx - x) ** 2 +
    (((c.ay * t + c.by) * t + c.cy) * t + c.dy - y) ** 2;
  let [t, least] = [0, away2(0)];
  for (let i = 1; i <= FIRST_LOOKS; i += 1) {
    const d = away2(i / FIRST_LOOKS);
    if (d < least) [t, least] = [i / FIRST_LOOKS, d];
  }
  for (let i = 0; i < 5; i += 1) {
    const ex = ((c.ax * t + c.bx) * t + c.cx) * t + c.dx - x;
    const ey = ((c.ay * t + c.by) * t + c.cy) * t + c.dy - y;
    const vx = (3 * c.ax * t + 2 * c.bx) * t + c.cx;
    const vy = (3 * c.ay * t + 2 * c.by) * t + c.cy;
    const slope = vx * vx + vy * vy + ex * (6 * c.ax * t + 2 * c.bx) + ey * (6 * c.ay * t + 2 * c.by);
    if (slope <= 0) break;
    const next = Math.min(1, Math.max(0, t - (ex * vx + ey * vy) / slope));
    const d = away2(next);
    if (d >= least) break;
    [t, least] = [next, d];
  }
  return { t, distance: Math.sqrt(least) };
}
