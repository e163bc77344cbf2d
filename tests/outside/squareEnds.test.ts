/**
 * Ends of strips cut square, against the same regions put together from their parts by Clipper 2 (clipper2-ts 2.0.1, a general-purpose
 * library from the registry). What a squared corner is: common practice, no source.
 */
import { expect, test } from 'vitest';
import { type CornerShape, type Ring, directionAt, offsetRing, pathLength } from '../../src/geometry';
import { chordRing, meetings } from '../../src/geometry/simplicity';
import { convexRing, simpleRing, starRing } from '../geometry/randomRings';
import { randomFrom } from '../geometry/randomDrawings';
import { type PartStyle, unionOfParts } from './partsOfOffset';
import {
  type Point,
  borderLength,
  differenceArea,
  wideDifferenceArea,
  wideLossArea,
} from './referenceOffsets';

const TRIES = Number(process.env['OFFSET_TRIES'] ?? 1200);
const LIMIT = 4;

const turnAt = (ring: Ring, i: number): number => {
  const [[ux, uy], [vx, vy]] = [directionAt(ring.at(i - 1)!, 1), directionAt(ring[i]!, 0)];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
};

/** Corners that a mitre of four widths reaches, and that turn enough to be corners. */
const canBeShaped = (turn: number): boolean => turn > 0.35 && turn < 2.6;

interface Cut {
  readonly ours: readonly (readonly Point[])[];
  readonly theirs: readonly (readonly Point[])[];
  readonly squared: number;
}

/** A random ring with square ends at random corners, by us and by the union of its parts; null where a mitre would be cut off. */
function cutBoth(make: (random: () => number) => Ring, seed: number, isRoomy: boolean): Cut | null {
  const random = randomFrom(seed);
  const ring = simpleRing(make, random);
  const shortest = Math.min(...ring.map((c) => pathLength([c])));
  const width = isRoomy ? Math.min(30, shortest / 2) * (0.1 + 0.9 * random()) : 1 + 30 * random();
  const turns = ring.map((_, i) => turnAt(ring, i));
  if (turns.some((t) => 1 / Math.cos(t / 2) > LIMIT && t > 0)) return null;
  const styles = turns.map((t): PartStyle => {
    const pick = random();
    return !canBeShaped(t) || pick < 0.3 ? 'mitre' : pick < 0.65 ? 'before' : 'after';
  });
  const corners = new Map<number, CornerShape>();
  styles.forEach((style, i) => {
    const reach = Math.min(width / Math.sin(turns[i]!), LIMIT * width);
    if (style !== 'mitre') corners.set(i, { kind: 'square end', of: style, reach });
  });
  const widths = ring.map(() => width);
  const offset = offsetRing(ring, widths, { mitreLimit: LIMIT, corners });
  expect(meetings(offset.map((o) => chordRing(o.ring, 0.02)))).toEqual([]);
  const ours = offset.map((o) => o.ring.map((c): Point => c[0]));
  const points = ring.map((c): Point => c[0]);
  return { ours, theirs: unionOfParts(points, width, styles, LIMIT), squared: corners.size };
}

for (const [name, make] of Object.entries({ convexRing, starRing })) {
  test(`${TRIES} straight rings (${name}) with square ends agree with the union of their parts`, () => {
    let [compared, squared, worst] = [0, 0, 0];
    for (let seed = 1; seed <= TRIES; seed += 1) {
      const cut = cutBoth(make, seed, true);
      if (!cut) continue;
      const { ours, theirs } = cut;
      worst = Math.max(worst, differenceArea(ours, theirs) / (borderLength(ours) + borderLength(theirs)));
      expect(wideDifferenceArea(ours, theirs, 0.007)).toBe(0);
      compared += 1;
      squared += cut.squared;
    }
    console.log(`${name}: ${compared} rings, ${squared} square ends, ${worst.toFixed(5)} mm apart at worst`);
    expect(squared).toBeGreaterThan(TRIES / 2);
    expect(worst).toBeLessThan(0.005);
  });

  test(`${TRIES} rings (${name}) with strips wider than their edges lose nothing of their parts to square ends`, () => {
    let compared = 0;
    for (let seed = 1; seed <= TRIES; seed += 1) {
      const cut = cutBoth(make, seed, false);
      if (!cut) continue;
      expect(wideLossArea(cut.theirs, cut.ours, 0.007)).toBe(0);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(TRIES / 8);
  });
}
