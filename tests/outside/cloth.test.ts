import { areaD, intersectD, FillRule } from 'clipper2-ts';
import polygonClipping from 'polygon-clipping';
import { expect, test } from 'vitest';
import { signedAreaOfPoints } from '../../src/geometry';
import type { Polyline } from '../../src/geometry';
import { planLay } from '../../src/fabric';
import type { ClothPiece, LayJob, LayPlan, Placement } from '../../src/fabric';
import { seededRandom } from '../../src/fabric/search/random';
import { garmentPieces, jobOf, pieceOf } from '../fabric/madeUpPieces';

/** Design §6, written out again: mirrored in its own x, turned about the origin, moved. */
function laid(piece: ClothPiece, { x, y, rotation, flipped }: Placement): [number, number][] {
  const a = (rotation * Math.PI) / 180;
  return piece.cutting.map(([px, py]) => {
    const qx = flipped ? -px : px;
    return [qx * Math.cos(a) - py * Math.sin(a) + x, qx * Math.sin(a) + py * Math.cos(a) + y];
  });
}

const path = (points: Polyline): { x: number; y: number }[] => points.map(([x, y]) => ({ x, y }));

/** Common area of two polygons on a grid of 1e-6 mm, mm², by clipper2-ts. */
const commonArea = (a: Polyline, b: Polyline): number =>
  intersectD([path(a)], [path(b)], FillRule.NonZero, 6).reduce((sum, ring) => sum + areaD(ring), 0);

function expectSound(job: LayJob, plan: LayPlan): void {
  const outlines = job.pieces.map((piece, i) => {
    const placed = plan.placed[i]!;
    expect([placed.panel, placed.copy, placed.flipped]).toEqual([piece.panel, piece.copy, piece.flipped]);
    return laid(piece, placed);
  });
  outlines.forEach((outline, i) => {
    for (const [x, y] of outline) {
      expect(x).toBeGreaterThanOrEqual(-1e-6);
      expect(x).toBeLessThanOrEqual(plan.length + 1e-6);
      expect(y).toBeGreaterThanOrEqual(-1e-6);
      expect(y).toBeLessThanOrEqual(job.width + 1e-6);
    }
    expect(Math.abs(signedAreaOfPoints(outline))).toBeCloseTo(
      Math.abs(signedAreaOfPoints(job.pieces[i]!.cutting)),
      3,
    );
    for (const other of outlines.slice(i + 1))
      expect(Math.abs(commonArea(outline, other))).toBeLessThan(1e-2);
  });
}

test('an independent library finds no overlap in any plan of 300 random jobs', () => {
  const random = seededRandom(77);
  for (let run = 0; run < 300; run += 1) {
    const pieces = garmentPieces(1000 + run, 2 + Math.floor(random() * 7));
    const job = jobOf(pieces, {
      width: [900, 1150, 1400, 1500][run % 4]!,
      nap: run % 3 === 0,
      gap: [0, 2, 5][run % 3]!,
      seconds: run % 6 === 0 ? 0.05 : 0,
      seed: run,
    });
    const plan = planLay(job);
    if (plan.problems.length === 0) expectSound(job, plan);
    else expect(plan.placed).toEqual([]);
  }
}, 300_000);

test('coarse shapes are judged free of overlap by a second library too', () => {
  const random = seededRandom(78);
  for (let run = 0; run < 60; run += 1) {
    const pieces = Array.from({ length: 6 }, (_, i) => {
      const corners = 3 + Math.floor(random() * 7);
      return pieceOf(
        i + 1,
        Array.from({ length: corners }, (_, k): [number, number] => {
          const [r, a] = [50 + 250 * random(), (2 * Math.PI * k) / corners];
          return [Math.round(r * Math.cos(a)), Math.round(r * Math.sin(a))];
        }),
      );
    });
    const job = jobOf(pieces, { width: 900, gap: 2, seconds: 0.05, seed: run });
    const plan = planLay(job);
    const outlines = pieces.map((p, i) => laid(p, plan.placed[i]!));
    outlines.forEach((a, i) => {
      for (const b of outlines.slice(i + 1)) expect(polygonClipping.intersection([a], [b])).toEqual([]);
    });
  }
}, 120_000);
