/** Likely reasons for a drawing of the wrong size; `paper` is any small misfit of a print, copy or photograph. */
export interface ScaleCause {
  readonly kind: string;
  /** A sentence for people. */
  readonly words: string;
}

/** What two known lengths say of a drawing's scale. Ratios are true over measured: what the drawing must be multiplied by. */
export interface ScaleCheck {
  /** Null where that way was not measured. */
  readonly ratioX: number | null;
  readonly ratioY: number | null;
  /** How far the two ways differ, as a share (0.01 is 1 %), and in mm over the longer of the two true lengths; 0 for one way. */
  readonly apart: number;
  readonly apartBy: number;
  /** What to multiply by: the same both ways where they differ by no more than measuring does. 1 where all is right. */
  readonly scaleX: number;
  readonly scaleY: number;
  /** Nothing needs to be done. */
  readonly isRight: boolean;
  readonly cause: ScaleCause | null;
}

/** A length between two points as somebody measured it: in the drawing and on the body, paper or cloth, mm. */
export interface KnownLength {
  readonly measured: number;
  readonly true: number;
}

/**
 * How far off a tape or ruler is read at each end together, mm: 1/16 in, the seam-matching tolerance of the trade (Threads no. 200,
 * "10 Patternwork Skills", 2018/19).
 */
export const TAPE_READING = 1.5875;

/** How near a ratio must come to a known one to be named, as a share. */
const NEAR = 0.015;

const PX = 96 / 25.4;

/** True over measured. 96 px to the inch is CSS Values and Units (W3C), 72 pt PDF and CSS; 90 is what older drawings were made with (from memory). */
const CAUSES: readonly (readonly [ratio: number, kind: string, words: string])[] = [
  [96 / 72, '96:72', 'It was drawn at 72 units to the inch and read at 96.'],
  [72 / 96, '72:96', 'It was drawn at 96 units to the inch and read at 72.'],
  [96 / 90, '96:90', 'It was drawn at 90 units to the inch, as older drawings were, and read at 96.'],
  [90 / 96, '90:96', 'It was drawn at 96 units to the inch and read at 90.'],
  [25.4, '25.4', 'Its units are inches and were read as millimetres.'],
  [1 / 25.4, '1:25.4', 'Its units are millimetres and were read as inches.'],
  [10, '10', 'Its units are centimetres and were read as millimetres.'],
  [1 / 10, '1:10', 'Its units are millimetres and were read as centimetres.'],
  [2.54, '2.54', 'Its units are inches and were read as centimetres.'],
  [1 / 2.54, '1:2.54', 'Its units are centimetres and were read as inches.'],
  [PX, '96:25.4', 'Its units are millimetres and were read as pixels, 96 to the inch.'],
  [1 / PX, '25.4:96', 'Its units are pixels, 96 to the inch, and were read as millimetres.'],
  [10 * PX, '960:25.4', 'Its units are centimetres and were read as pixels, 96 to the inch.'],
  [72 / 25.4, '72:25.4', 'Its units are millimetres and were read as points, 72 to the inch.'],
  [25.4 / 72, '25.4:72', 'Its units are points, 72 to the inch, and were read as millimetres.'],
  [96, '96', 'Its units are inches and were read as pixels, 96 to the inch.'],
  [2, '2', 'It was drawn at half size.'],
  [4, '4', 'It was drawn at quarter size.'],
];

/** Misfits of prints, copies and photographs stay within this share. Common practice, no source. */
const PAPER = 0.12;

const isNear = (ratio: number, to: number): boolean => Math.abs(ratio / to - 1) <= NEAR;

function causeOf(x: number, y: number): ScaleCause | null {
  const known = CAUSES.filter(([r]) => isNear(x, r) && isNear(y, r)).toSorted(
    ([p], [q]) => Math.abs(x / p - 1) - Math.abs(x / q - 1),
  )[0];
  if (known) return { kind: known[1], words: known[2] };
  if (Math.abs(x - 1) < PAPER && Math.abs(y - 1) < PAPER)
    return {
      kind: 'paper',
      words: 'A print, copy or photograph on the way here was not at full size: print at 100 %, never “fit”.',
    };
  return null;
}

function checked({ measured, true: real }: KnownLength): void {
  if (!(measured > 0) || !(real > 0) || !Number.isFinite(measured) || !Number.isFinite(real))
    throw new RangeError('a known length must be above 0 mm, in the drawing and in truth');
}

/**
 * Compare lengths known each way with the drawing's. Corrections differ each way only where the ratios differ by more than reading a tape
 * twice can explain (TAPE_READING over each true length, added up); else one ratio serves for both, longer lengths counting more.
 * @param across known length across the drawing, or null
 * @param down   known length down the drawing, or null
 * @throws RangeError where neither is given, or one is not above 0
 */
export function scaleCheck(across: KnownLength | null, down: KnownLength | null): ScaleCheck {
  const given = [across, down].filter((k) => k !== null);
  if (given.length === 0) throw new RangeError('a scale is checked by at least one known length');
  given.forEach(checked);
  const ratioOf = (k: KnownLength | null): number | null => k && k.true / k.measured;
  const slackOf = (k: KnownLength | null): number => (k ? TAPE_READING / k.true : 0);
  const [ratioX, ratioY] = [ratioOf(across), ratioOf(down)];
  const sum = (pick: (k: KnownLength) => number): number => given.reduce((s, k) => s + pick(k), 0);
  const one = sum((k) => k.true) / sum((k) => k.measured);
  const apart = ratioX === null || ratioY === null ? 0 : Math.abs(ratioX / ratioY - 1);
  const isTwo = apart > slackOf(across) + slackOf(down);
  const settled = (ratio: number, k: KnownLength | null): number =>
    Math.abs(ratio - 1) <= (isTwo ? slackOf(k) : Math.min(...given.map(slackOf))) ? 1 : ratio;
  const scaleX = settled(isTwo ? ratioX! : one, across);
  const scaleY = settled(isTwo ? ratioY! : one, down);
  const isRight = scaleX === 1 && scaleY === 1;
  return {
    ratioX,
    ratioY,
    apart,
    apartBy: apart * Math.max(...given.map((k) => k.true)),
    scaleX,
    scaleY,
    isRight,
    cause: isRight ? null : causeOf(scaleX, scaleY),
  };
}

/** Longest sides of garment pieces: from a cuff or collar of a doll's size to a full-length gown, mm. Common practice, no source. */
const GARMENT_SIDES = { least: 120, most: 2500 } as const;

/** Whether pieces with these longest sides (mm) can be a garment's. */
export const isGarmentSized = (longestSides: readonly number[]): boolean => {
  const longest = Math.max(...longestSides);
  return longest >= GARMENT_SIDES.least && longest <= GARMENT_SIDES.most;
};
