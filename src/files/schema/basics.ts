import * as v from 'valibot';
import {
  CHORD_SAGITTA,
  chordCount,
  endOfCurve,
  isClosed,
  signedArea,
  type Cubic,
  type Line,
} from '../../geometry';
import { LIMITS } from '../limits';
import { ringFault } from '../ringFault';

/** A finite number between bounds. */
export const within = (least: number, most: number) =>
  v.pipe(
    v.number('a number is missing'),
    v.finite('not a finite number'),
    v.minValue(least, `smaller than ${least}`),
    v.maxValue(most, `larger than ${most}`),
  );
/** A string of at most so many characters, all of which can be shown. */
export const text = (most: number) =>
  v.pipe(
    v.string('text is missing'),
    v.maxLength(most, `longer than ${most} characters`),
    // Control characters and lone surrogates would break the SVG, the PDF and the saved file.
    v.regex(/^[^\p{Cc}\p{Cs}]*$/u, 'characters that cannot be shown'),
  );
/** Words by which something is called. */
export const name = v.pipe(text(LIMITS.name), v.nonEmpty('a name is missing'));
/** What something is referred to by. */
export const id = v.pipe(text(100), v.nonEmpty('an id is missing'));
/** A list of at most so many entries. */
export const list = <S extends v.GenericSchema>(item: S, most: number) =>
  v.pipe(v.array(item, 'a list is missing'), v.maxLength(most, `more than ${most} entries`));

/** mm */
export const coordinate = within(-LIMITS.reach, LIMITS.reach);
/** x, y in mm. */
export const point = v.strictTuple([coordinate, coordinate], 'not a point');
const straight = v.strictTuple([point, point], 'not a straight line');
const bent = v.strictTuple([point, point, point, point], 'not a curve');
const curve = v.lazy((input) => (Array.isArray(input) && input.length === 4 ? bent : straight));

/** A straight line with a length. */
export const lineOfTwoPoints = v.pipe(
  straight,
  v.check(([a, b]) => a[0] !== b[0] || a[1] !== b[1], 'both ends are the same point'),
);
/** Curves that join end to end. */
export const path = v.pipe(
  list(curve, LIMITS.curves),
  v.minLength(1, 'no curves'),
  v.check((curves) => {
    return curves.reduce((sum, c) => sum + chordCount(c as Line | Cubic, CHORD_SAGITTA), 0) <= LIMITS.chords;
  }, 'curves too long to work with'),
  v.check((curves) => {
    return curves.every((c, i) => {
      const before = i === 0 ? null : endOfCurve(curves[i - 1] as Line | Cubic);
      return before === null || (before[0] === c[0][0] && before[1] === c[0][1]);
    });
  }, 'the curves do not join'),
);
/** A closed, simple path with an area, the right way round. */
export const outline = v.pipe(
  path,
  v.check((ring) => isClosed(ring as (Line | Cubic)[]), 'the outline is open'),
  v.check((ring) => ringFault(ring as (Line | Cubic)[])?.kind !== 'crosses', 'the outline crosses itself'),
  v.check((ring) => ringFault(ring as (Line | Cubic)[])?.kind !== 'no area', 'the outline encloses nothing'),
  v.check((ring) => signedArea(ring as (Line | Cubic)[]) > 0, 'the outline runs the wrong way round'),
);

/** 0..1 */
export const share = within(0, 1);
/** Place in a list, from 0. */
export const index = v.pipe(within(0, LIMITS.marks), v.integer('not a whole number'));
/** #rrggbb in small letters. */
export const fill = v.pipe(text(7), v.regex(/^#[0-9a-f]{6}$/, 'not a colour like #c0ffee'));
/** Of shrinkage: what shrinks by more is not sewn. */
export const percent = within(0, 50);

/** Wider allowances than these are slips of the pen, mm. */
export const allowance = within(0, 500);
