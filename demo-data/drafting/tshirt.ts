/** The Saltbox T-shirt: boxy, no darts, half front and half back on the fold, short sleeve with a flat cap. */
import { endOf, pathLength, startOf } from '../../src/geometry';
import type { Path, Pt } from '../../src/geometry';
import { along, crossingAtHeight, heading, notchAt, notchAtHeight, sweepBetween } from './curves';
import { sleeve } from './sleeve';
import type { DraftedPiece, Sheet } from './tracing';

const MOSS = '#7f9270';
const BUTTER = '#f2d68f';

/** Half of the half chest: 946 mm of body and 150 mm of ease, all round, in four equal parts. */
const QUARTER_CHEST = 274;
const UNDERARM = 228;
const HEM = 640;
const STRIPE = 330;
const SHOULDER_SLOPE = 18;
const NECK_POINT: Pt = [84, -18];
const SHOULDER = 148;
const NOTCH = 78;

/** @param neck height of the neckline at the centre; @param chest narrowest point of the armhole */
function body(name: string, neck: number, chest: Pt, marks: number): DraftedPiece & { armhole: Path } {
  const tip = along(NECK_POINT, heading(SHOULDER_SLOPE), SHOULDER);
  const square = heading(90 + SHOULDER_SLOPE);
  const depth = neck - NECK_POINT[1];
  const neckline: Path = [
    sweepBetween(
      [0, neck],
      [1, 0],
      NECK_POINT[0] * 0.54,
      NECK_POINT,
      square,
      depth * (name === 'front' ? 0.58 : 0.66),
    ),
  ];
  const shoulder: Path = [[NECK_POINT, tip]];
  const underarm: Pt = [QUARTER_CHEST, UNDERARM];
  const armhole: Path = [
    sweepBetween(tip, square, 38, chest, [0, -1], 42),
    sweepBetween(chest, [0, 1], 52, underarm, [-1, 0], 34),
  ];
  const side: Path = [[underarm, [QUARTER_CHEST, HEM]]];
  const centre: Path = [
    [
      [0, HEM],
      [0, neck],
    ],
  ];
  const inside: Pt = [120, 320];
  return {
    name,
    armhole,
    edges: [
      { name: 'neckline', path: neckline },
      { name: 'shoulder', path: shoulder },
      { name: 'armhole', path: armhole },
      { name: 'side seam', path: side },
      { name: 'hem', path: [[endOf(side), startOf(centre)]] },
      { name: null, path: centre },
    ],
    fold: [
      [0, HEM],
      [0, neck],
    ],
    grain: [
      [60, 560],
      [60, 380],
    ],
    darts: [],
    notches: [
      ...Array.from({ length: marks }, (_, i) => notchAt(armhole, -NOTCH - 8 * i, inside)),
      notchAtHeight(side, 470, inside),
    ],
    levels: [
      { name: 'chest', line: [[0, UNDERARM], underarm] },
      {
        name: 'waist',
        line: [
          [0, 425],
          [QUARTER_CHEST, 425],
        ],
      },
    ],
    panelLines: [{ path: [[[0, STRIPE], crossingAtHeight(side, STRIPE)]] }],
    colours: [
      { at: [150, 190], fill: BUTTER },
      { at: [150, 500], fill: MOSS },
    ],
  };
}

export function tshirt(): Sheet {
  const front = body('front', 82, [204, 138], 1);
  const back = body('back', 4, [211, 132], 2);
  const arm = sleeve('sleeve', {
    frontArmhole: pathLength(front.armhole),
    backArmhole: pathLength(back.armhole),
    ease: 4,
    halfBiceps: 208,
    halfHem: 190,
    underarm: 120,
    frontNotch: NOTCH,
    backNotch: NOTCH,
    lines: [62],
    fills: [BUTTER, MOSS],
  });
  return {
    title: 'Saltbox T-shirt, class copy',
    about:
      'Traced for a Tuesday evening class; class, design and person are invented. Stitching lines, no allowance. ' +
      'Chest after ASTM D5585-11e1 size 10 with 150 mm of ease; all else is ours, invented.',
    width: 1410,
    height: 730,
    pieces: [
      { piece: front, at: [305, 50] },
      { piece: back, at: [620, 50] },
      { piece: arm, at: [1160, 120] },
    ],
  };
}
