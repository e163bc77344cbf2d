import { type Curve, type Path, type Pt, add, endOfCurve, subtract } from '../geometry';

/** A turn and growth as one complex number. */
type Factor = Pt;
const ONE: Factor = [1, 0];

const times = (a: Pt, f: Factor): Pt => [a[0] * f[0] - a[1] * f[1], a[0] * f[1] + a[1] * f[0]];

/** What turns and scales one chord into another; none where the first has no length. */
function factorBetween(from: Pt, to: Pt): Factor | null {
  const l2 = from[0] * from[0] + from[1] * from[1];
  if (l2 < 1e-12) return null;
  return [(to[0] * from[0] + to[1] * from[1]) / l2, (to[1] * from[0] - to[0] * from[1]) / l2];
}

const nodesOf = (path: Path): Pt[] => [...path.map((c) => c[0]), ...path.slice(-1).map(endOfCurve)];

interface Held {
  readonly index: number;
  readonly at: Pt;
}

/** One turn and growth per stretch between held nodes. */
function stretchFactors(nodes: readonly Pt[], held: readonly Held[]): Factor[] {
  return held.slice(1).map((b, i) => {
    const a = held[i]!;
    return factorBetween(subtract(nodes[b.index]!, nodes[a.index]!), subtract(b.at, a.at)) ?? ONE;
  });
}

const middle = (a: Factor, b: Factor): Factor => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/**
 * The path with some nodes held at new places. What lies between two held nodes is turned and scaled with their chord, so
 * that curves keep their shape; ends beyond them go with the nearest stretch. At a held node both handles are turned alike,
 * so that a smooth joint stays smooth.
 * @param held one entry per node of the path; null where the node follows
 */
export function followNodes(path: Path, held: readonly (Pt | null)[]): Path {
  const nodes = nodesOf(path);
  const fixed = held.flatMap((at, index): Held[] => (at ? [{ index, at }] : []));
  if (fixed.length === 0) return path;
  const factors = stretchFactors(nodes, fixed);
  const stretchOf = (index: number): number => {
    const next = fixed.findIndex((f) => f.index > index);
    return Math.max(0, (next < 0 ? fixed.length : next) - 1);
  };
  const factorAt = (index: number): Factor => {
    if (factors.length === 0) return ONE;
    const k = fixed.findIndex((f) => f.index === index);
    if (k > 0 && k < fixed.length - 1) return middle(factors[k - 1]!, factors[k]!);
    return factors[Math.min(stretchOf(index), factors.length - 1)]!;
  };
  const placed = nodes.map((p, index): Pt => {
    const own = held[index];
    if (own) return own;
    const anchor = fixed[stretchOf(index)]!;
    return add(anchor.at, times(subtract(p, nodes[anchor.index]!), factorAt(index)));
  });
  return path.map((curve, i): Curve => {
    const [a, b] = [placed[i]!, placed[i + 1]!];
    if (curve.length === 2) return [a, b];
    const out = add(a, times(subtract(curve[1], curve[0]), factorAt(i)));
    const back = add(b, times(subtract(curve[2], curve[3]), factorAt(i + 1)));
    return [a, out, back, b];
  });
}
