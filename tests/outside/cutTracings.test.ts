/**
 * Cut tracings (the outline is the cutting line) against Clipper 2 (clipper2-ts 2.0.1), which shares no code with ours. Stitching lines: the
 * outline inset by the least width, then clipped by a half-plane for each straight edge that includes more. Cutting lines: the traced
 * outline clipped by half-planes. Corners between straight edges: Cramer's rule.
 */
import { Clipper, ClipType, EndType, FillRule, JoinType, type Paths64 } from 'clipper2-ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Report,
  designFromTracings,
  openDesign,
  readTracing,
  reportOf,
  saveDesign,
} from '../../src/files';
import { deriveGarment } from '../../src/garment';
import { flattenRing } from '../../src/geometry';
import { type Allowances, openedPiece } from '../../src/pattern';
import { piece } from '../making/designs';

type Point = readonly [number, number];

interface Front {
  readonly fall: number;
  readonly hip: number;
  readonly general: number;
  readonly hem: number;
  readonly side: number;
  /** Height of a level line and how far from the centre an upright ends on it. */
  readonly level: number;
  readonly upright: number;
}

const front = fc.record({
  fall: fc.double({ min: 60, max: 100, noNaN: true }),
  hip: fc.double({ min: 200, max: 240, noNaN: true }),
  general: fc.double({ min: 6, max: 20, noNaN: true }),
  hem: fc.double({ min: 10, max: 50, noNaN: true }),
  side: fc.double({ min: 8, max: 28, noNaN: true }),
  level: fc.double({ min: 230, max: 330, noNaN: true }),
  upright: fc.double({ min: 15, max: 100, noNaN: true }),
});

/** Corner points of a cubic by its Bernstein form, end left out. */
const cubic = (a: Point, b: Point, c: Point, d: Point, n = 600): Point[] =>
  Array.from({ length: n }, (_, i): Point => {
    const t = i / n;
    const u = 1 - t;
    const w = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return [0, 1].map(
      (k) => w[0]! * a[k]! + w[1]! * b[k]! + w[2]! * c[k]! + w[3]! * d[k]!,
    ) as unknown as Point;
  });

/** The whole outline as corner points, from the centre's top round to its foot and back, y down. */
function wholeOf({ fall, hip }: Front): Point[] {
  const half: Point[] = [
    ...cubic([0, fall], [40, fall], [60, 50], [70, 10]),
    [70, 10],
    ...cubic([170, 40], [150, 90], [150, 150], [215, 200]),
    [215, 200],
    [hip, 420],
  ];
  const images = half.slice(1).map(([x, y]): Point => [-x, y]);
  return [...half, ...images.reverse()];
}

const STRAIGHT = piece([], { grain: null });
/** A width of its own for each of five edges, by the numbers edges without a name have in ring order. */
const straightAllowances = (widths: readonly number[]): Allowances => ({
  tracing: { kind: 'cut', included: 99 },
  newSeam: 15,
  hem: 99,
  edges: widths.map((w, i) => ({ piece: STRAIGHT.id, edge: `edge ${i + 1}`, width: w })),
  lines: [],
});

const GRID = 1e4;
const onGrid = (ring: readonly Point[]): Paths64 => [
  ring.map(([x, y]) => ({ x: Math.round(x * GRID), y: Math.round(y * GRID) })),
];
const area = (paths: Paths64): number => Math.abs(paths.reduce((s, p) => s + Clipper.area(p), 0)) / GRID ** 2;
const lengthOf = (path: Paths64[number]): number =>
  path.reduce((sum, p, i) => sum + Math.hypot(p.x - path.at(i - 1)!.x, p.y - path.at(i - 1)!.y), 0) / GRID;
const both = (a: Paths64, b: Paths64): Paths64 =>
  Clipper.booleanOp(ClipType.Intersection, a, b, FillRule.NonZero);
const box = (minX: number, minY: number, maxX: number, maxY: number): Paths64 =>
  onGrid([
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ]);

function reportFor(f: Front): Report {
  const d = `M0 ${f.fall}C40 ${f.fall} 60 50 70 10L170 40C150 90 150 150 215 200L${f.hip} 420L0 420Z`;
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="500mm" viewBox="0 0 600 500"><g id="piece-front" transform="translate(300 0)">` +
    `<path class="outline" d="${d}"/><path class="fold" d="M0 ${f.fall}V420"/>` +
    `<path class="edge-hem" d="M${f.hip} 420L0 420"/><path class="edge-side-seam" d="M215 200L${f.hip} 420"/>` +
    `<path class="panel-line-once" d="M-300 ${f.level}H300"/>` +
    `<path class="panel-line-once" d="M${f.upright} 0V${f.level}"/></g></svg>`;
  const read = readTracing(svg, 'front.svg');
  if (!read.ok) throw new Error(read.problems.map((p) => p.code).join());
  const made = designFromTracings([read.value], {
    tracing: { kind: 'cut', included: f.general },
    hem: f.hem,
    newSeam: 15,
  });
  const design = {
    ...made,
    allowances: {
      ...made.allowances,
      edges: [{ piece: made.pieces[0]!.id, edge: 'side seam', width: f.side }],
    },
  };
  // the widths survive a save
  const opened = openDesign(saveDesign(design), 'design.json');
  if (!opened.ok) throw new Error('a saved design opens');
  return reportOf(deriveGarment(opened.value), {
    layPlans: [],
    sheets: { paper: 'a4', pages: 0, columns: 0, rows: 0 },
    ignored: [],
    problems: [],
  });
}

/** All points at least `width` from a straight edge's line, on the side of the material. */
function beyond([a, b]: readonly [Point, Point], width: number): Paths64 {
  const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [d, n]: Point[] = [
    [(b[0] - a[0]) / l, (b[1] - a[1]) / l],
    [-(b[1] - a[1]) / l, (b[0] - a[0]) / l],
  ];
  const at = (along: number, away: number): Point => [
    a[0] + d![0] * along + n![0] * away,
    a[1] + d![1] * along + n![1] * away,
  ];
  return onGrid([at(-2000, width), at(2000, width), at(2000, 2000), at(-2000, 2000)]);
}

test('stitching lines of cut tracings with unequal allowances are the outline inset, edge by edge', () => {
  fc.assert(
    fc.property(front, (drawn) => {
      const f = { ...drawn, hem: drawn.general + drawn.hem - 10, side: drawn.general + drawn.side - 8 };
      const { pieces, panels } = reportFor(f);
      const outline = onGrid(wholeOf(f));
      const least = Clipper.inflatePaths(outline, -f.general * GRID, JoinType.Miter, EndType.Polygon, 4);
      const under: Point = [215, 200];
      const [foot, mirror] = [[f.hip, 420] as const, ([x, y]: Point): Point => [-x, y]];
      const reference = [
        beyond([under, foot], f.side),
        beyond([mirror(foot), mirror(under)], f.side),
        beyond([foot, [0, 420]], f.hem),
      ].reduce(both, least);
      const around = lengthOf(reference[0]!);
      // as if the whole stitching line lay 0.02 mm aside: less than a re-fitted parallel may differ (0.05 mm)
      expect(Math.abs(pieces[0]!.area - area(reference))).toBeLessThan(around * 0.02);
      expect(panels.reduce((sum, p) => sum + p.area, 0)).toBeCloseTo(pieces[0]!.area, 3);
    }),
    { numRuns: 60, seed: 8 },
  );
});

test('corners between straight edges lie where their stitching lines cross, by Cramer’s rule', () => {
  const width = fc.double({ min: 5, max: 35, noNaN: true });
  fc.assert(
    fc.property(fc.array(width, { minLength: 5, maxLength: 5 }), (widths) => {
      const corners: Point[] = [
        [20, 0],
        [150, 30],
        [210, 180],
        [190, 400],
        [0, 390],
      ];
      const { whole } = openedPiece(
        { ...STRAIGHT, outline: corners.map((p, i) => [p, corners[(i + 1) % 5]!] as const) },
        { allowances: straightAllowances(widths) },
      );
      const lines = corners.map((a, i) => {
        const b = corners[(i + 1) % 5]!;
        const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
        const n: Point = [-(b[1] - a[1]) / l, (b[0] - a[0]) / l];
        return { n, c: n[0] * a[0] + n[1] * a[1] + widths[i]! };
      });
      const expected = lines.map((q, i): Point => {
        const p = lines.at(i - 1)!;
        const turn = p.n[0] * q.n[1] - p.n[1] * q.n[0];
        return [(p.c * q.n[1] - q.c * p.n[1]) / turn, (p.n[0] * q.c - q.n[0] * p.c) / turn];
      });
      expect(area(onGrid(flattenRing(whole.stitching)))).toBeCloseTo(area(onGrid(expected)), 0);
      // points nearer than 0.01 mm count as one, so a corner may lie that far along either line
      for (const p of expected)
        expect(
          Math.min(...whole.stitching.map((c) => Math.hypot(c[0][0] - p[0], c[0][1] - p[1]))),
        ).toBeLessThan(0.02);
    }),
    { numRuns: 200, seed: 10 },
  );
});

test('cutting lines of panels are the traced outline clipped where the new seams’ allowances end', () => {
  fc.assert(
    fc.property(front, (f) => {
      const { panels } = reportFor(f);
      const traced = onGrid(wholeOf(f));
      const big = 1000;
      const expected = [
        both(traced, box(-big, f.level - 15, big, big)),
        both(traced, box(f.upright - 15, -big, big, f.level + 15)),
        both(traced, box(-big, -big, f.upright + 15, f.level + 15)),
      ];
      expect(panels).toHaveLength(3);
      for (const { cutLine } of panels) {
        const ours = onGrid(cutLine.map(([x, y]): Point => [x - 300, y]));
        const off = expected.map((e) => area(Clipper.booleanOp(ClipType.Xor, ours, e, FillRule.EvenOdd)));
        // chords of both sides differ from the curves by their sagitta only: hundredths of a mm over a metre
        expect(Math.min(...off)).toBeLessThan(12);
      }
    }),
    { numRuns: 60, seed: 9 },
  );
});
