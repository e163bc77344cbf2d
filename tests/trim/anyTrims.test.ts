import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { type Path, type Pt, distance, endOfCurve, transformPath } from '../../src/geometry';
import { panelledPiece } from '../../src/panels';
import type { Design, LineId, PieceId, Trim, TrimId } from '../../src/pattern';
import { panelToTrim, trimToPanel } from '../../src/trim';
import { designOf, line, piece, trim } from './trimmedDesign';

const spot: fc.Arbitrary<Pt> = fc.tuple(
  fc.integer({ min: -40, max: 440 }),
  fc.integer({ min: -40, max: 640 }),
);
/** Straight, curved, bent or closed, on the piece or partly off it. */
const course: fc.Arbitrary<Path> = fc
  .oneof(
    fc.tuple(spot, spot).map(([a, b]): Path => [[a, b]]),
    fc.tuple(spot, spot, spot, spot).map(([a, b, c, d]): Path => [[a, b, c, d]]),
    fc.tuple(spot, spot, spot).map(([a, b, c]): Path => [
      [a, b],
      [b, c],
    ]),
    fc.tuple(spot, spot, spot).map(([a, b, c]): Path => [
      [a, b],
      [b, c],
      [c, a],
    ]),
  )
  .filter((path) => path.every((c) => distance(c[0], endOfCurve(c)) > 1));

const laid = fc.record({
  path: course,
  n: fc.nat(6),
  isFree: fc.boolean(),
  from: fc.constantFrom(0, 0, 0.25, 0.6),
});

const design: fc.Arbitrary<Design> = fc
  .record({
    paths: fc.array(course, { minLength: 1, maxLength: 4 }),
    wishes: fc.array(laid, { minLength: 1, maxLength: 4 }),
    isHalf: fc.boolean(),
    gap: fc.constantFrom(0, 9, 14),
  })
  .map(({ paths, wishes, isHalf, gap }) => {
    // the first line may have another one beside it: a narrow panel
    const beside = gap > 0 ? [transformPath(paths[0]!, [1, 0, 0, 1, gap, 0])] : [];
    const lines = [paths[0]!, ...beside, ...paths.slice(1)].map((path, i) =>
      line(`l${i}`, path, 'front', isHalf && i % 2 === 1 && gap === 0),
    );
    const trims = wishes.map(({ path, n, isFree, from }, i): Trim => {
      const on: Trim['on'] = isFree
        ? { kind: 'path', piece: 'front' as PieceId, path, once: n % 2 === 0 }
        : { kind: 'line', line: lines[n % lines.length]!.id, from, to: from === 0 ? 1 : from + 0.3 };
      return { ...trim(`t${i}`, 'none', 4 + n * 5), on };
    });
    const fold = [
      [0, 0],
      [0, 600],
    ] as const;
    return designOf(lines, trims, [piece('front', isHalf ? { fold } : {})]);
  });

test('whatever is drawn, every trim has a length, and panels and trims become each other or say why not', () => {
  const became = { trim: 0, panel: 0, refused: 0 };
  fc.assert(
    fc.property(design, (d) => {
      for (const run of deriveGarment(d).trims) {
        expect(run.length).toBeGreaterThan(0);
        expect(run.edgeLengths.every(Number.isFinite)).toBe(true);
        expect(run.hidden).toHaveLength(2);
      }
      const sliced = panelledPiece(d.pieces[0]!, d);
      for (const panel of sliced.panels) {
        const out = panelToTrim(d, sliced, panel, 'new' as TrimId);
        if (!out.ok) became.refused += 1;
        else {
          became.trim += 1;
          expect(out.value.lines).toHaveLength(d.lines.length - 1);
          expect(deriveGarment(out.value).design.trims.at(-1)!.width).toBeGreaterThan(0);
        }
      }
      for (const t of d.trims) {
        const out = trimToPanel(d, [sliced], t.id, 'fresh' as LineId);
        if (!out.ok) became.refused += 1;
        else {
          became.panel += 1;
          expect(out.value.lines).toHaveLength(d.lines.length + 1);
          expect(deriveGarment(out.value).pieces).toHaveLength(1);
        }
      }
    }),
    { seed: 3, numRuns: 40 },
  );
  for (const count of Object.values(became)) expect(count).toBeGreaterThan(5);
});
