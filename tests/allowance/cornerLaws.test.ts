import { expect, test } from 'vitest';
import type { CutPiece } from '../../src/allowance';
import { deriveGarment, type Garment } from '../../src/garment';
import {
  type Polyline,
  type Pt,
  add,
  crossStraight,
  directionAt,
  distance,
  dot,
  endOf,
  flattenRing,
  isSimpleRing,
  nearestOnPath,
  pathLength,
  scale,
  signedArea,
  startOf,
  subtract,
  whereInRing,
} from '../../src/geometry';
import type { Panel, PanelEdge } from '../../src/panels';
import { edgeKey } from '../../src/sewing';
import { randomFrom } from '../geometry/randomDrawings';
import { randomSkirt, type SkirtChoices } from './cornerDesigns';

const STRAIGHT: SkirtChoices = { straightSides: true, straightHem: true };
const CURVED_SIDES: SkirtChoices = { straightSides: false, straightHem: true };
const ALL_CURVED: SkirtChoices = { straightSides: false, straightHem: false };

/** The same 110 garments of a kind for all tests. */
const garments = (() => {
  const known = new Map<SkirtChoices, Garment[]>();
  return (choices: SkirtChoices): Garment[] => {
    const made =
      known.get(choices) ??
      Array.from({ length: 110 }, (_, i) => deriveGarment(randomSkirt(randomFrom(1 + i), choices)));
    known.set(choices, made);
    return made;
  };
})();

/** A corner of a panel, told from the garment alone: which stretch is sewn first, and how wide both allowances are. */
interface Crossed {
  readonly panel: Panel;
  readonly cut: CutPiece;
  readonly at: Pt;
  readonly earlier: PanelEdge;
  readonly later: PanelEdge;
  /** Unit vectors: along the earlier stretch past the corner, and out of the panel beside it. */
  readonly on: Pt;
  readonly out: Pt;
  readonly width: number;
  readonly laterWidth: number;
  /** Inside the panel, degrees. */
  readonly angle: number;
}

const widthOf = ({ design }: Garment, edge: PanelEdge): number => {
  const { allowances } = design;
  if (edge.origin.kind === 'seam') {
    const { line } = edge.origin;
    return allowances.lines.find((l) => l.line === line)?.width ?? allowances.newSeam;
  }
  return allowances.tracing.kind === 'net' ? allowances.tracing.outer : NaN;
};

const stepOf = (garment: Garment, panel: Panel, { origin }: PanelEdge): number | undefined =>
  origin.kind === 'seam'
    ? garment.plan.stepOfSeam.get(origin.seam)
    : garment.plan.stepOfEdge.get(edgeKey({ piece: panel.piece, edge: origin.edge }));

const isHem = (garment: Garment, panel: Panel, { origin }: PanelEdge): boolean =>
  origin.kind === 'outline' &&
  garment.pieceById.get(panel.piece)!.whole.edges[origin.edge]!.plainName === 'hem';

function crossedCorners(garment: Garment): Crossed[] {
  return garment.panels.flatMap((panel, p) =>
    panel.boundary.flatMap((after, k): Crossed[] => {
      const before = panel.boundary.at(k - 1)!;
      if ([before, after].some((e) => isHem(garment, panel, e))) return [];
      const [first, second] = [stepOf(garment, panel, before), stepOf(garment, panel, after)];
      if (first === undefined || second === undefined || first === second) return [];
      const [d1, d2] = [directionAt(before.path.at(-1)!, 1), directionAt(after.path[0]!, 0)];
      const turn = (Math.atan2(d1[0] * d2[1] - d1[1] * d2[0], dot(d1, d2)) * 180) / Math.PI;
      if (turn < 20) return [];
      const [earlier, later] = first < second ? [before, after] : [after, before];
      const on: Pt = earlier === before ? d1 : scale(d2, -1);
      const out: Pt = earlier === before ? [d1[1], -d1[0]] : [d2[1], -d2[0]];
      return [
        {
          ...{ panel, cut: garment.cutPieces[p]!, at: startOf(after.path), earlier, later, on, out },
          ...{ width: widthOf(garment, earlier), laterWidth: widthOf(garment, later), angle: 180 - turn },
        },
      ];
    }),
  );
}

/** How far the allowance of the earlier stretch runs on beyond its end, mm, so far out from its stitching line. */
function reachAt({ cut, at, on, out }: Crossed, away: number): number {
  const hits = crossStraight(cut.cutting, add(at, scale(out, away)), on).filter((c) => c.along > -1);
  return Math.min(...hits.map((c) => c.along));
}

test('allowances along a seam, laid right sides together, end in step to 0.1 mm on both panels', () => {
  let pairs = 0;
  for (const garment of garments(ALL_CURVED)) {
    const corners = crossedCorners(garment);
    for (const one of corners) {
      const { origin } = one.earlier;
      if (origin.kind !== 'seam') continue;
      const others = corners.filter(
        (c) =>
          c.panel !== one.panel &&
          c.earlier.origin.kind === 'seam' &&
          c.earlier.origin.seam === origin.seam &&
          distance(c.at, one.at) < 0.01,
      );
      for (const other of others) {
        for (const share of [0.25, 0.6, 0.98])
          expect(Math.abs(reachAt(one, one.width * share) - reachAt(other, one.width * share))).toBeLessThan(
            0.1,
          );
        pairs += 1;
      }
    }
  }
  console.log(`in step: ${pairs / 2} seam ends`);
  expect(pairs).toBeGreaterThan(800);
});

test('ends of seams between pieces run on equally far on both pieces', () => {
  let pairs = 0;
  for (const garment of garments(CURVED_SIDES)) {
    const corners = crossedCorners(garment).filter((c) => c.earlier.origin.kind === 'outline');
    const nameAt = ({ panel, earlier }: Crossed): string =>
      earlier.origin.kind === 'outline'
        ? garment.pieceById.get(panel.piece)!.whole.edges[earlier.origin.edge]!.name
        : '';
    for (const one of corners.filter((c) => c.panel.piece === 'front')) {
      // side seams of the front are sewn to those of the back, waist to waist
      const other = corners.find(
        (c) =>
          c.panel.piece === 'back' &&
          nameAt(c) === (nameAt(one) === 'left side seam' ? 'right side seam' : 'left side seam'),
      );
      if (!other) continue;
      const [a, b] = [reachAt(one, one.width * 0.9), reachAt(other, one.width * 0.9)];
      expect(Math.abs(a - b)).toBeLessThan(0.1);
      pairs += 1;
    }
  }
  expect(pairs).toBeGreaterThan(150);
});

test('a squared allowance reaches the later cutting line, and pressed open never shows a bigger ear than its square end', () => {
  let [blunt, sharp] = [0, 0];
  for (const garment of garments(STRAIGHT)) {
    for (const corner of crossedCorners(garment)) {
      const { cut, at, on, out, width, laterWidth, angle } = corner;
      const sine = Math.sin((angle * Math.PI) / 180);
      const reach = reachAt(corner, width * 0.98);
      // a long point is cut off at four allowances
      const asked = Math.min(laterWidth / sine, 4 * Math.max(width, laterWidth));
      expect(reach).toBeGreaterThan(asked - 0.01);
      const pressed = add(add(at, scale(on, reach - 0.05)), scale(out, -width * 0.98));
      const points = flattenRing(cut.cutting);
      const lies = whereInRing(pressed, points) !== 'outside';
      const ear = lies ? 0 : nearestOnPath(cut.cutting, pressed).distance;
      // by trigonometry: the corner of a square end lies width · cos of the angle beyond the later cutting line
      const beyond = Math.max(0, width * Math.cos((angle * Math.PI) / 180));
      const agreedMore = reach - asked;
      expect(ear, `at ${angle}°`).toBeLessThan(beyond + agreedMore + 0.05);
      if (angle >= 90 && agreedMore < 0.01) blunt += 1;
      else sharp += 1;
    }
  }
  console.log(
    `pressed open: ${blunt} blunt corners without an ear, ${sharp} sharp ones with no more than the square`,
  );
  expect(Math.min(blunt, sharp)).toBeGreaterThan(300);
});

/** Corner points of a panel's cutting line folded up along its hem, where that is straight; null for a panel without one. */
function foldedHem(
  garment: Garment,
  panel: Panel,
  cut: CutPiece,
): { folded: Polyline; fold: readonly [Pt, Pt] } | null {
  const hem = panel.boundary.find((e) => isHem(garment, panel, e));
  if (!hem) return null;
  const [a, b] = [startOf(hem.path), endOf(hem.path)];
  const u = scale(subtract(b, a), 1 / distance(a, b));
  const out: Pt = [u[1], -u[0]];
  const beyond = flattenRing(cut.cutting)
    .map((p) => ({ p, by: dot(subtract(p, a), out) }))
    .filter(({ by }) => by > 1e-6);
  return { folded: beyond.map(({ p, by }) => add(p, scale(out, -2 * by))), fold: [a, u] };
}

test('a straight hem folded up fits the side cutting lines to 0.1 mm, on flared, tapered and curved sides', () => {
  let [panels, corners] = [0, 0];
  for (const choices of [STRAIGHT, CURVED_SIDES]) {
    for (const garment of garments(choices)) {
      garment.panels.forEach((panel, i) => {
        const cut = garment.cutPieces[i]!;
        const found = foldedHem(garment, panel, cut);
        if (!found) return;
        const ring = flattenRing(cut.cutting);
        panels += 1;
        for (const p of found.folded) {
          const away = nearestOnPath(cut.cutting, p).distance;
          // nothing shows beyond the cut panel
          if (whereInRing(p, ring) === 'outside') expect(away).toBeLessThan(0.05);
          // the folded corners lie on the cutting line of the sides
          expect(away).toBeLessThan(0.1);
          corners += 1;
        }
      });
    }
  }
  console.log(`hems: ${panels} panels, ${corners} points on the side cutting lines`);
  expect(panels).toBeGreaterThan(450);
});

test('a curved hem folded about its tangents at the corners keeps within the side cutting lines there', () => {
  let corners = 0;
  for (const garment of garments(ALL_CURVED)) {
    garment.panels.forEach((panel, i) => {
      const hem = panel.boundary.find((e) => isHem(garment, panel, e));
      // measured from 15 mm inside either side, and not so deep that the curved hem itself is met
      if (!hem || pathLength(hem.path) < 60) return;
      const { cutting } = garment.cutPieces[i]!;
      const depth = garment.design.allowances.hem;
      for (const [v, d] of [
        [startOf(hem.path), directionAt(hem.path[0]!, 0)],
        [endOf(hem.path), scale(directionAt(hem.path.at(-1)!, 1), -1)],
      ] as const) {
        const out: Pt = v === startOf(hem.path) ? [d[1], -d[0]] : [-d[1], d[0]];
        for (const share of [0.2, 0.4, 0.6]) {
          const edge = (by: number): number => {
            const from = add(add(v, scale(out, by)), scale(d, 15));
            const hits = crossStraight(cutting, from, d).filter((c) => c.along < 0);
            return Math.max(...hits.map((c) => c.along));
          };
          expect(Math.abs(edge(depth * share) - edge(-depth * share))).toBeLessThan(0.1);
          corners += 1;
        }
      }
    });
  }
  expect(corners).toBeGreaterThan(1000);
});

test('cutting lines are simple rings that hold their stitching line, whatever the corners', () => {
  let panels = 0;
  for (const garment of garments(ALL_CURVED)) {
    garment.panels.forEach((panel, i) => {
      const { cutting, cutArea, stitching } = garment.cutPieces[i]!;
      expect(isSimpleRing(cutting, 0.02)).toBe(true);
      expect(cutArea).toBeGreaterThanOrEqual(panel.area);
      expect(signedArea(cutting)).toBeGreaterThan(signedArea(stitching));
      const ring = flattenRing(cutting);
      for (const p of flattenRing(stitching)) expect(whereInRing(p, ring)).toBe('inside');
      panels += 1;
    });
  }
  expect(panels).toBeGreaterThan(600);
});
