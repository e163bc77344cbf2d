import { flattenRing, offsetRing, type Curve, type Pt, type Ring } from '../../src/geometry';
import { randomFrom } from '../geometry/randomDrawings';
import { offsetByJsts } from '../outside/referenceOffsets';
import { median, sayTimes, timesOf } from './timing';

/** A panel-like ring: corners round an ellipse `dent` apart in distance from its middle, every `straightEvery`-th edge straight. */
function panel(random: () => number, curves: number, dent: number, straightEvery: number): Ring {
  const corners = Array.from({ length: curves }, (_, i): Pt => {
    const [a, r] = [(i / curves) * 2 * Math.PI, 200 * (1 + dent * (random() - 0.5))];
    return [r * Math.cos(a), 1.4 * r * Math.sin(a)];
  });
  return corners.map((p, i): Curve => {
    const q = corners[(i + 1) % curves]!;
    if (straightEvery > 0 && i % straightEvery === 0) return [p, q];
    const [dx, dy, b] = [(q[0] - p[0]) / 3, (q[1] - p[1]) / 3, (random() - 0.3) * 0.3];
    return [p, [p[0] + dx + dy * b, p[1] + dy - dx * b], [q[0] - dx + dy * b, q[1] - dy - dx * b], q];
  });
}

const all = (ring: Ring, width: number): number[] => ring.map(() => width);

/** 12 cubics and 4 lines: gentle outlines need no clean-up, rough ones with wide steps do. */
function onePanel(): void {
  const random = randomFrom(7);
  const gentle = Array.from({ length: 100 }, () => panel(random, 16, 0.05, 4));
  const rough = Array.from({ length: 100 }, () => panel(random, 16, 0.5, 4));
  const stepped = (ring: Ring): number[] => ring.map((_, i) => [10, 15, 40, 0][i % 4]!);
  const time = (rings: readonly Ring[], widths: (ring: Ring) => readonly number[]): string =>
    sayTimes(timesOf((run) => offsetRing(rings[run % 100]!, widths(rings[run % 100]!)), 2000, 1500));
  console.log(`gentle panel, 10 mm all round: ${time(gentle, (r) => all(r, 10))}`);
  console.log(`rough panel, 10 mm all round: ${time(rough, (r) => all(r, 10))}`);
  console.log(`rough panel, 10, 15, 40 and 0 mm in turn: ${time(rough, stepped)}`);
  console.log(`rough panel, 40 mm inwards: ${time(rough, (r) => all(r, -40))}`);
}

/** The same shape drawn with ever more curves, against the reference library on our chords of it. */
function growth(): void {
  let before: { curves: number; time: number } | null = null;
  for (const curves of [25, 50, 100, 200]) {
    const ring = panel(randomFrom(curves), curves, 3 / curves, 0);
    const time = median(timesOf(() => offsetRing(ring, all(ring, 10)), 200, 100));
    const theirs = median(timesOf(() => offsetByJsts(flattenRing(ring), 10, 4), 60, 30));
    const factor = before
      ? `, ×${(time / before.time).toFixed(2)} for ×${curves / before.curves} curves`
      : '';
    console.log(
      `${curves} curves: median ${time.toFixed(3)} ms${factor}; jsts ${theirs.toFixed(3)} ms, ratio ${(theirs / time).toFixed(1)}`,
    );
    before = { curves, time };
  }
}

/** Offset of rings, curves kept as cubics, against a buffer of chords by a reference library. */
export default function offset(): void {
  onePanel();
  growth();
}
