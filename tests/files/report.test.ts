import { beforeAll, expect, test } from 'vitest';
import { signedAreaOfPoints, type Pt } from '../../src/geometry';
import { layJobs, planLay } from '../../src/fabric';
import {
  designFromTracings,
  piecesSvg,
  readTracing,
  reportOf,
  reportText,
  saveDesign,
  type Report,
} from '../../src/files';
import { deriveGarment, type Garment } from '../../src/garment';
import type { Design } from '../../src/pattern';
import { read, svg } from './drawing';

/** A half front 120 × 300 on the fold with a dart, a level, a symmetric line, a once line and one colour. */
const HALF = svg(
  `<g id="piece-front" transform="translate(150 20)"><path data-role="outline" d="M0 0H120V300H0Z"/><path id="fold" d="M0 0V300"/>
  <path id="dart" d="M120 180L60 190L120 200"/><path id="panel-line" d="M0 100H120"/><path id="panel-line-once" d="M-30 100V300"/>
  <path id="notch" d="M120 250h-5"/><path id="edge-hem" d="M0 300H120"/>
  <rect id="colour" x="10" y="10" width="20" height="20" fill="#C0392B"/><rect id="colour" x="50" y="240" width="20" height="20" fill="teal"/></g>
  <g id="piece-sleeve"><path data-role="outline" d="M0 0H100V100H0Z"/></g>`,
  'width="400mm" height="400mm" viewBox="0 0 400 400"',
);

let garment: Garment;
let report: Report;

const reportFor = (design: Design): Report => {
  const derived = deriveGarment(design);
  const layPlans = layJobs(derived, { seconds: 0 }).map((job) => planLay(job));
  return reportOf(derived, {
    layPlans,
    sheets: { paper: 'a4', pages: 9, columns: 3, rows: 2 },
    ignored: ['logo'],
    problems: [],
  });
};

beforeAll(() => {
  const design = designFromTracings([read(HALF)]);
  garment = deriveGarment(design);
  report = reportFor(design);
});

test('the report has the fields of the contract and no others', () => {
  expect(Object.keys(report)).toEqual([
    'units',
    'pieces',
    'panels',
    'seams',
    'darts',
    'neighbours',
    'steps',
    'trims',
    'fabrics',
    'sheets',
    'ignored',
    'problems',
  ]);
  const keys = (list: readonly object[]): string[] => [
    ...new Set(list.flatMap((entry) => Object.keys(entry))),
  ];
  expect(keys(report.pieces)).toEqual(['name', 'area', 'unfolded', 'outline', 'edges']);
  expect(keys(report.panels)).toEqual([
    'number',
    'piece',
    'colour',
    'area',
    'stitchLine',
    'cutLine',
    'cutArea',
    'cut',
    'grainAngle',
    'notches',
  ]);
  expect(keys(report.seams)).toEqual(['id', 'line', 'a', 'b', 'lengthA', 'lengthB', 'ease', 'step']);
  expect(keys(report.darts)).toEqual(['piece', 'point', 'angle', 'intake', 'treatment', 'residual']);
  expect(keys(report.steps)).toEqual(['step', 'kind', 'joins', 'text']);
  expect(keys(report.fabrics)).toEqual(['colour', 'width', 'length', 'buy', 'density', 'seconds', 'placed']);
  expect(keys(report.fabrics[0]!.placed)).toEqual(['panel', 'copy', 'x', 'y', 'rotation', 'flipped']);
  expect(keys(report.problems)).toEqual(['code', 'severity', 'message', 'piece', 'at']);
});

test('a half piece is reported whole, in its traced coordinates, without its dart wedges', () => {
  const [front] = report.pieces;
  expect(front).toMatchObject({ name: 'front', unfolded: true });
  // 240 × 300 less two triangles 20 wide and 60 deep
  expect(front!.area).toBeCloseTo(240 * 300 - 1200, 6);
  expect(Math.abs(signedAreaOfPoints(front!.outline))).toBeCloseTo(72_000, 6);
  const xs = front!.outline.map(([x]) => x);
  expect([Math.min(...xs), Math.max(...xs)]).toEqual([30, 270]);
  expect(front!.edges.find((e) => e.name === 'hem')).toEqual({ name: 'hem', length: 240 });
});

test('panels are numbered from 1, carry their fill, and their areas add up to the piece', () => {
  expect(report.panels.map((p) => p.number)).toEqual([1, 2, 3, 4]);
  for (const { name, area } of report.pieces) {
    const sum = report.panels.filter((p) => p.piece === name).reduce((total, p) => total + p.area, 0);
    expect(sum).toBeCloseTo(area, 4);
  }
  for (const { area, stitchLine, cutArea, cutLine } of report.panels) {
    expect(Math.abs(signedAreaOfPoints(stitchLine))).toBeCloseTo(area, 3);
    expect(Math.abs(signedAreaOfPoints(cutLine))).toBeCloseTo(cutArea, 3);
    expect(cutArea).toBeGreaterThan(area);
  }
  expect(
    report.panels
      .filter((p) => p.piece === 'front')
      .map((p) => p.colour)
      .sort(),
  ).toEqual(['#008080', '#008080', '#c0392b']);
});

test('panels of a pair are cut twice, the second mirrored; others once', () => {
  const once = { count: 1, mirrored: false, onFold: false };
  const cuts = (name: string) => report.panels.filter((p) => p.piece === name).map((p) => p.cut);
  expect(cuts('front')).toEqual([once, once, once]);
  expect(cuts('sleeve')).toEqual([{ count: 2, mirrored: true, onFold: false }]);
});

test('every seam names its two panels, its equal lengths and its step', () => {
  // the line across is met by the one below it, so it is two seams
  expect(report.seams).toHaveLength(3);
  const steps = new Set(report.steps.map((s) => s.step));
  for (const { a, b, lengthA, lengthB, ease, step } of report.seams) {
    expect(a).not.toBe(b);
    expect(lengthA).toBeCloseTo(lengthB, 6);
    expect(ease).toBeCloseTo(0, 6);
    expect(steps.has(step!)).toBe(true);
  }
  expect(report.seams.map((s) => s.lengthA).sort((p, q) => p - q)).toEqual([90, 150, 200]);
});

test('darts are told with angle and intake, kept, all of the angle remaining', () => {
  const angle = (2 * Math.atan(10 / 60) * 180) / Math.PI;
  expect(report.darts).toHaveLength(2);
  for (const dart of report.darts) {
    expect(dart).toMatchObject({ piece: 'front', treatment: 'keep', intake: 20, residual: dart.angle });
    expect(dart.angle).toBeCloseTo(angle, 5);
  }
  expect(report.darts.map((d) => d.point[0]).sort((p, q) => p - q)).toEqual([90, 210]);
});

test('stitch line and stitch holes together hold the stitching area, darts and insets left out', () => {
  const text = svg(
    '<rect id="outline" width="200" height="300"/><polygon id="dart" points="50 60 60 140 50 220 40 140"/><path id="dart-2" d="M140 0L150 90L160 0"/><path id="panel-line" d="M100 0V300"/>',
  );
  const { panels } = reportFor(designFromTracings([read(text)]));
  expect(panels).toHaveLength(2);
  for (const { stitchLine, stitchHoles = [], area } of panels) {
    const inside = [stitchLine, ...stitchHoles].reduce(
      (sum, ring) => sum + signedAreaOfPoints(ring as Pt[]),
      0,
    );
    expect(inside).toBeCloseTo(area, 3);
  }
});

test('a double-pointed dart is told by the angle at its point and its greatest width', () => {
  const text = svg(
    '<rect id="outline" width="100" height="200"/><polygon id="dart" points="50 20 60 100 50 180 40 100"/>',
  );
  const { darts } = reportFor(designFromTracings([read(text)]));
  expect(darts).toEqual([
    {
      piece: 'front',
      point: [50, 20],
      angle: expect.closeTo(14.250033, 5),
      intake: 20,
      treatment: 'keep',
      residual: expect.closeTo(14.250033, 5),
    },
  ]);
});

test('every panel is placed on its own cloth as often as it is cut, inside the width, by the contract’s placing', () => {
  const byNumber = (a: number, b: number): number => a - b;
  const placed = report.fabrics.flatMap((f) => f.placed.map((p) => p.panel));
  expect(placed.sort(byNumber)).toEqual(
    report.panels.flatMap((p) => Array.from({ length: p.cut.count }, () => p.number)).sort(byNumber),
  );
  for (const fabric of report.fabrics) {
    for (const { panel, x, y, rotation, flipped } of fabric.placed) {
      const { cutLine, colour } = report.panels.find((p) => p.number === panel)!;
      expect(colour).toBe(fabric.colour);
      const [c, s] = [Math.cos((rotation * Math.PI) / 180), Math.sin((rotation * Math.PI) / 180)];
      for (const [px, py] of cutLine) {
        const mx = flipped ? -px : px;
        const [qx, qy] = [c * mx - s * py + x, s * mx + c * py + y];
        expect(qx > -1e-3 && qx < fabric.length + 1e-3 && qy > -1e-3 && qy < fabric.width + 1e-3).toBe(true);
      }
    }
  }
});

test('an inset adds the holes it leaves, and only then', () => {
  const text = svg(
    '<rect id="outline" width="200" height="200"/><circle id="panel-line" cx="100" cy="100" r="40"/>',
  );
  const { panels } = reportFor(designFromTracings([read(text)]));
  const ring = panels.find((p) => p.stitchHoles)!;
  expect(Math.abs(signedAreaOfPoints(ring.stitchHoles![0]! as Pt[]))).toBeCloseTo(Math.PI * 1600, -1);
  expect(ring.cutHoles).toHaveLength(1);
  expect(panels.filter((p) => p.stitchHoles)).toHaveLength(1);
});

test('problems carry code, severity and a sentence in mm; problems from reading come first', () => {
  const outcome = readTracing(
    svg(
      '<rect id="outline" width="100" height="100"/><path id="doodle" d="M0 0H9"/><path id="panel-line" d="M50 0V30"/>',
    ),
    'front.svg',
  );
  if (!outcome.ok) throw new Error('refused');
  const derived = deriveGarment(designFromTracings([outcome.value]));
  const sources = {
    layPlans: [],
    sheets: { paper: 'a4', pages: 1, columns: 1, rows: 1 },
    ignored: outcome.value.ignored,
    problems: outcome.problems,
  };
  const { problems, ignored } = reportOf(derived, sources);
  expect(ignored).toEqual(['doodle']);
  expect(problems[0]).toMatchObject({
    code: 'left-out',
    severity: 'hint',
    message: 'Not understood and left out: doodle.',
  });
  const open = problems.find((p) => p.code === 'line-ends-in-the-open')!;
  expect(open).toMatchObject({ severity: 'error', piece: 'front', at: [50, 30] });
  expect(open.message).toContain('70 mm');
});

test('the same garment gives the same report, byte for byte, and it is JSON', () => {
  const again = reportFor(designFromTracings([read(HALF)]));
  expect(reportText(again)).toBe(reportText(report));
  expect(JSON.parse(reportText(report))).toEqual(report);
});

test('two cloths of the same fill are told apart by name', () => {
  const design = designFromTracings([read(HALF)]);
  const twins: Design = {
    ...design,
    colours: design.colours.map((c, i) => ({ ...c, fill: '#336699', name: `cloth ${i}` })),
  };
  expect(twins.colours.length).toBeGreaterThan(1);
  expect(new Set(reportFor(twins).fabrics.map((f) => f.colour))).toEqual(
    new Set(twins.colours.map((c) => `#336699 ${c.name}`)),
  );
});

test('the pieces as SVG are sized in mm and named by panel, curves staying curves', () => {
  const curved = svg(
    '<circle id="outline" cx="100" cy="100" r="80"/><path id="panel-line" d="M100 20V180"/>',
  );
  const text = piecesSvg(deriveGarment(designFromTracings([read(curved)])));
  expect(text).toMatch(/<svg [^>]*width="[\d.]+mm" height="[\d.]+mm" viewBox="0 0 [\d.]+ [\d.]+"/);
  expect(text.match(/<g id="panel-\d+"/g)).toEqual(['<g id="panel-1"', '<g id="panel-2"']);
  const cutting = /class="cutting-line" d="([^"]*)"/.exec(text)![1]!;
  expect(cutting.match(/C/g)!.length).toBeLessThan(40);
});

test('the pieces as SVG read back with the same cutting area and do not overlap', () => {
  const text = piecesSvg(garment);
  const groups = [
    ...text.matchAll(
      /<g id="panel-(\d+)" transform="translate\(([-\d.]+) ([-\d.]+)\)">[\s\S]*?class="cutting-line" d="([^"]*)"/g,
    ),
  ];
  const boxes = groups.map(([, number, dx, dy, d]) => {
    const outcome = readTracing(
      svg(`<path id="outline" transform="translate(${dx} ${dy})" d="${d}"/>`),
      'x.svg',
    );
    if (!outcome.ok) throw new Error('refused');
    const points = outcome.value.pieces[0]!.outline.map((c) => c[0]);
    expect(Math.abs(signedAreaOfPoints(points))).toBeCloseTo(
      report.panels.find((p) => p.number === Number(number))!.cutArea,
      0,
    );
    return [Math.min(...points.map((p) => p[0])), Math.max(...points.map((p) => p[0]))] as const;
  });
  const sorted = boxes.toSorted((a, b) => a[0] - b[0]);
  sorted.slice(1).forEach(([start], i) => expect(start).toBeGreaterThanOrEqual(sorted[i]![1] + 19.99));
});

test('names are escaped in the pieces’ SVG', () => {
  const design = designFromTracings([read(HALF)]);
  const evil: Design = {
    ...design,
    name: '<script>&"',
    pieces: design.pieces.map((p) => ({ ...p, name: '</text><script>alert(1)</script>' })),
  };
  const text = piecesSvg(deriveGarment(evil));
  expect(text).not.toContain('<script>');
  expect(text).toContain('&lt;script&gt;&amp;&quot;');
});

test('saving keeps what the report was made from', () => {
  const design = designFromTracings([read(HALF)]);
  expect(reportText(reportFor(JSON.parse(saveDesign(design)) as Design))).toBe(reportText(report));
});
