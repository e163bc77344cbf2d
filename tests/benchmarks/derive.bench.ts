import { readFileSync } from 'node:fs';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import UnionOp from 'jsts/org/locationtech/jts/operation/union/UnionOp.js';
import Polygonizer from 'jsts/org/locationtech/jts/operation/polygonize/Polygonizer.js';
import { designFromTracings, readTracing } from '../../src/files';
import { deriveGarment } from '../../src/garment';
import { type Path, flattenPath, flattenRing, transformPath } from '../../src/geometry';
import type { Design, PanelLine } from '../../src/pattern';
import { lined, rectangle } from '../making/designs';
import { median, sayTimes, timesOf } from './timing';

function demo(): Design {
  const bytes = readFileSync('demo-data/sheath.svg');
  const tracing = readTracing(bytes, 'sheath.svg');
  if (!tracing.ok) throw new Error('the demo cannot be read');
  return designFromTracings([tracing.value]);
}

const moved = (line: PanelLine, by: number): PanelLine => ({
  ...line,
  path: transformPath(line.path, [1, 0, 0, 1, 0, by]),
});

const withMoved = (design: Design, index: number, by: number): Design => ({
  ...design,
  lines: design.lines.map((l, i) => (i === index ? moved(l, by) : l)),
});

const factory = new GeometryFactory();
const coordinates = (points: readonly (readonly [number, number])[]): unknown[] =>
  points.map(([x, y]) => new Coordinate(x, y));

/** The same panels and mitred cutting lines by the reference library, from the same chords; no order, labels or notches. */
function byJsts(outline: Path, lines: readonly Path[], allowance: number): number {
  const ring = flattenRing(outline);
  let net = factory.createLineString(coordinates([...ring, ring[0]!]));
  for (const line of lines)
    net = UnionOp.union(net, factory.createLineString(coordinates(flattenPath(line).points)));
  const polygonizer = new Polygonizer();
  polygonizer.add(net);
  const mitre = new BufferParameters(8, BufferParameters.CAP_ROUND, BufferParameters.JOIN_MITRE, 4);
  const found = polygonizer.getPolygons();
  let area = 0;
  for (let i = 0; i < found.size(); i += 1)
    area += BufferOp.bufferOp(found.get(i), allowance, mitre).getArea();
  return area;
}

/** A place the line has not been at before, up to 2 mm either way: nothing of the moved panels is remembered. */
const newPlace = (run: number): number => ((run % 40) - 20) / 10 + run * 1e-5;

function demoFront(): void {
  const design = demo();
  const front = design.pieces[0]!;
  const index = design.lines.findIndex((l) => l.piece === front.id);
  deriveGarment(design);
  const ours = timesOf((run) => deriveGarment(withMoved(design, index, newPlace(run))), 400, 1000);
  const { pieces } = deriveGarment(design);
  const pieceByJsts = ({ whole, lines }: (typeof pieces)[number]): number =>
    byJsts(
      whole.stitching,
      lines.map((l) => l.path),
      design.allowances.newSeam,
    );
  const theirs = timesOf(() => pieceByJsts(pieces[0]!), 200, 200);
  const theirsWhole = timesOf(() => pieces.map(pieceByJsts), 200, 100);
  console.log(
    `demo, one line of the front moved: ${sayTimes(ours)}  (whole garment: panels, allowances, notches, order)`,
  );
  console.log(
    `jsts, panels and mitre buffers of the front only: ${sayTimes(theirs)}; ratio ${(median(theirs) / median(ours)).toFixed(1)}`,
  );
  console.log(
    `jsts, the same of the whole garment: ${sayTimes(theirsWhole)}; ratio ${(median(theirsWhole) / median(ours)).toFixed(1)}`,
  );
}

/** A comb of n curved teeth on a piece that grows with n, one tooth moved. */
function comb(n: number): Design {
  const width = n * 20 + 20;
  const lines = Array.from({ length: n }, (_, i): Path => {
    const x = 20 + i * 20;
    return [
      [
        [x, -5],
        [x + 8, 100],
        [x - 8, 200],
        [x, 305],
      ],
    ];
  });
  return lined(rectangle(width, 300), lines);
}

function growth(): void {
  let before: { n: number; time: number } | null = null;
  for (const n of [25, 50, 100, 200]) {
    const design = comb(n);
    deriveGarment(design);
    const time = median(
      timesOf((run) => deriveGarment(withMoved(design, n >> 1, newPlace(run) / 4)), 40, 10),
    );
    const { whole, lines } = deriveGarment(design).pieces[0]!;
    const theirs = median(
      timesOf(
        () =>
          byJsts(
            whole.stitching,
            lines.map((l) => l.path),
            15,
          ),
        5,
        2,
      ),
    );
    const factor = before ? `, ×${(time / before.time).toFixed(2)} for ×${n / before.n} lines` : '';
    console.log(
      `comb of ${n} curved lines: ${time.toFixed(2)} ms${factor}; jsts ${theirs.toFixed(1)} ms, ratio ${(theirs / time).toFixed(1)}`,
    );
    before = { n, time };
  }
}

/** Re-deriving panels, cutting lines, notches and sewing order after one line moved, against a reference library. */
export default function derive(): void {
  demoFront();
  growth();
}
