/** Published rules of laying and cutting, held against jobs and plans. */
import { expect, test } from 'vitest';
import { layJobs, planLay } from '../../src/fabric';
import type { LayJob } from '../../src/fabric';
import { deriveGarment, type Garment } from '../../src/garment';
import type { Line, Pt } from '../../src/geometry';
import {
  type ColourId,
  type Design,
  type Level,
  type Piece,
  type PieceId,
  sayProblem,
} from '../../src/pattern';
import { colour, design, panelLine, piece, rectangle as outline } from '../making/designs';
import { bodice } from '../neighbours/garments';
import { jobOf, pieceOf, rectangle } from '../fabric/madeUpPieces';
import { placedAt } from './judgeLay';

const INCH = 25.4; // international yard agreement, 1959 (from memory): 1 yd = 0.9144 m exactly

const canBeLaid = (job: LayJob): boolean =>
  planLay(job).problems.every((p) => p.code !== 'panel-wider-than-cloth');

/** Whether both copies of a panel so wide fit folded cloth. */
const fitsFolded = (width: number, across: number, more: Partial<LayJob> = {}): boolean => {
  const copies = [1, 2].map((copy) =>
    pieceOf(1, rectangle(300, across * INCH), { copy, flipped: copy === 2 }),
  );
  return canBeLaid(jobOf(copies, { width: width * INCH, layering: 'folded', ...more }));
};

test('folded cloth is half as wide: 60 in lies at 30, 45 at 22 1/2, 54 at 27', () => {
  // Threads no. 151 (2010, reposted 2020): 60→30, 45→22 1/2. It prints 26 for 54, an error in the source: half of 54 is 27
  for (const [width, half] of [
    [60, 30],
    [45, 22.5],
    [54, 27],
  ] as const) {
    expect(fitsFolded(width, half)).toBe(true);
    expect(fitsFolded(width, half + 1 / 64)).toBe(false);
  }
  // a panel on the fold has both halves
  const middle: Line = [
    [0, 30 * INCH],
    [300, 30 * INCH],
  ];
  const onFold = pieceOf(1, rectangle(300, 60 * INCH), { middle });
  expect(canBeLaid(jobOf([onFold], { width: 60 * INCH, layering: 'folded' }))).toBe(true);
  expect(canBeLaid(jobOf([{ ...onFold, middle: undefined }], { width: 60 * INCH, layering: 'folded' }))).toBe(
    false,
  );
});

test('45 in cloth is taken as 44 without its selvedges', () => {
  // quilterscache.com, 2002: usable width is its own measure; margins of 1/2 in on either side leave 44
  const job = (across: number): LayJob =>
    jobOf([pieceOf(1, rectangle(300, across * INCH))], { width: 45 * INCH, margin: INCH / 2 });
  expect(canBeLaid(job(44))).toBe(true);
  expect(canBeLaid(job(44 + 1 / 64))).toBe(false);
  expect(planLay(job(45)).problems[0]!.facts).toMatchObject({ width: 44 * INCH });
});

test('a piece wider than the cloth is never given a length, in one layer or folded, and never a plan', () => {
  // About.com sewing (n.d.): a chart's length is useless there; take a seam or another design
  for (const layering of ['single', 'folded'] as const) {
    const plan = planLay(jobOf([pieceOf(1, rectangle(300, 950))], { width: 900, layering }));
    expect([plan.length, plan.buy, plan.placed.length]).toEqual([0, 0, 0]);
    expect(sayProblem(plan.problems[0]!, 'cm')).toContain('115 cm wide');
  }
});

const colours = [colour('chalk', '#e8e4d8'), colour('fusible', '#ffffff')];
const jobsOf = (
  pieces: readonly Piece[],
  lines: Design['lines'] = [],
  more: Partial<Design> = {},
): { garment: Garment; job: LayJob } => {
  const garment = deriveGarment(design(pieces, lines, { colours, ...more }));
  return { garment, job: layJobs(garment)[0]! };
};

test('20 in interfacing that is narrower than the facing’s interfacing says how to piece it', () => {
  // “standard width” blog (n.d.): 20 in bolts are common for interfacing
  const wide = piece(outline(600, 500), {
    id: 'wrap' as PieceId,
    name: 'wrap',
    edgeNames: [
      {
        name: 'top',
        path: [
          [
            [0, 0],
            [600, 0],
          ],
        ],
      },
    ],
  });
  const facings = [
    { piece: wide.id, edge: 'top', depth: 60, colour: colours[0]!.id, interfacing: 'fusible' as ColourId },
  ];
  const narrow = [colours[0]!, { ...colours[1]!, width: 20 * INCH }];
  const garment = deriveGarment(design([wide], [], { colours: narrow, facings }));
  const [, fusible] = layJobs(garment);
  const [told] = planLay(fusible!).problems;
  expect(sayProblem(told!, 'in')).toContain('The interfacing of panel 2');
  expect(sayProblem(told!, 'in')).toContain('20 in usable width');
  expect(sayProblem(told!, 'in')).toContain('join it from two parts, edge to edge');
});

test('colour blocks are cut from one layer, right side up, the mirrored piece from the pattern turned over', () => {
  // projectrunandplay.com (n.d.)
  const { job } = jobsOf([bodice('back', {}, { onFold: false })]);
  expect(job.layering).toBe('single');
  expect(job.pieces.map((p) => p.flipped)).toEqual([false, true]);
  const [first, second] = planLay(job).placed;
  expect([first!.flipped, second!.flipped]).toEqual([false, true]);
});

test('an edge that was on the fold and becomes a seam gains its allowance on both sides', () => {
  // projectrunandplay.com (n.d.)
  const front = bodice('front');
  const [top, bottom] = [front.fold![0], front.fold![1]].toSorted((a, b) => a[1] - b[1]) as [Pt, Pt];
  const whole = jobsOf([front]).job.pieces;
  expect(whole.length).toBe(1);
  const { garment, job } = jobsOf([front], [panelLine([top, bottom], 0)]);
  expect(job.pieces.map((p) => p.flipped)).toEqual([false, true]);
  const xs = job.pieces[0]!.cutting.map((p) => p[0]);
  const beyond = Math.min(Math.max(...xs), -Math.min(...xs));
  expect(beyond).toBeCloseTo(garment.design.allowances.newSeam, 6);
});

test('panels keep the grain of their piece to the last bit, and with nap all lie the same way up', () => {
  // williamgee.co.uk (n.d.): both ends of the arrow at one distance from the selvedge; textileschool.com (n.d.): tops one way
  const grain: Line = [
    [10, 300],
    [13, 20],
  ];
  const lines = [
    panelLine(
      [
        [-300, 260],
        [300, 300],
      ],
      0,
    ),
    panelLine(
      [
        [-300, 400],
        [300, 380],
      ],
      1,
    ),
  ];
  const nap = colours.map((c) => ({ ...c, nap: true }));
  const { job } = jobsOf([bodice('front', {}, { grain, onFold: false, cutting: 'once' })], lines, {
    colours: nap,
  });
  expect(job.pieces.length).toBe(3);
  expect(new Set(job.pieces.map((p) => p.grainAngle)).size).toBe(1);
  expect(new Set(planLay(job).placed.map((p) => p.rotation)).size).toBe(1);
});

test('a stripe meets itself at the side seams: on the stitching line, at every height, not at the cut edge', () => {
  // textileschool.com layout page (n.d.): plaids are matched at the seamline
  const level = (y: number): Level => ({
    name: 'waist',
    line: [
      [-500, y],
      [1500, y],
    ],
  });
  const striped = colours.map((c) => ({ ...c, repeat: { along: 70, across: 0 } }));
  const pieces = [
    bodice('front', {}, { levels: [level(420)] }),
    bodice('back', { at: [700, 90] }, { levels: [level(510)] }),
  ];
  const lines = [
    panelLine(
      [
        [-300, 300],
        [300, 300],
      ],
      0,
    ),
  ];
  const { garment, job } = jobsOf(pieces, lines, { colours: striped });
  const plan = planLay({ ...job, seconds: 0.05 });
  expect(plan.placed.length).toBe(3);
  // how far along its stripe a place lies: the same for places level with each other on the body, whichever way up a panel lies
  const phase = (id: string, p: Pt): number => {
    const at = plan.placed.filter((q) => garment.panelById.get(q.panel)!.piece === id);
    const phases = at.map((q) => {
      const x = placedAt(q)(p)[0] / 70;
      return Math.abs(x - Math.round(x));
    });
    for (const other of phases) expect(other).toBeCloseTo(phases[0]!, 9);
    return phases[0]!;
  };
  for (const below of [-120, -35, 0, 33, 80])
    expect(phase('front', [240, 420 + below])).toBeCloseTo(phase('back', [940, 510 + below]), 9);
  expect(phase('front', [0, 420])).toBeCloseTo(0, 9);
});
