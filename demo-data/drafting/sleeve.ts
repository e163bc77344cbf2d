/** A set-in sleeve for a given armhole: the cap's height is found so that the cap has the stated ease. */
import { pathLength, reversePath } from '../../src/geometry';
import type { Path, Pt } from '../../src/geometry';
import { crossingAtHeight, cutEdge, heading, notchAt, solveFor, sweepBetween } from './curves';
import type { DraftedPiece } from './tracing';

export interface SleeveWish {
  /** Stitching lengths of the armholes it is set into. */
  readonly frontArmhole: number;
  readonly backArmhole: number;
  /** Cap length less armhole length. */
  readonly ease: number;
  /** Half the width at the underarm level, and half the hem. */
  readonly halfBiceps: number;
  readonly halfHem: number;
  /** Underarm level to hem. */
  readonly underarm: number;
  /** Along the armhole from the underarm; the back's second mark is 8 mm further on. */
  readonly frontNotch: number;
  readonly backNotch: number;
  /** Panel lines across the sleeve: heights under the underarm level (negative: in the cap). */
  readonly lines: readonly number[];
  /** Fill of each part, from the cap down. */
  readonly fills: readonly string[];
}

/** The two halves of the cap, each from the underarm up to the top at [0, 0]. Front at positive x. */
function capHalves(wish: SleeveWish, height: number): { front: Path; back: Path } {
  const b = wish.halfBiceps;
  const half = (side: 1 | -1, across: number, up: number, scoop: number, crown: number): Path => {
    const pitch: Pt = [side * b * across, height * (1 - up)];
    // Steeper at the pitch than either chord, or the S would wobble there.
    const chords = [Math.atan2(height * up, b * (1 - across)), Math.atan2(height * (1 - up), b * across)];
    const rising = heading((-Math.max(...chords) * 1.4 * 180) / Math.PI);
    const out: Pt = [-side * rising[0], rising[1]];
    const back: Pt = [-out[0], -out[1]];
    return [
      sweepBetween([side * b, height], [-side, 0], scoop * b, pitch, back, height * 0.2),
      sweepBetween(pitch, out, height * 0.26, [0, 0], [side, 0], crown * b),
    ];
  };
  return { front: half(1, 0.585, 0.42, 0.22, 0.3), back: half(-1, 0.61, 0.44, 0.18, 0.33) };
}

/** Hollowed a little: 3° in from the straight at the top, 4° at the hem. */
function underarmSeam(wish: SleeveWish, height: number, side: 1 | -1): Path {
  const lean = (Math.atan2(wish.halfBiceps - wish.halfHem, wish.underarm) * 180) / Math.PI;
  const reach = wish.underarm * 0.35;
  const hem: Pt = [side * wish.halfHem, height + wish.underarm];
  const top: Pt = [side * wish.halfBiceps, height];
  return [
    sweepBetween(top, heading(90 + side * (lean + 3)), reach, hem, heading(-90 + side * (lean - 4)), reach),
  ];
}

/** @param name of the piece. Front is on the right of the drawing, back on the left. */
export function sleeve(name: string, wish: SleeveWish): DraftedPiece {
  const whole = wish.frontArmhole + wish.backArmhole + wish.ease;
  const lengthAt = (h: number): number =>
    Object.values(capHalves(wish, h)).reduce((sum, p) => sum + pathLength(p), 0);
  const height = solveFor(lengthAt, whole, 40, 190);
  const { front, back } = capHalves(wish, height);
  const overTop: Path = [...back, ...reversePath(front)];
  const hemY = height + wish.underarm;
  const seam = (side: 1 | -1): Path => underarmSeam(wish, height, side);
  const [right, left] = [seam(1), seam(-1)];
  const middle: Pt = [0, height];
  const acrossAt = (y: number): Path => {
    const [l, r] = y > height ? [left, right] : [back, front];
    return [[crossingAtHeight(l, y), crossingAtHeight(r, y)]];
  };
  const cuts = wish.lines.map((y) => height + y);
  const bands = [0, ...cuts, hemY];
  return {
    name,
    edges: [
      { name: 'sleeve cap', path: overTop },
      { name: 'underarm seam', path: right },
      {
        name: 'hem',
        path: [
          [
            [wish.halfHem, hemY],
            [-wish.halfHem, hemY],
          ],
        ],
      },
      { name: 'underarm seam', path: reversePath(left) },
    ],
    grain: [
      [0, height * 0.45],
      [0, hemY - 40],
    ],
    darts: [],
    notches: [
      notchAt(front, wish.frontNotch, middle),
      notchAt(back, wish.backNotch, middle),
      notchAt(back, wish.backNotch + 8, middle),
      notchAt(cutEdge(overTop, wish.backArmhole + wish.ease / 2)[1], 0, middle),
    ],
    levels: [
      {
        name: 'underarm',
        line: [
          [-wish.halfBiceps, height],
          [wish.halfBiceps, height],
        ],
      },
    ],
    panelLines: cuts.map((y) => ({ path: acrossAt(y) })),
    colours: wish.fills.map((fill, i) => ({ at: [38, (bands[i]! + bands[i + 1]!) / 2] as Pt, fill })),
  };
}
