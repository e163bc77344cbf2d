/**
 * A close-fitting body to the waist: front with a bust dart, and back, for one invented person.
 * Frame: the nape is at y = 0, centre front or centre back at x = 0, the side at positive x; the waist lies at WAIST.
 *
 * Girths lean on ASTM D5585-11e1, size 10 (public excerpt): bust 37 1/4 in = 946 mm, waist (curvy) 29 in = 737 mm.
 * Hip girth and all heights are not in that excerpt: ours, invented within ordinary adult proportions.
 */
import { pathLength, subtract } from '../../src/geometry';
import type { Path, Polyline, Pt } from '../../src/geometry';
import { along, heading, solveFor, sweepBetween, turnAbout } from './curves';

/** Heights below the nape. The bust level is the height of the bust point, the hip level 20.5 cm under the waist. */
export const BUST = 231;
export const WAIST = 410;
export const HIP = 615;
export const BUST_POINT: Pt = [96, BUST];

export interface Neck {
  /** How far the shoulder seam is cut away at the neck, along the seam. */
  readonly away: number;
  /** Height of the neckline at centre front and at centre back. */
  readonly front: number;
  readonly back: number;
}

export interface Body {
  readonly neckline: Path;
  readonly shoulder: Path;
  readonly armhole: Path;
  /** Underarm to waist, dart mouth included. */
  readonly side: Path;
  readonly darts: readonly Polyline[];
}

const DOWN: Pt = [0, 1];
const UP: Pt = [0, -1];
const SHOULDER_LENGTH = 131;
const FRONT_SLOPE = 21;
const BACK_SLOPE = 19;
const FRONT_NECK_POINT: Pt = [70, -38];
const BACK_NECK_POINT: Pt = [72, -20];
export const FRONT_WAIST_SIDE: Pt = [234, WAIST];
export const BACK_WAIST_SIDE: Pt = [238, WAIST];

/** Bust dart: its point lies 22 mm short of the bust point (1.3 to 2.5 cm is usual), its mouth 66 mm below the underarm. */
const DART_SHORT_OF_BUST_POINT = 22;
const DART_MOUTH = 30;
const UNDERARM_TO_DART = 66;
const LOWER_LEG_END: Pt = [265, 272];

const shoulderEnds = (neckPoint: Pt, slope: number, away: number): readonly [Pt, Pt] => [
  along(neckPoint, heading(slope), away),
  along(neckPoint, heading(slope), SHOULDER_LENGTH),
];

/** Up the side from the lower dart leg, 11° off plumb; above the dart the seam is turned back by the dart's angle. */
function frontSide(): { side: Path; dart: Polyline } {
  const point = along(BUST_POINT, subtract(LOWER_LEG_END, BUST_POINT), DART_SHORT_OF_BUST_POINT);
  const leg = Math.hypot(...subtract(LOWER_LEG_END, point));
  const angle = (2 * Math.asin(DART_MOUTH / 2 / leg) * 180) / Math.PI;
  const upperLegEnd = turnAbout(LOWER_LEG_END, point, -angle);
  const upTheSide = heading(-90 + 11);
  const underarm = along(upperLegEnd, heading(-90 + 11 - angle), UNDERARM_TO_DART);
  const side: Path = [
    [underarm, upperLegEnd],
    [upperLegEnd, LOWER_LEG_END],
    sweepBetween(LOWER_LEG_END, [-upTheSide[0], -upTheSide[1]], 46, FRONT_WAIST_SIDE, UP, 46),
  ];
  return { side, dart: [upperLegEnd, point, LOWER_LEG_END] };
}

export function frontBody(neck: Neck): Body {
  const [neckEnd, tip] = shoulderEnds(FRONT_NECK_POINT, FRONT_SLOPE, neck.away);
  const square = heading(90 + FRONT_SLOPE);
  const { side, dart } = frontSide();
  const underarm = side[0]![0];
  const chest: Pt = [177, 104];
  const depth = neck.front - neckEnd[1];
  return {
    neckline: [sweepBetween([0, neck.front], [1, 0], neckEnd[0] * 0.62, neckEnd, square, depth * 0.55)],
    shoulder: [[neckEnd, tip]],
    armhole: [
      sweepBetween(tip, square, 28, chest, UP, 32),
      sweepBetween(chest, DOWN, 52, underarm, [-1, 0], 46),
    ],
    side,
    darts: [dart],
  };
}

/** Length of the front's side seam from underarm to waist with the dart closed. */
function closedFrontSide(): number {
  const { side } = frontSide();
  return pathLength([side[0]!, side[2]!]);
}

/** Back side seam: as long as the front's with its dart closed, which settles the height of the underarm. */
const backSide = (y: number): Path => [sweepBetween([260, y], heading(90 + 7), 60, BACK_WAIST_SIDE, UP, 60)];

export function backBody(neck: Neck): Body {
  const [neckEnd, tip] = shoulderEnds(BACK_NECK_POINT, BACK_SLOPE, neck.away);
  const square = heading(90 + BACK_SLOPE);
  const height = solveFor((rise) => pathLength(backSide(WAIST - rise)), closedFrontSide(), 150, 250);
  const side = backSide(WAIST - height);
  const underarm = side[0]![0];
  const blade: Pt = [185, 120];
  return {
    neckline: [
      sweepBetween(
        [0, neck.back],
        [1, 0],
        neckEnd[0] * 0.5,
        neckEnd,
        square,
        (neck.back - neckEnd[1]) * 0.66,
      ),
    ],
    shoulder: [[neckEnd, tip]],
    armhole: [
      sweepBetween(tip, square, 26, blade, UP, 30),
      sweepBetween(blade, DOWN, 58, underarm, heading(180 + 7), 34),
    ],
    side,
    darts: [],
  };
}
