import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { checkLay, layJobs, placedOutline } from '../../src/fabric';
import type { ClothPiece, LayJob, Placement } from '../../src/fabric';
import { placedPoints } from '../../src/fabric/placement';
import { openDesign } from '../../src/files';
import { deriveGarment, howToCut, type Garment } from '../../src/garment';
import type { Line, Pt } from '../../src/geometry';
import {
  type ColourId,
  type Design,
  type Level,
  type Piece,
  type PieceId,
  heightOf,
} from '../../src/pattern';
import { colour, design, panelLine, piece, rectangle, ringThrough } from '../making/designs';
import { bodice, sleeve } from '../neighbours/garments';

const CHALK = 'chalk' as ColourId;
const FUSIBLE = 'fusible' as ColourId;
const colours = [colour('chalk', '#e8e4d8'), colour('silk', '#99aabb'), colour('fusible', '#ffffff')];
const striped = [{ ...colours[0]!, repeat: { along: 60, across: 40 } }, ...colours.slice(1)];

const jobOfColour = (garment: Garment, id: ColourId): LayJob =>
  layJobs(garment).find((j) => j.colour === id)!;
const ofPiece = (garment: Garment, job: LayJob, id: string): ClothPiece[] =>
  job.pieces.filter((p) => garment.panelById.get(p.panel)!.piece === id);

function sheath(): Design {
  const file = new URL('../../demo-data/sheath.json', import.meta.url);
  const opened = openDesign(readFileSync(file, 'utf8'), 'sheath.json');
  if (!opened.ok) throw new Error('the demo cannot be opened');
  return opened.value;
}

/** Laid with its grain along the cloth, its middle at half the width. */
function onTheFold(p: ClothPiece, width: number): Placement {
  const flat: Placement = {
    panel: p.panel,
    copy: p.copy,
    x: 0,
    y: 0,
    rotation: -p.grainAngle,
    flipped: false,
  };
  const [a] = placedPoints(p.middle!, flat);
  const x = Math.min(...placedOutline(p, flat).map((q) => q[0]));
  return { ...flat, x: -x, y: width / 2 - a![1] };
}

test('a panel that is its own image across the fold may lie there with its middle on the fold of the cloth', () => {
  const garment = deriveGarment(
    design([bodice('front'), bodice('back', {}, { onFold: false })], [], { colours }),
  );
  const job = jobOfColour(garment, CHALK);
  const [front] = ofPiece(garment, job, 'front');
  expect(front!.middle).toBeDefined();
  for (const [x] of front!.middle!) expect(x).toBe(0);
  expect(ofPiece(garment, job, 'back').map((p) => p.middle)).toEqual([undefined, undefined]);
  const alone: LayJob = { ...job, layering: 'folded', pieces: [front!] };
  expect(checkLay(alone, [onTheFold(front!, job.width)])).toEqual([]);
});

test('a panel that differs by a tenth of a millimetre from its mirror image has no middle', () => {
  const box = (right: number): Piece =>
    piece(
      ringThrough([
        [0, 0],
        [200, 0],
        [200, right],
        [0, 300],
      ]),
    );
  const middleOfPanel = (p: Piece): Line | undefined =>
    layJobs(deriveGarment(design([p], [], { colours })))[0]!.pieces[0]!.middle;
  expect(middleOfPanel(box(300))!.map(([x]) => x)).toEqual([100, 100]);
  expect(middleOfPanel(box(300.2))).toBeUndefined();
});

test('a middle runs along the grain: a piece symmetric across its grain only has none', () => {
  const arrow: Pt[] = [
    [0, 0],
    [300, 0],
    [400, 100],
    [300, 200],
    [0, 200],
  ];
  const middleWith = (grain: Line): Line | undefined =>
    layJobs(deriveGarment(design([piece(ringThrough(arrow), { grain })], [], { colours })))[0]!.pieces[0]!
      .middle;
  expect(
    middleWith([
      [0, 0],
      [0, 100],
    ]),
  ).toBeUndefined();
  const middle = middleWith([
    [0, 0],
    [100, 0],
  ])!;
  for (const [, y] of middle) expect(y).toBeCloseTo(100, 9);
});

test('without a repeat no piece has an anchor', () => {
  const garment = deriveGarment(design([bodice('front'), sleeve([900, 0])], [], { colours }));
  for (const p of jobOfColour(garment, CHALK).pieces) expect(p.anchor).toBeUndefined();
});

const level = (name: string, y: number): Level => ({
  name,
  line: [
    [-500, y],
    [1500, y],
  ],
});

test('prints run level: anchors lie at a level that pieces share, over the centre', () => {
  const front = bodice('front', {}, { levels: [level('bust', 240), level('waist', 420)] });
  const back = bodice('back', { at: [700, 90] }, { onFold: false, levels: [level('waist level', 515)] });
  const lines = [
    panelLine(
      [
        [-400, 300],
        [400, 300],
      ],
      0,
    ),
  ];
  const garment = deriveGarment(design([front, back], lines, { colours: striped }));
  const job = jobOfColour(garment, CHALK);
  const fronts = ofPiece(garment, job, 'front');
  expect(fronts.length).toBe(2);
  for (const p of fronts) expect(p.anchor).toEqual([0, 420]);
  // cut as a pair with a centre edge at 700
  for (const p of ofPiece(garment, job, 'back')) {
    expect(p.anchor![0]).toBeCloseTo(700, 6);
    expect(p.anchor![1]).toBeCloseTo(515, 9);
  }
});

test('pieces without a shared level are anchored at the lower end of their side seam, a piece joined to none at its lowest point', () => {
  const front = bodice('front', { side: 380 });
  const back = bodice('back', { at: [700, 40], side: 380 });
  const garment = deriveGarment(
    design([front, back, piece(rectangle(200, 150, [2000, 0]), { id: 'bag' as PieceId, name: 'bag' })], [], {
      colours: striped,
    }),
  );
  const job = jobOfColour(garment, CHALK);
  const at = (id: string): Pt => ofPiece(garment, job, id)[0]!.anchor!;
  const hemOf = (id: string): number => {
    const { whole } = garment.pieceById.get(id as PieceId)!;
    return Math.max(...whole.stitching.map((c) => heightOf(whole, c[0])));
  };
  // the hem runs level from the side to the centre on this bodice
  expect(at('front')[1]).toBeCloseTo(hemOf('front'), 6);
  expect(at('back')[1]).toBeCloseTo(hemOf('back'), 6);
  expect(at('back')[1] - at('front')[1]).toBeCloseTo(40, 6);
  expect(at('bag')).toEqual([2100, 150]);
});

test('a level shared by two pieces lines the third up through its side seam', () => {
  const front = bodice('front', {}, { levels: [level('waist', 420)] });
  const back = bodice('back', { at: [700, 90] });
  const garment = deriveGarment(design([front, back], [], { colours: striped }));
  const job = jobOfColour(garment, CHALK);
  // the hems meet at the side, 90 apart on the drawing: so does what lies level with the waist
  expect(ofPiece(garment, job, 'back')[0]!.anchor![1]).toBeCloseTo(510, 6);
});

test('a repeat shrinks with the cloth it is on', () => {
  const shrinking = [{ ...striped[0]!, shrinkage: { along: 5, across: 2 } }, ...colours.slice(1)];
  const [job] = layJobs(deriveGarment(design([bodice('front')], [], { colours: shrinking })));
  expect(job!.repeat.along).toBeCloseTo(57, 9);
  expect(job!.repeat.across).toBeCloseTo(39.2, 9);
});

test('the copies of a pair have the same anchor in their own frame, so that the print is mirrored with them', () => {
  const garment = deriveGarment(design([bodice('back', {}, { onFold: false })], [], { colours: striped }));
  const [first, second] = jobOfColour(garment, CHALK).pieces;
  expect([first!.flipped, second!.flipped]).toEqual([false, true]);
  expect(second!.anchor).toEqual(first!.anchor);
});

const withLeave = (degrees: number, nap: boolean): LayJob => {
  const lines = [
    panelLine(
      [
        [-10, 150],
        [210, 150],
      ],
      0,
    ),
  ];
  const offGrain = [{ piece: 'front' as PieceId, at: [100, 50] as Pt, degrees }];
  const cloths = [{ ...colours[0]!, nap }];
  return layJobs(
    deriveGarment(design([piece(rectangle(200, 300))], lines, { colours: cloths, offGrain })),
  )[0]!;
};

test('a panel with leave may be turned to either side, with nap one way up; others keep to the grain', () => {
  const turned = (job: LayJob): (readonly number[] | undefined)[] => job.pieces.map((p) => p.turns);
  expect(turned(withLeave(30, false)).filter((t) => t)).toEqual([[0, 180, 30, -30, -150, 150]]);
  expect(turned(withLeave(30, true)).filter((t) => t)).toEqual([[0, 30, -30]]);
  expect(turned(withLeave(90, false)).filter((t) => t)).toEqual([[0, 180, 90, -90]]);
  expect(withLeave(30, false).pieces.filter((p) => !p.turns).length).toBe(1);
});

test('interfacing is cut once more by the facings’ cutting lines, as copies 3 and 4, in its own cloth’s job', () => {
  const facings = [
    {
      piece: 'front' as PieceId,
      edge: 'neckline',
      depth: 60,
      colour: 'silk' as ColourId,
      interfacing: FUSIBLE,
    },
    {
      piece: 'back' as PieceId,
      edge: 'armhole',
      depth: 60,
      colour: 'silk' as ColourId,
      interfacing: FUSIBLE,
    },
  ];
  const garment = deriveGarment(
    design([bodice('front'), bodice('back', { at: [700, 0] })], [], { colours, facings }),
  );
  const [silk, fusible] = ['silk', 'fusible'].map((id) => jobOfColour(garment, id as ColourId));
  expect(silk!.pieces.map((p) => p.copy)).toEqual([1, 1, 2]);
  expect(fusible!.pieces.map((p) => p.copy)).toEqual([3, 3, 4]);
  expect([...silk!.pieces, ...fusible!.pieces].every((p) => p.keepsGrain)).toBe(true);
  expect(jobOfColour(garment, CHALK).pieces.some((p) => p.keepsGrain)).toBe(false);
  expect(fusible!.pieces.map((p) => [p.panel, p.flipped, p.cutting])).toEqual(
    silk!.pieces.map((p) => [p.panel, p.flipped, p.cutting]),
  );
  const both = deriveGarment(
    design([bodice('front')], [], {
      colours,
      facings: [{ ...facings[0]!, interfacing: 'silk' as ColourId }],
    }),
  );
  const pieces = jobOfColour(both, 'silk' as ColourId).pieces.map((p) => `${p.panel} ${p.copy}`);
  expect(pieces.length).toBe(2);
  expect(new Set(pieces).size).toBe(2);
});

test('the sheath’s jobs: every panel in one job, pieces unique, all middles exact on the fold', () => {
  const garment = deriveGarment(sheath());
  const jobs = layJobs(garment);
  const keys = jobs.flatMap((j) => j.pieces.map((p) => `${p.panel} ${p.copy}`));
  expect(new Set(keys).size).toBe(keys.length);
  const middles = jobs.flatMap((job) => job.pieces.filter((p) => p.middle).map((p) => ({ job, p })));
  expect(middles.length).toBeGreaterThan(0);
  for (const { job, p } of middles)
    expect(
      checkLay({ ...job, layering: 'folded', pieces: [p] }, [onTheFold(p, job.width)]).map((f) => f.kind),
    ).toEqual([]);
});

test('jobs hold what howToCut says: as many copies, and a middle for all that is its own image across the fold', () => {
  const half = bodice('front', { waistIn: 10 }, { foldPanels: true });
  const lines = [
    panelLine(
      [
        [-400, 250],
        [400, 250],
      ],
      0,
    ),
    panelLine(
      [
        [80, 250],
        [90, 700],
      ],
      1,
    ),
  ];
  const facings = [
    {
      piece: 'front' as PieceId,
      edge: 'neckline',
      depth: 60,
      colour: 'silk' as ColourId,
      interfacing: FUSIBLE,
    },
  ];
  const sliced = design(
    [half, bodice('back', { at: [900, 0] }, { onFold: false }), sleeve([1600, 0])],
    lines,
    {
      colours,
      facings,
    },
  );
  for (const garment of [sheath(), sliced].map(deriveGarment)) {
    const pieces = layJobs(garment).flatMap((j) => j.pieces);
    for (const panel of garment.panels) {
      const cut = howToCut(garment, panel);
      const own = pieces.filter((p) => p.panel === panel.id);
      expect(own.length).toBe(cut.count * (cut.interfacing ? 2 : 1));
      expect(own.filter((p) => p.flipped).length).toBe(cut.mirrored ? own.length / 2 : 0);
      if (cut.onFold || cut.text.startsWith('Cut 1, whole'))
        for (const p of own) expect(p.middle).toBeDefined();
    }
  }
});
