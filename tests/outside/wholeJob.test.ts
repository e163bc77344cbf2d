/**
 * The whole job, from SVG text to report.json, against JTS (jsts 2.12.1, a general-purpose geometry library from the registry):
 * panel areas against its Polygonizer, cutting lines against its mitre buffer, seams against each other.
 */
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Report, designFromTracings, readTracing, reportOf } from '../../src/files';
import { deriveGarment } from '../../src/garment';
import { facesByJsts } from './jstsFaces';

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
): Report {
  const drawn = lines
    .map(([a, b], i) => `<path id="panel_line_${i + 1}" d="M${a.join(' ')} ${b.join(' ')}"/>`)
    .join('');
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" ${setting.size}><g transform="${setting.transform}"><path class="Outline" d="${polygon(outline)}"/>${drawn}</g></svg>`;
  const read = readTracing(svg, 'drawing.svg');
  if (!read.ok) throw new Error(read.problems.map((p) => p.code).join());
  const garment = deriveGarment(designFromTracings([read.value]));
  return reportOf(garment, {
    layPlans: [],
    sheets: { paper: 'a4', pages: 0, columns: 0, rows: 0 },
    ignored: [],
    problems: [],
  });
}

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

test('panels, seams and cutting lines of random tracings agree with the reference library', () => {
  const tried = { tracings: 0, panels: 0, buffers: 0 };
  fc.assert(
    fc.property(
      star,
      fc.array(chord, { minLength: 1, maxLength: 5 }),
      fc.constantFrom(...SETTINGS),
      (outline, lines, setting) => {
        const report = reportFor(outline, lines, setting);
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
        for (const p of report.panels) {
          if (!isBlunt(p.stitchLine)) continue;
          expect(Math.abs(bufferArea(p.stitchLine, 15) / p.cutArea - 1)).toBeLessThan(1e-4);
          tried.buffers += 1;
        }
        tried.tracings += 1;
        tried.panels += report.panels.length;
      },
    ),
    { seed: 77, numRuns: 500 },
  );
  console.log(
    `whole job against jsts: ${tried.tracings} tracings, ${tried.panels} panels, ${tried.buffers} cutting lines`,
  );
  expect(tried.tracings).toBeGreaterThan(450);
  expect(tried.buffers).toBeGreaterThan(500);
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
