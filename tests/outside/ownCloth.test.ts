import { areaD, differenceD, FillRule, intersectD } from 'clipper2-ts';
import { expect, test } from 'vitest';
import { signedAreaOfPoints } from '../../src/geometry';
import type { Polyline, Pt } from '../../src/geometry';
import { checkLay, ownClothUses, placedOutline, planCloth, planLay } from '../../src/fabric';
import type { ClothPlan, LayJob } from '../../src/fabric';
import { seededRandom } from '../../src/fabric/search/random';
import type { Remnant, RemnantId } from '../../src/pattern';
import { garmentPieces, jobOf, panelOutline, rectangle } from '../fabric/madeUpPieces';

/** Clipper2 (its port clipper2-ts) shares no code with ours; its grid here is 1e-6 mm. */
const path = (points: Polyline): { x: number; y: number }[] => points.map(([x, y]) => ({ x, y }));
const areaOf = (rings: readonly { x: number; y: number }[][]): number =>
  Math.abs(rings.reduce((sum, ring) => sum + areaD(ring), 0));
const common = (a: Polyline, b: Polyline): number =>
  areaOf(intersectD([path(a)], [path(b)], FillRule.NonZero, 6));
const outside = (a: Polyline, b: Polyline): number =>
  areaOf(differenceD([path(a)], [path(b)], FillRule.NonZero, 6));

const NOTHING = 1e-2;

/** A rectangle, an L or a traced outline, as somebody might have it lying about. */
function outlineOf(random: () => number): Pt[] {
  const [l, w] = [300 + 600 * random(), 250 + 500 * random()];
  const kind = random();
  if (kind < 0.34) return rectangle(l, w);
  if (kind < 0.67)
    return [
      [0, 0],
      [l, 0],
      [l, w * 0.5],
      [l * 0.6, w * 0.5],
      [l * 0.6, w],
      [0, w],
    ];
  const traced = panelOutline(random, l, w);
  return signedAreaOfPoints(traced) > 0 ? [...traced] : [...traced].reverse();
}

function caseOf(run: number): { job: LayJob; remnants: Remnant[] } {
  const random = seededRandom(300 + run);
  const job = jobOf(garmentPieces(500 + run, 3 + Math.floor(random() * 6)), {
    width: [900, 1150, 1400][run % 3]!,
    nap: run % 4 === 0,
    gap: [0, 2, 5][run % 3]!,
    margin: run % 5 === 0 ? 10 : 0,
    seconds: run % 4 === 1 ? 0.05 : 0,
    seed: run,
  });
  const remnants = Array.from({ length: 1 + (run % 3) }, (_, i): Remnant => ({
    id: `r${i}` as RemnantId,
    name: `piece ${i}`,
    colour: job.colour,
    outline: outlineOf(random),
    count: 1 + (run % 2),
  }));
  return { job, remnants };
}

function expectAllLaidOnce(job: LayJob, { own, bought }: ClothPlan): void {
  const laid = [...own, bought].flatMap(({ placed }) => placed.map((p) => `${p.panel} ${p.copy}`));
  expect([...laid].sort()).toEqual(job.pieces.map((p) => `${p.panel} ${p.copy}`).sort());
}

test('random panels lie on random remnants inside them and apart, what is called left is free, and never more is bought', () => {
  let used = 0;
  for (let run = 0; run < 30; run += 1) {
    const { job, remnants } = caseOf(run);
    const plan = planCloth(job, remnants);
    expectAllLaidOnce(job, plan);
    expect(plan.bought.length).toBeLessThanOrEqual(planLay(job).length + 1e-9);
    for (const use of ownClothUses(job, plan, remnants)) {
      const pieces = job.pieces.filter((p) =>
        use.plan?.placed.some((at) => at.panel === p.panel && at.copy === p.copy),
      );
      const outlines = pieces.map((p, i) => placedOutline(p, use.plan!.placed[i]!));
      if (use.plan) {
        used += 1;
        expect(
          checkLay({ ...job, within: use.cloth, width: use.plan.width, pieces }, use.plan.placed),
        ).toEqual([]);
      }
      outlines.forEach((outline, i) => {
        expect(outside(outline, use.cloth.outline)).toBeLessThan(NOTHING);
        for (const other of outlines.slice(i + 1)) expect(common(outline, other)).toBeLessThan(NOTHING);
      });
      expect(use.left.area).toBeCloseTo(
        areaOf(differenceD([path(use.cloth.outline)], outlines.map(path), FillRule.NonZero, 6)),
        0,
      );
      const { rectangle: free } = use.left;
      if (!free) continue;
      const corners = rectangle(free.length, free.width, free.x, free.y);
      expect(outside(corners, use.cloth.outline)).toBeLessThan(NOTHING);
      for (const outline of outlines) expect(common(corners, outline)).toBeLessThan(NOTHING);
    }
  }
  expect(used).toBeGreaterThan(20);
});
