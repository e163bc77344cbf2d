import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkGarment, deriveGarment, howToCut } from '../../src/garment';
import { type Pt, nearestOnPath } from '../../src/geometry';
import { layJobs } from '../../src/fabric';
import type { Closing, ClosingId, ColourId, Design, Facing, PieceId } from '../../src/pattern';
import { colour, design, panelLine, piece, rectangle } from '../making/designs';
import { zipOnFold } from '../../src/workbench/store/closingEdits';
import { bodice, line, sleeve } from '../neighbours/garments';

const LINING = 'silk' as ColourId;
const colours = [colour('chalk', '#e8e4d8'), colour('silk', '#99aabb')];
const id = (name: string): PieceId => name as PieceId;

const garmentWith = (over: Partial<Design> = {}): Design =>
  design(
    [
      bodice('front', { dart: { from: 60, intake: 24 } }),
      bodice('back', { width: 230, side: 404, at: [900, 0] }, { onFold: false }),
      sleeve([2000, 200]),
    ],
    [
      line('line-1', 'front', [
        [0, 300],
        [300, 300],
      ]),
    ],
    { colours, ...over },
  );
const lined = (shorter: number, pieces = ['front', 'back', 'sleeve']): Design =>
  garmentWith({ lining: { pieces: pieces.map(id), colour: LINING, shorter } });

const zipAt = (on: string, edge: string): Closing => ({
  id: 'zip-1' as ClosingId,
  kind: 'hidden',
  on: { kind: 'edge', piece: on as PieceId, edge, nth: 0 },
  length: null,
  allowance: null,
  slot: 0,
});

test('a design without lining and facings has none, and keeps its garment as it was', () => {
  expect(deriveGarment(garmentWith()).extras).toBeNull();
  const none = garmentWith({ lining: { pieces: [], colour: LINING, shorter: 20 } });
  expect(deriveGarment(none).extras).toBeNull();
});

test('a lining is as large as its unsliced piece less the strip taken off at the hem', () => {
  const plain = deriveGarment(garmentWith());
  const garment = deriveGarment(lined(25));
  const { extras } = garment;
  expect(extras!.pieces.map((p) => p.whole.name)).toEqual(['front lining', 'back lining', 'sleeve lining']);
  for (const { whole } of plain.pieces) {
    const own = extras!.pieceById.get(id(`${whole.name} lining`))!.whole;
    // the hems are straight and level: the strip is the trapezium under the new hem
    const hem = whole.edges.findIndex((e) => e.plainName === 'hem');
    const widthAt = (w: typeof whole): number => w.edges.find((e) => e.plainName === 'hem')!.length;
    const strip = ((widthAt(whole) + widthAt(own)) / 2) * 25;
    expect(hem).toBeGreaterThanOrEqual(0);
    expect(Math.abs(own.area - (whole.area - strip))).toBeLessThan(strip * 0.005);
    expect(own.darts.length).toBe(whole.darts.length);
    expect(own.foldLine === null).toBe(whole.foldLine === null);
    expect(own.piece.cutting).toBe(whole.piece.cutting);
  }
  expect(checkGarment(garment)).toEqual([]);
});

test('lining panels are in their cloth and numbered after all others, and cut as their pieces are', () => {
  const garment = deriveGarment(lined(25));
  const outer = garment.panels.length - garment.extras!.panels.length;
  expect(outer).toBe(deriveGarment(garmentWith()).panels.length);
  expect(garment.panels.map((p) => garment.plan.numbers.get(p.id))).toEqual(
    garment.panels.map((_, i) => i + 1),
  );
  const extra = garment.panels.slice(outer);
  expect(extra.every((p) => p.colour === LINING)).toBe(true);
  const cuts = new Map(extra.map((p) => [p.piece as string, howToCut(garment, p).text]));
  expect(cuts.get('back lining')).toBe('Cut 2, one mirrored');
  expect(cuts.get('sleeve lining')).toBe('Cut 2, one mirrored');
  expect(cuts.get('front lining')).toBe('Cut 1, whole');
  const [silk] = layJobs(garment).filter((j) => j.colour === LINING);
  expect(silk!.pieces).toHaveLength(5);
  garment.cutPieces.forEach((cut, i) => expect(cut.cutArea).toBeGreaterThan(garment.panels[i]!.area));
});

test('lining is sewn to lining, and the garment’s own seams are as they were without it', () => {
  const plain = deriveGarment(garmentWith());
  const garment = deriveGarment(lined(25));
  expect(garment.neighbours.jobs.joins).toEqual(plain.neighbours.jobs.joins);
  expect(garment.plan.steps).toEqual(plain.plan.steps);
  const joins = garment.extras!.neighbours.seams.map((s) => `${s.a} ~ ${s.b}`);
  expect(joins).toContain('front lining/side seam ~ back lining/side seam');
  expect(joins.filter((j) => j.includes('sleeve cap'))).toHaveLength(
    plain.neighbours.seams.filter((s) => `${s.a}${s.b}`.includes('sleeve cap')).length,
  );
  const steps = garment.extras!.plan.steps;
  expect(steps.map((s) => s.step)).toEqual(steps.map((_, i) => i + 1));
  expect(steps.map((s) => s.kind)).toContain('dart');
  expect(steps.map((s) => s.kind)).not.toContain('edge');
});

test('moving a panel line leaves the lining the very same', () => {
  const one = lined(25);
  const two: Design = {
    ...one,
    lines: one.lines.map((l) => ({
      ...l,
      path: [
        [
          [0, 310],
          [300, 310],
        ],
      ] as const,
    })),
  };
  expect(deriveGarment(two).extras).toBe(deriveGarment(one).extras);
});

test('only some pieces can be lined, and a hem taken up too far is told', () => {
  const some = deriveGarment(lined(25, ['front']));
  expect(some.extras!.pieces.map((p) => p.whole.name)).toEqual(['front lining']);
  expect(some.extras!.neighbours.jobs.joins).toEqual([]);
  const gone = deriveGarment(lined(5000, ['front']));
  expect(gone.problems.filter((p) => p.code === 'lining-hem-too-high')).toHaveLength(1);
});

test('on a cut tracing the lining gets the allowance that the tracing includes', () => {
  const cut = (d: Design): Design => ({
    ...d,
    allowances: { ...d.allowances, tracing: { kind: 'cut', included: 12 }, hem: 30 },
  });
  const garment = deriveGarment(cut(lined(20, ['back'])));
  const outer = deriveGarment(cut(garmentWith()));
  const whole = outer.pieceById.get(id('back'))!.whole;
  const own = garment.extras!.pieces[0]!.whole;
  expect(own.area).toBeLessThan(whole.area);
  expect(own.area).toBeGreaterThan(whole.area - 20 * 260);
  expect(checkGarment(garment)).toEqual([]);
  // shoulders are where they were: the cut line of the lining lies on the tracing there
  const [lining] = garment.extras!.cutPieces;
  const shoulder = whole.edges.findIndex((e) => e.plainName === 'shoulder');
  const traced = whole.outline.find((_, i) => whole.edgeOf[i] === shoulder)!;
  const middle: Pt = [(traced[0][0] + traced.at(-1)![0]) / 2, (traced[0][1] + traced.at(-1)![1]) / 2];
  expect(nearestOnPath(lining!.cutting, middle).distance).toBeLessThan(0.1);
});

const facing = (on: string, edge: string, depth: number): Facing => ({
  piece: id(on),
  edge,
  depth,
  colour: LINING,
  interfacing: null,
});

test('a neckline facing lies on the fold, an armhole’s is cut as a pair, and both have their depth all along', () => {
  const doc = garmentWith({
    facings: [
      facing('front', 'neckline', 60),
      facing('front', 'armhole', 50),
      facing('back', 'neckline', 60),
    ],
  });
  const garment = deriveGarment(doc);
  expect(checkGarment(garment)).toEqual([]);
  const names = garment.extras!.pieces.map(({ whole }) => whole.name);
  expect(names).toEqual(['front neckline facing', 'front armhole facing', 'back neckline facing']);
  const [neck, arm, back] = garment.extras!.pieces.map((p) => p.whole);
  expect([neck!.unfolded, arm!.unfolded, back!.unfolded]).toEqual([true, false, false]);
  expect([neck!, arm!, back!].map((w) => w.piece.cutting)).toEqual(['once', 'pair', 'pair']);
  // the neckline's facings are sewn to each other where the garment is; the armhole's has none to go on in
  expect(garment.extras!.plan.steps.map((s) => s.key)).toEqual([
    'join back neckline facing/centre back back neckline facing/centre back',
    'join front neckline facing/shoulder back neckline facing/shoulder',
  ]);
  const zipped = deriveGarment({ ...doc, closings: [zipAt('back', 'centre back')] });
  expect(zipped.extras!.plan.steps.map((s) => s.key)).toEqual([
    'join front neckline facing/shoulder back neckline facing/shoulder',
  ]);
  for (const [whole, edge, depth] of [
    [neck!, 'neckline', 60],
    [arm!, 'armhole', 50],
    [back!, 'neckline', 60],
  ] as const) {
    const path = (name: string) =>
      whole.stitching.filter((_, i) => whole.edges[whole.edgeOf[i]!]!.plainName === name);
    const outer = path(edge);
    expect(outer.length).toBeGreaterThan(0);
    for (const curve of path('inner edge')) {
      const away = nearestOnPath(outer, curve[0]).distance;
      expect(away).toBeGreaterThan(depth - 0.1);
    }
  }
  const cuts = garment.extras!.panels.map((p) => howToCut(garment, p).text);
  expect(cuts[0]).toBe('Cut 1 on the fold');
});

test('a facing along a straight edge is as long as it and as wide as it is deep', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 20, max: 90, noNaN: true }),
      fc.double({ min: 200, max: 400, noNaN: true }),
      (depth, height) => {
        const doc = design(
          [
            piece(rectangle(300, height), {
              name: 'front',
              edgeNames: [{ name: 'top', path: [rectangle(300, height)[0]!] }],
            }),
          ],
          [],
          {
            colours,
            facings: [facing('front', 'top', depth)],
          },
        );
        const [own] = deriveGarment(doc).extras!.pieces;
        expect(own!.whole.area).toBeCloseTo(300 * depth, 3);
      },
    ),
    { numRuns: 60, seed: 5 },
  );
});

test('darts in reach of a facing are shut in it', () => {
  const doc = design(
    [
      piece(rectangle(300, 400), {
        name: 'back',
        darts: [
          {
            kind: 'single',
            mouth: [
              [140, 0],
              [160, 0],
            ],
            point: [150, 150],
            legs: null,
            treatment: { kind: 'keep' },
          },
        ],
        edgeNames: [{ name: 'top', path: [rectangle(300, 400)[0]!] }],
      }),
    ],
    [
      panelLine(
        [
          [0, 300],
          [300, 300],
        ],
        0,
        { piece: id('back') },
      ),
    ],
    { colours, facings: [facing('back', 'top', 50)] },
  );
  const garment = deriveGarment(doc);
  const [own] = garment.extras!.pieces;
  expect(own!.whole.darts).toEqual([]);
  // the wedge's part within the strip is gone: 20 wide at the mouth, two thirds of that 50 lower
  const wedge = ((20 + (20 * 100) / 150) / 2) * 50;
  expect(Math.abs(own!.whole.area - (300 * 50 - wedge))).toBeLessThan(2);
  const width = own!.whole.edges.find((e) => e.plainName === 'top')!.length;
  expect(width).toBeCloseTo(280, 0);
  expect(checkGarment(garment)).toEqual([]);
});

test('a facing that does not fit is told and left out', () => {
  const doc = garmentWith({ facings: [facing('front', 'neckline', 900), facing('front', 'collar', 50)] });
  const garment = deriveGarment(doc);
  expect(garment.problems.filter((p) => p.code === 'facing-does-not-fit')).toHaveLength(2);
});

test('where a zip is at the fold, lining and facing are cut as a pair with a seam there', () => {
  const doc = zipOnFold(id('front'))(
    garmentWith({
      lining: { pieces: ['front', 'back'].map(id), colour: LINING, shorter: 20 },
      facings: [facing('front', 'neckline', 60), facing('front', 'armhole', 50)],
    }),
  );
  const garment = deriveGarment(doc);
  expect(checkGarment(garment)).toEqual([]);
  const of = (name: string) => garment.extras!.pieceById.get(id(name))!.whole;
  expect(of('front lining').unfolded).toBe(false);
  expect(of('front lining').piece.cutting).toBe('pair');
  const before = deriveGarment({ ...doc, closings: [], lines: [] }).extras!.pieceById.get(
    id('front lining'),
  )!;
  expect(of('front lining').area * 2).toBeCloseTo(before.whole.area, 2);
  expect(of('front neckline facing').piece.cutting).toBe('pair');
  const seams = garment.extras!.neighbours.seams.map((s) => `${s.a} ~ ${s.b}`);
  expect(seams).toContain('front lining/centre seam ~ front lining/centre seam');
  const width = garment.extras!.design.allowances.edges.find((e) => e.edge === 'centre seam');
  expect(width!.width).toBe(20);
});

test('an edge that is given two facings has the first', () => {
  const twice: Facing[] = [50, 400].map((depth) => ({
    ...{ piece: id('front'), edge: 'neckline', depth },
    colour: LINING,
    interfacing: null,
  }));
  const both = deriveGarment(garmentWith({ facings: twice }));
  expect(checkGarment(both)).toEqual([]);
  const one = deriveGarment(garmentWith({ facings: twice.slice(0, 1) }));
  expect(both.panels.map((p) => p.area)).toEqual(one.panels.map((p) => p.area));
});

test('bound edges of a lining are finished with the garment’s', () => {
  const doc = lined(20);
  const bound = { piece: id('front'), edge: 'neckline', job: { kind: 'bound' as const } };
  const garment = deriveGarment({ ...doc, edgeJobs: [bound] });
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.plan.steps.map((s) => s.key)).toContain('edge front/neckline');
  expect(garment.extras!.plan.steps.filter((s) => s.kind === 'edge')).toEqual([]);
});

test('an interfaced facing says what it is cut from once more, and which way up where it matters', () => {
  const facings: Facing[] = [
    { piece: id('front'), edge: 'neckline', depth: 60, colour: LINING, interfacing: colours[0]!.id },
    { piece: id('back'), edge: 'neckline', depth: 60, colour: LINING, interfacing: null },
    { piece: id('front'), edge: 'armhole', depth: 50, colour: LINING, interfacing: colours[0]!.id },
  ];
  const garment = deriveGarment(garmentWith({ facings }));
  const cut = (name: string): string =>
    howToCut(
      garment,
      garment.extras!.panels.find((p) => p.piece === id(`${name} facing`))!,
    ).text;
  expect(cut('front neckline')).toBe('Cut 1 on the fold; 1 more of chalk');
  expect(cut('back neckline')).toBe('Cut 2, one mirrored');
  expect(cut('front armhole')).toBe('Cut 2, one mirrored; 2 more of chalk');
  const apron = piece(rectangle(300, 400), {
    id: id('apron'),
    name: 'apron',
    edgeNames: [
      {
        name: 'top',
        path: [
          [
            [0, 0],
            [300, 0],
          ],
        ],
      },
    ],
  });
  const top: Facing = { ...facings[0]!, piece: apron.id, edge: 'top' };
  const alone = deriveGarment(design([apron], [], { colours, facings: [top] }));
  expect(howToCut(alone, alone.extras!.panels[0]!).text).toBe(
    'Cut 1, right side up; 1 more of chalk, glue side up',
  );
});
