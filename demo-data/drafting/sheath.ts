/** The Fenlight sheath: half front on the fold, half back with a centre back seam, three-quarter sleeve. */
import { endOf, pathLength, reversePath, startOf } from '../../src/geometry';
import type { Line, Path, Polyline, Pt } from '../../src/geometry';
import { BACK_WAIST_SIDE, BUST, BUST_POINT, FRONT_WAIST_SIDE, HIP, WAIST, backBody, frontBody } from './body';
import type { Body, Neck } from './body';
import { crossingAtHeight, heading, notchAt, notchAtHeight, sweepBetween } from './curves';
import { sleeve } from './sleeve';
import type { DraftedPiece, Sheet } from './tracing';

const SLATE = '#4d6a78';
const CLAY = '#c77b5c';
const OAT = '#ead9b8';

const NECK: Neck = { away: 22, front: 66, back: 6 };
const HEM = 985;
const FRONT_YOKE = 116;
const BACK_YOKE = 130;
const BAND = 850;
/** Off the centre front, on the wearer's right: 30 mm clear of the waist dart's nearer side. */
const OFF_CENTRE = -52;

/** Waist to hem: out over the hip, a little narrower at the knee. The same for front and back, so they match. */
function skirtSide(waist: Pt): Path {
  const hip: Pt = [waist[0] + 36, HIP];
  const hem: Pt = [hip[0] - 11, HEM];
  const down: Pt = [0, 1];
  return [
    sweepBetween(waist, down, 62, hip, [0, -1], 66),
    sweepBetween(hip, down, 110, hem, heading(-90 + 2.5), 120),
  ];
}

/** From the side, square to it, to the centre, square to that. */
const hemEdge = (side: Pt, centre: Pt): Path => [
  sweepBetween(side, heading(180 + 2.5), 70, [centre[0], centre[1]], [1, 0], 60),
];

/** A double-pointed dart: upper point, side, lower point, side. */
const waistDart = (x: number, top: number, bottom: number, intake: number): Polyline => [
  [x, top],
  [x + intake / 2, WAIST],
  [x, bottom],
  [x - intake / 2, WAIST],
];

const sideOf = (body: Body, waist: Pt): Path => [...body.side, ...skirtSide(waist)];

function front(body: Body): DraftedPiece {
  const side = sideOf(body, FRONT_WAIST_SIDE);
  const hemCentre: Pt = [0, HEM - 3];
  const neckCentre = startOf(body.neckline);
  const inside: Pt = [110, 320];
  const atSide = (y: number): Pt => crossingAtHeight(side, y);
  const acrossFrom = (edge: Path, y: number): Line => [[0, y], crossingAtHeight(edge, y)];
  return {
    name: 'front',
    edges: [
      { name: 'neckline', path: body.neckline },
      { name: 'shoulder', path: body.shoulder },
      { name: 'armhole', path: body.armhole },
      { name: 'side seam', path: side },
      { name: 'hem', path: hemEdge(endOf(side), hemCentre) },
      { name: null, path: [[hemCentre, neckCentre]] },
    ],
    fold: [hemCentre, neckCentre],
    grain: [
      [34, 700],
      [34, 330],
    ],
    darts: [...body.darts, waistDart(BUST_POINT[0], 262, 528, 28)],
    notches: [
      notchAt(body.armhole, -FRONT_NOTCH, inside),
      notchAtHeight(side, WAIST, inside),
      notchAtHeight(side, 740, inside),
    ],
    levels: [
      { name: 'bust', line: [[0, BUST], atSide(BUST)] },
      { name: 'waist', line: [[0, WAIST], atSide(WAIST)] },
      { name: 'hip', line: [[0, HIP], atSide(HIP)] },
    ],
    panelLines: [
      { path: [acrossFrom(body.armhole, FRONT_YOKE)] },
      {
        path: [
          [
            [OFF_CENTRE, FRONT_YOKE],
            [OFF_CENTRE, HIP],
          ],
        ],
        once: true,
      },
      { path: [acrossFrom(side, HIP)] },
      { path: [acrossFrom(side, BAND)] },
    ],
    colours: [
      { at: [120, 85], fill: CLAY },
      { at: [170, 340], fill: SLATE },
      { at: [-170, 340], fill: OAT },
      { at: [170, 730], fill: CLAY },
      { at: [170, 915], fill: OAT },
    ],
  };
}

/** Along each armhole from the underarm; the sleeve's marks are set at the same distances. */
const FRONT_NOTCH = 80;
const BACK_NOTCH = 84;

/** Centre back: plumb at the neck, 14 mm in at the waist, straight on to the hem. */
const CENTRE_BACK_SHAPING = 14;

function back(body: Body): DraftedPiece {
  const side = sideOf(body, BACK_WAIST_SIDE);
  const nape = startOf(body.neckline);
  const hemCentre: Pt = [CENTRE_BACK_SHAPING, HEM - 3];
  const waistCentre: Pt = [CENTRE_BACK_SHAPING, WAIST];
  const centre: Path = [[hemCentre, waistCentre], sweepBetween(waistCentre, [0, -1], 110, nape, [0, 1], 130)];
  const inside: Pt = [120, 320];
  const across = (edge: Path, y: number): Line => [crossingAtHeight(centre, y), crossingAtHeight(edge, y)];
  return {
    name: 'back',
    edges: [
      { name: 'neckline', path: body.neckline },
      { name: 'shoulder', path: body.shoulder },
      { name: 'armhole', path: body.armhole },
      { name: 'side seam', path: side },
      { name: 'hem', path: hemEdge(endOf(side), hemCentre) },
      { name: 'centre back', path: centre },
    ],
    grain: [
      [46, 700],
      [46, 330],
    ],
    darts: [waistDart(122, 240, 558, 30)],
    notches: [
      notchAt(body.armhole, -BACK_NOTCH, inside),
      notchAt(body.armhole, -BACK_NOTCH - 8, inside),
      notchAtHeight(side, WAIST, inside),
      notchAtHeight(side, 740, inside),
      // where the zip ends
      notchAtHeight(centre, WAIST + 175, inside),
    ],
    levels: [
      { name: 'bust', line: across(side, BUST) },
      { name: 'waist', line: across(side, WAIST) },
      { name: 'hip', line: across(side, HIP) },
    ],
    panelLines: [
      { path: [across(body.armhole, BACK_YOKE)] },
      { path: [across(side, HIP)] },
      { path: [across(side, BAND)] },
    ],
    colours: [
      { at: [130, 90], fill: CLAY },
      { at: [185, 340], fill: SLATE },
      { at: [180, 730], fill: CLAY },
      { at: [180, 915], fill: OAT },
    ],
  };
}

export function sheath(): Sheet {
  const [frontUpper, backUpper] = [frontBody(NECK), backBody(NECK)];
  const arm = sleeve('sleeve', {
    frontArmhole: pathLength(frontUpper.armhole),
    backArmhole: pathLength(reversePath(backUpper.armhole)),
    ease: 24,
    halfBiceps: 166,
    halfHem: 122,
    underarm: 300,
    frontNotch: FRONT_NOTCH,
    backNotch: BACK_NOTCH,
    lines: [42, 190],
    fills: [CLAY, SLATE, OAT],
  });
  return {
    title: 'Fenlight sheath, class copy',
    about:
      'Traced for a Tuesday evening class; class, design and person are invented. Stitching lines, no allowance. ' +
      'Bust and waist after ASTM D5585-11e1 size 10; hip, heights and ease are ours, invented.',
    width: 1380,
    height: 1090,
    pieces: [
      { piece: front(frontUpper), at: [310, 70] },
      { piece: back(backUpper), at: [640, 70] },
      { piece: arm, at: [1160, 150] },
    ],
  };
}
