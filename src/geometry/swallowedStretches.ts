import { bendTerms, frameAt, newFrame, type CubicTerms } from './curveFrame';

/** A parameter range of a curve; swallowed where its parallel would run backwards (the curve bends tighter than the width). */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly swallowed: boolean;
}

const WHOLE: readonly Stretch[] = [{ from: 0, to: 1, swallowed: false }];
const LOOKS = 16;
/** The looks at the very ends are taken this far in: at an end without a handle the sign there is 0. */
const END_LOOK = 1e-5;

const frame = newFrame();

/** speed³·(1 + curvature·width): negative where the parallel at `width` outwards runs against the curve. */
function forwardness(c: CubicTerms, width: number, t: number): number {
  frameAt(c, t, frame);
  return frame.speed ** 3 + width * frame.turn;
}

/**
 * The ranges of a cubic whose parallel runs forwards and those where it would run backwards, in order, covering 0..1.
 * The parallel turns back where the radius of curvature equals the width (its cusps lie on the evolute).
 */
export function stretchesFor(c: CubicTerms, width: number): readonly Stretch[] {
  if (width === 0 || cannotTurnBack(c, width)) return WHOLE;
  const cuts: number[] = [];
  const looks = placesToLook(c, width);
  let before = forwardness(c, width, looks[0]!);
  for (let i = 1; i < looks.length; i += 1) {
    const here = forwardness(c, width, looks[i]!);
    if (before < 0 !== here < 0)
      cuts.push(signChange((t) => forwardness(c, width, t), looks[i - 1]!, looks[i]!));
    before = here;
  }
  const ends = [0, ...cuts, 1];
  return ends.slice(1).map((to, i) => {
    const from = ends[i]!;
    return { from, to, swallowed: forwardness(c, width, (from + to) / 2) < 0 };
  });
}

/** A quick and safe no: largest bend against the least speed, both bounded over the whole curve. */
function cannotTurnBack(c: CubicTerms, width: number): boolean {
  const [q0, q1, q2] = bendTerms(c);
  let worst = Math.min(width * q0, width * (q0 + q1 + q2));
  const peak = q2 === 0 ? -1 : -q1 / (2 * q2);
  if (peak > 0 && peak < 1) worst = Math.min(worst, width * (q0 + peak * (q1 + peak * q2)));
  if (worst >= 0) return true;
  const change = Math.max(
    Math.hypot(2 * c.bx, 2 * c.by),
    Math.hypot(6 * c.ax + 2 * c.bx, 6 * c.ay + 2 * c.by),
  );
  let least = Infinity;
  for (let i = 0; i <= LOOKS; i += 1) {
    const t = i / LOOKS;
    const vx = (3 * c.ax * t + 2 * c.bx) * t + c.cx;
    const vy = (3 * c.ay * t + 2 * c.by) * t + c.cy;
    least = Math.min(least, vx * vx + vy * vy);
  }
  const slowest = Math.sqrt(least) - change / (2 * LOOKS);
  return slowest > 0 && slowest ** 3 > -worst;
}

/** Even steps, the places of least speed (where a bend peaks), and the tightest place between any three looks. */
function placesToLook(c: CubicTerms, width: number): number[] {
  const looks = Array.from({ length: LOOKS + 1 }, (_, i) => i / LOOKS);
  looks[0] = END_LOOK;
  looks[LOOKS] = 1 - END_LOOK;
  const slowing = (t: number): number => {
    const vx = (3 * c.ax * t + 2 * c.bx) * t + c.cx;
    const vy = (3 * c.ay * t + 2 * c.by) * t + c.cy;
    return vx * (6 * c.ax * t + 2 * c.bx) + vy * (6 * c.ay * t + 2 * c.by);
  };
  const slowest: number[] = [];
  for (let i = 1; i < looks.length; i += 1) {
    if (slowing(looks[i - 1]!) < 0 && slowing(looks[i]!) >= 0)
      slowest.push(signChange(slowing, looks[i - 1]!, looks[i]!));
  }
  const coarse = [...looks, ...slowest].sort((p, q) => p - q);
  const tightness = (t: number): number => {
    const f = forwardness(c, width, t);
    return f / Math.max(frame.speed ** 3, 1e-300);
  };
  const tightest: number[] = [];
  for (let i = 1; i + 1 < coarse.length; i += 1) {
    const here = tightness(coarse[i]!);
    if (here < 0.9 && here <= tightness(coarse[i - 1]!) && here <= tightness(coarse[i + 1]!)) {
      tightest.push(leastBetween(tightness, coarse[i - 1]!, coarse[i + 1]!));
    }
  }
  return [...coarse, ...tightest].sort((p, q) => p - q);
}

/** Where f changes sign between low and high, by halving. */
function signChange(f: (t: number) => number, low: number, high: number): number {
  const negativeLow = f(low) < 0;
  for (let i = 0; i < 48; i += 1) {
    const middle = (low + high) / 2;
    if (f(middle) < 0 === negativeLow) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Where f is least between low and high, by golden section; f has one valley there. */
function leastBetween(f: (t: number) => number, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let i = 0; i < 24; i += 1) {
    const [p, q] = [high - golden * (high - low), low + golden * (high - low)];
    if (f(p) < f(q)) high = q;
    else low = p;
  }
  return (low + high) / 2;
}
