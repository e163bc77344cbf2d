import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ribbonsToBuy } from '../../src/fabric';
import { type Garment, deriveGarment } from '../../src/garment';
import { type Pt, distance, nearestOnPath } from '../../src/geometry';
import type { Design, PanelLine, Trim } from '../../src/pattern';
import type { TrimRun } from '../../src/trim';
import { designOf, line, piece, straight, trim } from './trimmedDesign';

const WIDE = 400;
const HIGH = 600;
const half = piece('front', {
  fold: [
    [0, 0],
    [0, HIGH],
  ],
});
const whole = piece('front');

/** A line across or down, from edge to edge or between two others; on ten-millimetre places, so that meetings are plain. */
interface Cut {
  readonly down: boolean;
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

const cut: fc.Arbitrary<Cut> = fc.record({
  down: fc.boolean(),
  at: fc.integer({ min: 2, max: 37 }),
  from: fc.integer({ min: 0, max: 3 }),
  to: fc.integer({ min: 0, max: 3 }),
});

/** Lines one after the other: each begins and ends at the outline or at one of the lines drawn before that it meets. */
function linesFrom(cuts: readonly Cut[], mirrored: boolean): PanelLine[] {
  const drawn: { down: boolean; at: number; from: number; to: number }[] = [];
  for (const { down, at, from, to } of cuts) {
    const place = at * 10 + (down ? 3 : 7);
    const far = down ? HIGH : WIDE;
    if (place > (down ? WIDE : HIGH) - 10) continue;
    if (drawn.some((d) => d.down === down && Math.abs(d.at - place) < 40)) continue;
    const stops = [
      0,
      ...drawn.filter((d) => d.down !== down && d.from <= place && place <= d.to).map((d) => d.at),
      far,
    ].sort((p, q) => p - q);
    const [a, b] = [from % stops.length, to % stops.length].sort((p, q) => p - q) as [number, number];
    const [begin, end] = a === b ? [0, far] : [stops[a]!, stops[b]!];
    drawn.push({ down, at: place, from: begin, to: end });
  }
  return drawn.map(({ down, at, from, to }, i) =>
    line(`l${i}`, down ? straight([at, from], [at, to]) : straight([from, at], [to, at]), 'front', !mirrored),
  );
}

const wish = fc.record({
  on: fc.nat(9),
  width: fc.integer({ min: 4, max: 30 }),
  from: fc.constantFrom(0, 0, 0, 0.2),
  to: fc.constantFrom(1, 1, 1, 0.7),
  shrinkage: fc.constantFrom(0, 5),
  soldIn: fc.constantFrom(null, 600, 1000),
  free: fc.boolean(),
  y: fc.integer({ min: 20, max: 560 }),
});

const design: fc.Arbitrary<Design> = fc
  .record({
    cuts: fc.array(cut, { minLength: 1, maxLength: 7 }),
    mirrored: fc.boolean(),
    wishes: fc.array(wish, { minLength: 1, maxLength: 5 }),
  })
  .map(({ cuts, mirrored, wishes }) => {
    const lines = linesFrom(cuts, mirrored);
    const trims = wishes.map((w, i): Trim => {
      const base = trim(`trim ${i}`, lines[w.on % Math.max(1, lines.length)]?.id ?? 'none', w.width);
      const on: Trim['on'] = w.free
        ? { kind: 'path', piece: whole.id, path: straight([-5, w.y], [WIDE + 5, w.y + 11]), once: !mirrored }
        : { ...(base.on as Extract<Trim['on'], { kind: 'line' }>), from: w.from, to: w.to };
      return { ...base, on, shrinkage: w.shrinkage, soldIn: w.soldIn };
    });
    return designOf(lines, lines.length > 0 ? trims : [], [mirrored ? half : whole]);
  });

/** Told by the shapes and step numbers alone: whether anything that comes after a strip lies over or catches its end. */
function isHidden(garment: Garment, run: TrimRun, at: Pt): boolean {
  const piece = garment.pieceById.get(run.piece)!;
  if (nearestOnPath(piece.whole.stitching, at).distance < 1) return true;
  const later = (step: number | undefined): boolean => step !== undefined && step > run.step!;
  const caught = piece.seams.some(
    (s) => later(garment.plan.stepOfSeam.get(s.id)) && nearestOnPath(s.path, at).distance < 1,
  );
  const covered = garment.trims.some(
    (t) =>
      t.copy === 1 &&
      t.key !== run.key &&
      later(t.step ?? undefined) &&
      nearestOnPath(t.path, at).distance <= t.trim.width / 2 + 0.6,
  );
  return caught || covered;
}

test('on random designs no end of a trim is left raw without being said', () => {
  let reported = 0;
  let hidden = 0;
  fc.assert(
    fc.property(design, (d) => {
      const garment = deriveGarment(d);
      for (const run of garment.trims) {
        if (run.isClosed) continue;
        for (const at of [run.path[0]![0], run.path.at(-1)!.at(-1)!]) {
          const said = garment.problems.some(
            (p) =>
              (p.code === 'trim-end-uncovered' || p.code === 'trim-end-tucked') &&
              p.at !== null &&
              distance(p.at, at) < 0.01,
          );
          if (said) reported += 1;
          else hidden += 1;
          expect(said || isHidden(garment, run, at)).toBe(true);
        }
      }
    }),
    { seed: 17, numRuns: 100 },
  );
  // neither answer is given for everything
  expect(reported).toBeGreaterThan(20);
  expect(hidden).toBeGreaterThan(200);
});

test('on random designs every trim has a step after the seams under it, and everything a step needs comes before it', () => {
  fc.assert(
    fc.property(design, (d) => {
      const { plan, trims } = deriveGarment(d);
      const stepOf = new Map(plan.steps.map((s) => [s.key, s.step] as const));
      for (const run of trims) {
        expect(run.step).not.toBeNull();
        expect(run.step!).toBeGreaterThan(run.afterStep);
      }
      for (const step of plan.steps)
        for (const need of step.needs) expect(stepOf.get(need.key) ?? 0).toBeLessThan(step.step);
    }),
    { seed: 23, numRuns: 100 },
  );
});

test('on random designs the ribbon bought is at least what is cut, and like ribbons are bought as one', () => {
  fc.assert(
    fc.property(design, fc.constantFrom('cm', 'in') as fc.Arbitrary<'cm' | 'in'>, (d, units) => {
      const alike = { ...d, trims: d.trims.map((t) => ({ ...t, name: 'ribbon', width: 12 })) };
      for (const { trims } of [deriveGarment(d), deriveGarment(alike)]) {
        const ribbons = ribbonsToBuy(trims, units);
        const cut = trims.reduce((sum, t) => sum + t.length, 0);
        expect(ribbons.reduce((sum, r) => sum + r.need, 0)).toBeCloseTo(cut, 6);
        for (const r of ribbons) expect(r.buy * (1 - r.shrinkage / 100)).toBeGreaterThan(r.need - 1e-6);
      }
      const kinds = new Set(alike.trims.map((t) => `${t.shrinkage} ${t.soldIn}`)).size;
      expect(ribbonsToBuy(deriveGarment(alike).trims, units).length).toBeLessThanOrEqual(kinds);
    }),
    { seed: 31, numRuns: 60 },
  );
});

test('where every line runs from edge to edge or ends on another, trims on whole lines leave no raw end', () => {
  let ends = 0;
  fc.assert(
    fc.property(design, (d) => {
      const onLines = d.trims.filter((t) => t.on.kind === 'line');
      const trims = onLines.map((t): Trim => ({ ...t, on: { ...t.on, from: 0, to: 1 } as Trim['on'] }));
      const garment = deriveGarment({ ...d, trims });
      ends += garment.trims.flatMap((t) => t.ends).length;
      expect(garment.problems.filter((p) => p.code.startsWith('trim-end'))).toEqual([]);
    }),
    { seed: 41, numRuns: 100 },
  );
  expect(ends).toBeGreaterThan(200);
});
