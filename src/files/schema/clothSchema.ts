import * as v from 'valibot';
import { signedAreaOfPoints, type Line, type Pt } from '../../geometry';
import { LIMITS } from '../limits';
import { ringFault } from '../ringFault';
import { allowance, fill, id, list, name, percent, point, within } from './basics';

/** 0: none; a real one is a few mm at least. */
const repeat = v.union([v.literal(0), within(1, 2000)], 'neither 0 nor from 1 to 2000');

/** A cloth: its colour, and all that is known of it. */
export const colour = v.strictObject({
  id,
  name,
  fill,
  width: within(1, 100_000),
  nap: v.boolean(),
  shrinkage: v.strictObject({ along: percent, across: percent }),
  price: v.nullable(within(0, 1e9)),
  margin: within(0, 500),
  layering: v.picklist(['single', 'folded'], 'neither single nor folded'),
  repeat: v.strictObject({ along: repeat, across: repeat }),
  reserve: within(0, 100_000),
});

const ringOf = (points: readonly Pt[]): Line[] =>
  points.map((p, i): Line => [p, points[(i + 1) % points.length]!]);

/** A piece of cloth that one owns. */
export const remnant = v.strictObject({
  id,
  name,
  colour: id,
  outline: v.pipe(
    list(point, LIMITS.remnantCorners),
    v.minLength(3, 'fewer than three corners'),
    v.check((points) => ringFault(ringOf(points))?.kind !== 'crosses', 'the outline crosses itself'),
    v.check((points) => ringFault(ringOf(points)) === null, 'the outline encloses nothing'),
    v.check((points) => signedAreaOfPoints(points) > 0, 'the outline runs the wrong way round'),
  ),
  count: v.pipe(within(1, 100), v.integer('not a whole number')),
});

/** Panels lined, and with what. */
export const lining = v.strictObject({ pieces: list(id, LIMITS.pieces), colour: id, shorter: allowance });

/** A facing, and what its interfacing is cut from. */
export const facing = v.strictObject({
  piece: id,
  edge: name,
  depth: within(1, 500),
  colour: id,
  interfacing: v.nullable(id),
});

/** What is wanted of cutting out. */
export const cuttingOut = v.strictObject({ gap: within(0, 100) });

/** A panel that has leave to lie off its grain. */
export const offGrain = v.strictObject({ piece: id, at: point, degrees: within(0.1, 90) });
