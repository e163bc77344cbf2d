/** Match marks measured by walking panels' boundaries in small chords, dart wedges stepped over: shares no code with the marks. */
import type { CutNotch } from '../../src/allowance';
import type { Garment } from '../../src/garment';
import type { Curve, Pt } from '../../src/geometry';
import type { Panel, Seam } from '../../src/panels';

const CHORDS = 120;

const at = (c: Curve, t: number): Pt => {
  const u = 1 - t;
  if (c.length === 2) return [c[0][0] * u + c[1][0] * t, c[0][1] * u + c[1][1] * t];
  const w = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return [0, 1].map((k) => c.reduce((sum, p, i) => sum + p[k]! * w[i]!, 0)) as unknown as Pt;
};

const inTriangle = (p: Pt, a: Pt, b: Pt, c: Pt): boolean => {
  const side = (q: Pt, r: Pt): number => (r[0] - q[0]) * (p[1] - q[1]) - (r[1] - q[1]) * (p[0] - q[0]);
  const s = [side(a, b), side(b, c), side(c, a)];
  return s.every((x) => x > 0) || s.every((x) => x < 0);
};

/** Whether a place lies in the wedge of a straight single dart that is sewn in the panel. */
const isFolded = (panel: Panel, p: Pt): boolean =>
  panel.darts.some((d) => d.kind === 'single' && inTriangle(p, d.mouth[0], d.point, d.mouth[1]));

/** Sewn lengths from the seam's start at which marks lie on one side of it, with the side's whole length. */
export function walkedMarks(
  garment: Garment,
  seam: Seam,
  side: 'a' | 'b',
  chords = CHORDS,
): { length: number; marks: { at: number; notch: CutNotch }[] } | null {
  const panel = garment.panelById.get(seam[side])!;
  const cut = garment.cutPieces[garment.panels.indexOf(panel)]!;
  const edge = [...panel.boundary, ...panel.holes.flat()].find(
    ({ origin }) => origin.kind === 'seam' && origin.seam === seam.id && origin.forward === (side === 'a'),
  );
  if (!edge) return null;
  const points = edge.path.flatMap((c, i) =>
    Array.from({ length: chords + (i === 0 ? 1 : 0) }, (_, k) => at(c, (k + (i === 0 ? 0 : 1)) / chords)),
  );
  if (side === 'b') points.reverse();
  const own = cut.notches.filter((n) => n.seam === seam.id);
  // a panel that a line only slits has both sides' marks: those with the outward side of this edge are its own
  const best = own.map(() => ({ gap: Infinity, at: 0 }));
  let s = 0;
  points.slice(1).forEach((q, i) => {
    const p = points[i]!;
    const step = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const folded = isFolded(panel, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]);
    own.forEach((n, k) => {
      const t =
        step > 0
          ? Math.min(
              1,
              Math.max(0, ((n.at[0] - p[0]) * (q[0] - p[0]) + (n.at[1] - p[1]) * (q[1] - p[1])) / step ** 2),
            )
          : 0;
      const gap = Math.hypot(n.at[0] - p[0] - t * (q[0] - p[0]), n.at[1] - p[1] - t * (q[1] - p[1]));
      if (gap < best[k]!.gap - 1e-9) best[k] = { gap, at: s + (folded ? 0 : t * step) };
    });
    if (!folded) s += step;
  });
  const marks = own.map((notch, k) => ({ notch, ...best[k]! })).filter((m) => m.gap < 0.05);
  return { length: s, marks: marks.sort((p, q) => p.at - q.at) };
}
