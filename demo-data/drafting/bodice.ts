/** The Kettlecurve bodice: to the waist, bust dart and waist dart, curved yoke and a curve from yoke to waist. */
import { endOf, splitCurve, startOf } from '../../src/geometry';
import type { Curve, Path, Polyline, Pt } from '../../src/geometry';
import { BACK_WAIST_SIDE, BUST, BUST_POINT, FRONT_WAIST_SIDE, WAIST, backBody, frontBody } from './body';
import type { Body, Neck } from './body';
import { crossingAtHeight, cutEdge, heading, notchAt, sweepBetween } from './curves';
import type { DraftedPiece, Sheet } from './tracing';

const PLUM = '#6f5675';
const APRICOT = '#e6b48c';
const LICHEN = '#b9c2a4';

const NECK: Neck = { away: 40, front: 58, back: 10 };
const FRONT_NOTCH = 80;
const BACK_NOTCH = 84;

/** A dart from the waist up: mouth, point, mouth. */
const waistDart = (x: number, top: number, intake: number): Polyline => [
  [x - intake / 2, WAIST],
  [x, top],
  [x + intake / 2, WAIST],
];

/** From the centre, square to the fold, up to the armhole at a distance from the shoulder. */
function yoke(body: Body, centre: number, down: number): Curve {
  const end = endOf(cutEdge(body.armhole, down)[0]);
  return sweepBetween([0, centre], [1, 0], 70, end, heading(180 - 32), 60);
}

/** From a place on the yoke, down past the bust point on its centre side, to the waist. */
function sweepToWaist(from: Curve, t: number, waist: number, via: Pt): Path {
  const start = splitCurve(from, t)[0].at(-1)!;
  return [
    sweepBetween(start, heading(126), 60, via, heading(-83), 60),
    sweepBetween(via, heading(97), 50, [waist, WAIST], [0, -1], 50),
  ];
}

function piece(
  name: string,
  body: Body,
  waistSide: Pt,
  lines: readonly Path[],
  dart: Polyline,
  marks: readonly number[],
): DraftedPiece {
  const neckCentre = startOf(body.neckline);
  const waistCentre: Pt = [0, WAIST];
  const inside: Pt = [120, 300];
  return {
    name,
    edges: [
      { name: 'neckline', path: body.neckline },
      { name: 'shoulder', path: body.shoulder },
      { name: 'armhole', path: body.armhole },
      { name: 'side seam', path: body.side },
      {
        name: 'waist',
        path: [
          [waistSide, dart[2]!],
          [dart[2]!, dart[0]!],
          [dart[0]!, waistCentre],
        ],
      },
      { name: null, path: [[waistCentre, neckCentre]] },
    ],
    fold: [waistCentre, neckCentre],
    grain: [
      [16, 370],
      [16, 200],
    ],
    darts: [...body.darts, dart],
    notches: [
      ...marks.map((distance) => notchAt(body.armhole, -distance, inside)),
      notchAt(body.side, -70, inside),
    ],
    levels: [{ name: 'bust', line: [[0, BUST], crossingAtHeight(body.side, BUST)] }],
    panelLines: lines.map((path) => ({ path })),
    colours: [
      { at: [118, 62], fill: APRICOT },
      { at: [36, 300], fill: LICHEN },
      { at: [185, 330], fill: PLUM },
    ],
  };
}

export function bodice(): Sheet {
  const [frontUpper, backUpper] = [frontBody(NECK), backBody(NECK)];
  const [frontYoke, backYoke] = [yoke(frontUpper, 118, 62), yoke(backUpper, 126, 78)];
  const front = piece(
    'front',
    frontUpper,
    FRONT_WAIST_SIDE,
    [[frontYoke], sweepToWaist(frontYoke, 0.72, 50, [63, 250])],
    waistDart(BUST_POINT[0], 258, 28),
    [FRONT_NOTCH],
  );
  const back = piece(
    'back',
    backUpper,
    BACK_WAIST_SIDE,
    [[backYoke], sweepToWaist(backYoke, 0.62, 64, [78, 250])],
    waistDart(126, 250, 34),
    [BACK_NOTCH, BACK_NOTCH + 8],
  );
  return {
    title: 'Kettlecurve bodice, class copy',
    about:
      'Traced for a Tuesday evening class; class, design and person are invented. Stitching lines, no allowance. ' +
      'Bust and waist after ASTM D5585-11e1 size 10; heights and ease are ours, invented.',
    width: 1160,
    height: 510,
    pieces: [
      { piece: front, at: [300, 70] },
      { piece: back, at: [860, 70] },
    ],
  };
}
