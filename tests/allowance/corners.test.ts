import { expect, test } from 'vitest';
import { checkGarment, deriveGarment, type Garment } from '../../src/garment';
import { type Polyline, type Pt, type Ring, nearestOnPath } from '../../src/geometry';
import type { Allowances, Design, PieceId } from '../../src/pattern';
import { design, lined, panelLine, piece, rectangle, ringThrough } from '../making/designs';

const allowances: Allowances = {
  tracing: { kind: 'net', outer: 15 },
  newSeam: 15,
  hem: 40,
  edges: [],
  lines: [],
};

/** Corner points of the cutting line of the panel at a spot. */
function cutAt(garment: Garment, [x, y]: Pt): number[][] {
  const panel = garment.panels.findIndex(
    (p) => nearestOnPath(p.ring, [x, y]).distance < 1e9 && isIn(p.ring, [x, y]),
  );
  return garment.cutPieces[panel]!.cutting.map((c) => c[0].map((v) => Math.round(v * 1000) / 1000 + 0));
}

function isIn(ring: Ring, [x, y]: Pt): boolean {
  let inside = false;
  ring.forEach((c, i) => {
    const [p, q] = [ring.at(i - 1)![0], c[0]];
    if (p[1] > y !== q[1] > y && x < ((q[0] - p[0]) * (y - p[1])) / (q[1] - p[1]) + p[0]) inside = !inside;
  });
  return inside;
}

const across = (y: number): Polyline => [
  [-50, y],
  [450, y],
];

test('a line that ends on another at 60° is cut square where it, drawn on, meets the other one’s cutting line', () => {
  // by hand: the slanted line runs 60° down to (200, 150); drawn on by 15 / sin 60° = 17.3205 it comes to (208.6603, 165),
  // from where the ends lie square to it, 15 mm to both sides: (221.6506, 157.5) and (195.6699, 172.5)
  const garment = deriveGarment(
    lined(rectangle(400, 300), [
      across(150),
      [
        [200 - 150 / Math.sqrt(3), 0],
        [200, 150],
      ],
    ]),
  );
  const [sharp, blunt] = [cutAt(garment, [100, 100]), cutAt(garment, [300, 100])];
  expect(sharp).toContainEqual([221.651, 157.5]);
  expect(sharp).toContainEqual([208.66, 165]);
  expect(blunt).toContainEqual([195.67, 172.5]);
  expect(blunt).toContainEqual([208.66, 165]);
  expect(checkGarment(garment)).toEqual([]);
});

test('at a square crossing every corner is the mitre, whichever seam is sewn first', () => {
  const garment = deriveGarment(
    lined(rectangle(400, 300), [
      across(150),
      [
        [200, -50],
        [200, 350],
      ],
    ]),
  );
  for (const { cutting, cutArea } of garment.cutPieces) {
    expect(cutting).toHaveLength(4);
    expect(cutArea).toBeCloseTo(230 * 180, 6);
  }
});

/** A skirt half that flares 1 in 4 on both sides, sewn to another one. */
function skirt(over: Partial<Design> = {}): Design {
  const outline = ringThrough([
    [0, 0],
    [200, 0],
    [250, 200],
    [-50, 200],
  ]);
  const edgeNames = ['waist', 'left side seam', 'hem', 'right side seam'].map((name, i) => ({
    name,
    path: [outline[i]!],
  }));
  const parts = ['front', 'back'].map((name) => piece(outline, { name, edgeNames }));
  return design(parts, [], { allowances, ...over });
}

test('at the hem the side’s allowance is turned back: the mirror image of what lies above', () => {
  // by hand: the side leans 1 in 4, so its cutting line is 15 · √17 / 4 = 15.4616 mm out at the fold and 10 mm nearer at the edge
  const points = cutAt(deriveGarment(skirt()), [100, 100]);
  expect(points).toContainEqual([265.462, 200]);
  expect(points).toContainEqual([255.462, 240]);
  expect(points).toContainEqual([-65.462, 200]);
  expect(points).toContainEqual([-55.462, 240]);
});

test('an edge that is bound or left is not turned back, and one that is said to be a hem is', () => {
  const bound = skirt({
    edgeJobs: [
      { piece: 'front' as PieceId, edge: 'hem', job: { kind: 'bound' } },
      { piece: 'front' as PieceId, edge: 'waist', job: { kind: 'hem' } },
    ],
  });
  const points = cutAt(deriveGarment(bound), [100, 100]);
  expect(Math.max(...points.map(([, y]) => y!))).toBeCloseTo(200, 6);
  // the waist is folded up 40 mm deep: its sides lean outwards again beyond the fold
  expect(points).toContainEqual([225.462, -40]);
  expect(points).toContainEqual([215.462, 0]);
});

test('a notched hem is mitred within itself, clipped at its inner corners, and turned back at its sides only', () => {
  const outline = ringThrough([
    [0, 0],
    [300, 0],
    [300, 300],
    [200, 300],
    [200, 250],
    [100, 250],
    [100, 300],
    [0, 300],
  ]);
  const edgeNames = [{ name: 'hem', path: outline.slice(2, 7) }];
  const garment = deriveGarment(design([piece(outline, { edgeNames })], [], { allowances }));
  const points = cutAt(garment, [150, 100]);
  for (const p of [
    [160, 340],
    [160, 290],
    [140, 290],
    [140, 340],
    [315, 340],
    [-15, 340],
  ])
    expect(points).toContainEqual(p);
  expect(garment.cutPieces[0]!.clips).toEqual([
    [200, 250],
    [100, 250],
  ]);
});

test('where the width changes along one straight edge the wider allowance ends in a step', () => {
  const outline = ringThrough([
    [0, 0],
    [100, 0],
    [200, 0],
    [200, 100],
    [0, 100],
  ]);
  const edgeNames = [
    { name: 'waist', path: [outline[0]!] },
    { name: 'placket', path: [outline[1]!] },
  ];
  const stepped = design([piece(outline, { edgeNames })], [], {
    allowances: { ...allowances, edges: [{ piece: 'front' as PieceId, edge: 'placket', width: 35 }] },
  });
  const points = cutAt(deriveGarment(stepped), [100, 50]);
  expect(points).toContainEqual([100, -15]);
  expect(points).toContainEqual([100, -35]);
});

test('a panel line with a width of its own has it on both sides, all others the general one', () => {
  const d = lined(rectangle(400, 300), [across(100), across(200)]);
  const garment = deriveGarment({
    ...d,
    allowances: { ...allowances, lines: [{ line: d.lines[1]!.id, width: 8 }] },
  });
  const heights = [50, 150, 250].map((y) => {
    const ys = cutAt(garment, [200, y]).map((p) => p[1]!);
    return [Math.min(...ys), Math.max(...ys)];
  });
  expect(heights).toEqual([
    [-15, 115],
    [85, 208],
    [192, 315],
  ]);
});

test('the allowance of a zip holds on its edge and on the one it is sewn to, and on that side of the body only', () => {
  const zip = (kind: 'edge' | 'line') =>
    ({
      id: 'closing-1',
      kind: 'hidden',
      length: null,
      allowance: 25,
      slot: 0,
      on:
        kind === 'edge'
          ? { kind: 'edge', piece: 'front' as PieceId, edge: 'left side seam', nth: 0 }
          : { kind: 'line', line: 'line-1' },
    }) as Design['closings'][number];
  const garment = deriveGarment(skirt({ closings: [zip('edge')] }));
  const widest = (name: string) => {
    const i = garment.panels.findIndex((p) => p.piece === name);
    return garment.cutPieces[i]!.edgeLabels.map((l) => `${l.edgeName} ${l.allowance}`);
  };
  expect(widest('front')).toEqual(expect.arrayContaining(['left side seam 25', 'right side seam 15']));
  expect(widest('back')).toEqual(expect.arrayContaining(['left side seam 15', 'right side seam 25']));
  const d = lined(rectangle(400, 300), [across(100)]);
  const onLine = deriveGarment({ ...d, closings: [zip('line')] });
  for (const { edgeLabels } of onLine.cutPieces)
    expect(edgeLabels.filter((l) => l.mate)[0]!.allowance).toBe(25);
});

test('on a cut tracing new seams are squared off against each other and the outer edge stays as traced', () => {
  const cutTracing: Allowances = { ...allowances, tracing: { kind: 'cut', included: 15 }, hem: 15 };
  const garment = deriveGarment({
    ...lined(rectangle(400, 300), [
      across(150),
      [
        [200 - 150 / Math.sqrt(3), 0],
        [200, 150],
      ],
    ]),
    allowances: cutTracing,
  });
  const sharp = cutAt(garment, [100, 100]);
  expect(sharp).toContainEqual([221.651, 157.5]);
  expect(sharp).toContainEqual([208.66, 165]);
  const { outline } = garment.pieces[0]!.whole;
  // all corners but the squared ones lie on the traced outline
  for (const points of [sharp, cutAt(garment, [300, 100])]) {
    const off = points.filter(([x, y]) => nearestOnPath(outline, [x!, y!]).distance > 0.001);
    expect(off).toHaveLength(2);
  }
});

test('a cut piece with its corners is kept while a line that it does not touch is moved', () => {
  const only = piece(rectangle(400, 300));
  const at = (x: number): Design =>
    design(
      [only],
      [
        panelLine(across(150), 0),
        panelLine(
          [
            [100, -20],
            [130, 150],
          ],
          1,
        ),
        panelLine(
          [
            [x, 150],
            [300, 350],
          ],
          2,
        ),
      ],
    );
  const [before, after] = [250, 260].map((x) => deriveGarment({ ...at(x), allowances }));
  const kept = before!.panels.filter((_, i) => after!.cutPieces.includes(before!.cutPieces[i]!));
  // the upper left one; the upper right one is sewn to both panels that changed
  expect(kept.map((p) => p.spot.at[0] < 130 && p.spot.at[1] < 150)).toEqual([true]);
});

test('seams without an allowance have nothing that could be out of step', () => {
  const slanted: Polyline = [
    [-10, 100],
    [110, 140],
  ];
  const doc = lined(rectangle(100, 300), [slanted], {
    cutting: 'pair',
    edgeNames: [
      {
        name: 'centre back',
        path: [
          [
            [0, 300],
            [0, 0],
          ],
        ],
      },
    ],
  });
  const bare = { ...doc, allowances: { ...doc.allowances, newSeam: 0 } };
  const garment = deriveGarment(bare);
  expect(garment.plan.steps.map((s) => s.kind)).toContain('join');
  expect(checkGarment(garment)).toEqual([]);
});
