/**
 * The whole job, from SVG text to report.json, against JTS (jsts 2.12.1, a general-purpose geometry library from the registry):
 * panel areas against its Polygonizer, cutting lines against its mitre buffer, seams against each other. Cutting lines with squared
 * ends against the union of their parts by Clipper 2 (clipper2-ts 2.0.1).
 */
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Report, designFromTracings, readTracing, reportOf } from '../../src/files';
import { type Garment, deriveGarment } from '../../src/garment';
import type { Panel, PanelEdge } from '../../src/panels';
import { facesByJsts } from './jstsFaces';
import { type PartStyle, unionOfParts } from './partsOfOffset';
import type { Rings } from './referenceOffsets';

type Point = readonly [number, number];

/** How one drawing is placed and measured: a group transform and the mm of one inner unit under it. */
interface Setting {
  readonly transform: string;
  readonly size: string;
  readonly unit: number;
}

/** Values of units after CSS Values and Units (W3C): 1 in = 25.4 mm = 96 px = 72 pt. */
const SETTINGS: readonly Setting[] = [
  { transform: '', size: 'width="2000mm" height="2000mm" viewBox="0 0 2000 2000"', unit: 1 },
  {
    transform: 'translate(900 40) rotate(37)',
    size: 'width="2000mm" height="2000mm" viewBox="0 0 2000 2000"',
    unit: 1,
  },
  {
    transform: 'scale(2) translate(10 5)',
    size: 'width="20in" height="20in" viewBox="0 0 1000 1000"',
    unit: (20 * 25.4 * 2) / 1000,
  },
  { transform: 'matrix(0 1.5 -1.5 0 800 20)', size: 'width="2000" height="2000"', unit: (1.5 * 25.4) / 96 },
  {
    transform: 'scale(-1 1) translate(-700 0)',
    size: 'width="72cm" height="72cm" viewBox="0 0 1440 1440"',
    unit: 0.5,
  },
];

const polygon = (points: readonly Point[]): string => `M${points.map(([x, y]) => `${x} ${y}`).join('L')}Z`;

function reportFor(
  outline: readonly Point[],
  lines: readonly (readonly [Point, Point])[],
  setting: Setting,
): { report: Report; garment: Garment } {
  const drawn = lines
    .map(([a, b], i) => `<path id="panel_line_${i + 1}" d="M${a.join(' ')} ${b.join(' ')}"/>`)
    .join('');
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" ${setting.size}><g transform="${setting.transform}"><path class="Outline" d="${polygon(outline)}"/>${drawn}</g></svg>`;
  const read = readTracing(svg, 'drawing.svg');
  if (!read.ok) throw new Error(read.problems.map((p) => p.code).join());
  const garment = deriveGarment(designFromTracings([read.value]));
  const report = reportOf(garment, {
    layPlans: [],
    sheets: { paper: 'a4', pages: 0, columns: 0, rows: 0 },
    ignored: [],
    problems: [],
  });
  return { report, garment };
}

/** Flatter corners are none (20°). */
const FLAT = Math.PI / 9;

const lineOf = ({ origin }: PanelEdge): string | null => (origin.kind === 'seam' ? origin.line : null);

/**
 * How the allowances of a panel of straight edges end at its corners, by the steps of the plan: where a seam is sewn across another one,
 * the earlier is cut square; and so is every seam under the outline, whose edges are finished after it.
 */
function stylesOf({ boundary }: Panel, { plan }: Garment): PartStyle[] {
  return boundary.flatMap((after, k) => {
    const before = boundary.at(k - 1)!;
    const rest = after.path.slice(1).map((): PartStyle => 'mitre');
    const [p, v, q] = [before.path.at(-1)![0], after.path[0]![0], after.path[0]![1]];
    const [ux, uy, wx, wy] = [v[0] - p[0], v[1] - p[1], q[0] - v[0], q[1] - v[1]];
    const turn = Math.atan2(ux * wy - uy * wx, ux * wx + uy * wy);
    const isSeam = [before, after].map((e) => e.origin.kind === 'seam');
    if (turn < FLAT || !isSeam.some(Boolean)) return ['mitre', ...rest];
    if (!isSeam.every(Boolean)) return [isSeam[0] ? 'before' : 'after', ...rest];
    if (lineOf(before) === lineOf(after)) return ['mitre', ...rest];
    const [one, other] = [before, after].map(
      (e) => e.origin.kind === 'seam' && plan.stepOfSeam.get(e.origin.seam),
    );
    return [one! < other! ? 'before' : 'after', ...rest];
  });
}

const areaOfRings = (rings: Rings): number =>
  Math.abs(
    rings.reduce(
      (sum, r) =>
        sum +
        r.reduce((s, [x, y], i) => s + x * r[(i + 1) % r.length]![1] - y * r[(i + 1) % r.length]![0], 0),
      0,
    ),
  ) / 2;

const fraction = fc.double({ min: 0, max: 1, noNaN: true });
const star = fc
  .array(fc.double({ min: 90, max: 280, noNaN: true }), { minLength: 4, maxLength: 12 })
  .map((radii) =>
    radii.map((r, i): Point => {
      const turn = (2 * Math.PI * i) / radii.length;
      return [300 + r * Math.cos(turn), 300 + r * Math.sin(turn)];
    }),
  );
/** Lines that reach beyond the outline on both sides: no loose ends. */
const chord = fc.tuple(fraction, fraction).map(([turn, shift]): readonly [Point, Point] => {
  const [c, s] = [Math.cos(turn * Math.PI), Math.sin(turn * Math.PI)];
  const d = (shift - 0.5) * 300;
  const [x, y] = [300 - s * d, 300 + c * d];
  return [
    [x - c * 600, y - s * 600],
    [x + c * 600, y + s * 600],
  ];
});

const factory = new GeometryFactory();
const MITRE_4 = new BufferParameters(8, BufferParameters.CAP_ROUND, BufferParameters.JOIN_MITRE, 4);

function bufferArea(points: readonly (readonly number[])[], width: number): number {
  const corners = [...points, points[0]!].map(([x, y]) => new Coordinate(x, y));
  return BufferOp.bufferOp(factory.createPolygon(corners), width, MITRE_4).getArea();
}

/** Whether every corner is blunter than the mitre limit of 4 cuts off (about 29°): there libraries differ in how they cut. */
function isBlunt(points: readonly (readonly number[])[]): boolean {
  return points.every((p, i) => {
    const [a, b] = [points.at(i - 1)!, points[(i + 1) % points.length]!];
    const [ux, uy, vx, vy] = [a[0]! - p[0]!, a[1]! - p[1]!, b[0]! - p[0]!, b[1]! - p[1]!];
    return Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)) > 0.52;
  });
}

/** Hold each cutting line against the reference for it. */
function checkCutting(
  report: Report,
  garment: Garment,
): { mitred: number; squared: number; crowded: number } {
  const tried = { mitred: 0, squared: 0, crowded: 0 };
  report.panels.forEach((p, i) => {
    const panel = garment.panels[i]!;
    if (!isBlunt(p.stitchLine) || panel.holes.length > 0) return;
    const styles = stylesOf(panel, garment);
    if (styles.every((style) => style === 'mitre')) {
      expect(Math.abs(bufferArea(p.stitchLine, 15) / p.cutArea - 1)).toBeLessThan(1e-4);
      tried.mitred += 1;
      return;
    }
    const parts = areaOfRings(
      unionOfParts(
        panel.ring.map((c) => c[0]),
        15,
        styles,
        4,
      ),
    );
    // on edges shorter than two allowances a square end may meet what is beyond them: then nothing may be lost
    const isRoomy = panel.ring.every(([a, b]) => Math.hypot(b[0] - a[0], b[1] - a[1]) > 30);
    if (isRoomy) expect(Math.abs(parts / p.cutArea - 1)).toBeLessThan(1e-4);
    else expect(p.cutArea / parts).toBeGreaterThan(1 - 1e-4);
    tried[isRoomy ? 'squared' : 'crowded'] += 1;
  });
  return tried;
}

test('panels, seams and cutting lines of random tracings agree with the reference library', () => {
  const tried = { tracings: 0, panels: 0, mitred: 0, squared: 0, crowded: 0 };
  fc.assert(
    fc.property(
      star,
      fc.array(chord, { minLength: 1, maxLength: 5 }),
      fc.constantFrom(...SETTINGS),
      (outline, lines, setting) => {
        const { report, garment } = reportFor(outline, lines, setting);
        const reference = facesByJsts([...outline, outline[0]!], lines);
        if (!reference) return;
        const square = setting.unit ** 2;
        const areas = (list: readonly { area: number }[], by: number): number[] =>
          list.map((f) => f.area * by).sort((a, b) => a - b);
        const ours = areas(report.panels, 1).filter((a) => a > 1);
        const theirs = areas(reference.faces, square).filter((a) => a > 1);
        expect(ours).toHaveLength(theirs.length);
        // 1e-4 of the panel, and for slivers what a line may move when points closer than 0.01 mm become one.
        ours.forEach((a, i) => expect(Math.abs(a - theirs[i]!)).toBeLessThan(1e-4 * a + 0.5));
        for (const s of report.seams) expect(Math.abs(s.lengthA - s.lengthB)).toBeLessThan(0.2);
        const found = checkCutting(report, garment);
        for (const kind of ['mitred', 'squared', 'crowded'] as const) tried[kind] += found[kind];
        tried.tracings += 1;
        tried.panels += report.panels.length;
      },
    ),
    { seed: 77, numRuns: 500 },
  );
  console.log(
    `whole job against jsts: ${tried.tracings} tracings, ${tried.panels} panels, ${tried.mitred} mitred cutting lines, ${tried.squared} with squared ends, ${tried.crowded} small ones`,
  );
  expect(tried.tracings).toBeGreaterThan(450);
  expect(tried.mitred).toBeGreaterThan(100);
  expect(tried.mitred + tried.squared).toBeGreaterThan(500);
});

test('cutting lines of random tracings with crossing seams agree with the union of their parts', () => {
  const sum = { mitred: 0, squared: 0, crowded: 0 };
  const whole = (min: number, max: number) =>
    fc.integer({ min: min * 100, max: max * 100 }).map((v) => v / 100);
  const round = fc.array(whole(300, 400), { minLength: 9, maxLength: 12 }).map((radii) =>
    radii.map((r, i): Point => {
      const turn = (2 * Math.PI * i) / radii.length;
      return [500 + r * Math.cos(turn), 500 + r * Math.sin(turn)];
    }),
  );
  const across = fc.tuple(whole(0, 180), whole(-160, 160)).map(([angle, away]): readonly [Point, Point] => {
    const [c, s] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
    const [x, y] = [500 - s * away, 500 + c * away];
    return [
      [x - c * 600, y - s * 600],
      [x + c * 600, y + s * 600],
    ];
  });
  fc.assert(
    fc.property(round, fc.array(across, { minLength: 2, maxLength: 4 }), (outline, lines) => {
      const { report, garment } = reportFor(outline, lines, SETTINGS[0]!);
      const found = checkCutting(report, garment);
      for (const kind of ['mitred', 'squared', 'crowded'] as const) sum[kind] += found[kind];
    }),
    { seed: 78, numRuns: 250 },
  );
  console.log(
    `crossing seams: ${sum.mitred} mitred panels, ${sum.squared} with squared ends, ${sum.crowded} small ones`,
  );
  expect(sum.squared).toBeGreaterThan(500);
});

test('a ring of arcs has the areas of its circles (πr², exact)', () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400">' +
    '<path id="outline" d="M50 200A150 150 0 0 1 350 200A150 150 0 0 1 50 200Z"/>' +
    '<path id="panel line" d="M150 200A50 50 0 1 1 250 200A50 50 0 1 1 150 200Z"/><path id="panel line 2" d="M50 200H150"/><path id="panel line 3" d="M250 200H350"/></svg>';
  const read = readTracing(svg, 'ring.svg');
  if (!read.ok) throw new Error('it should read');
  const report = reportOf(deriveGarment(designFromTracings([read.value])), {
    layPlans: [],
    sheets: { paper: 'a4', pages: 0, columns: 0, rows: 0 },
    ignored: [],
    problems: [],
  });
  const shoelace = (p: readonly (readonly [number, number])[]): number =>
    p.reduce((sum, [x, y], i) => sum + x * p[(i + 1) % p.length]![1] - p[(i + 1) % p.length]![0] * y, 0) / 2;
  const disc = Math.PI * 50 ** 2;
  const half = (Math.PI * 150 ** 2 - disc) / 2;
  const expected = [disc, half, half];
  const found = report.panels.toSorted((a, b) => a.area - b.area);
  found.forEach((p, i) => {
    expect(Math.abs(p.area / expected[i]! - 1)).toBeLessThan(1e-4);
    expect(Math.abs(shoelace(p.stitchLine) / expected[i]! - 1)).toBeLessThan(1e-4);
  });
  // Steiner: a disc moved outwards by 15 is a disc of r + 15.
  expect(Math.abs(found[0]!.cutArea / (Math.PI * 65 ** 2) - 1)).toBeLessThan(1e-4);
});
