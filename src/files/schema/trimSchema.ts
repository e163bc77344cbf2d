import * as v from 'valibot';
import { LIMITS } from '../limits';
import { allowance, fill, id, index, list, name, path, percent, share, text, within } from './basics';

const trimPlace = v.variant('kind', [
  v.pipe(
    v.strictObject({ kind: v.literal('line'), line: id, from: share, to: share }),
    v.check(({ from, to }) => from < to, 'the trim ends before it begins'),
  ),
  v.strictObject({ kind: v.literal('path'), piece: id, path, once: v.boolean() }),
]);
/** A strip laid over a seam, or anywhere. */
export const trim = v.strictObject({
  id,
  name,
  on: trimPlace,
  kind: v.picklist(['straight', 'bias', 'scalloped'], 'not a kind of trim'),
  width: within(0.5, 500),
  fill,
  rows: v.picklist([1, 2], 'neither one row nor two'),
  shrinkage: percent,
  soldIn: v.nullable(within(600, 100_000)),
});

/** A zip. */
export const closing = v.strictObject({
  id,
  kind: v.picklist(['hidden', 'shown'], 'neither hidden nor shown'),
  on: v.variant('kind', [
    v.strictObject({ kind: v.literal('edge'), piece: id, edge: name, nth: index }),
    v.strictObject({ kind: v.literal('line'), line: id }),
  ]),
  length: v.nullable(within(10, 5000)),
  allowance: v.nullable(allowance),
  slot: within(0, 100),
});

const stepKey = text(LIMITS.name);
/** What is wanted of the sewing order. */
export const sewing = v.strictObject({
  sleeves: v.picklist(['flat', 'set in'], 'neither flat nor set in'),
  fewThreads: v.boolean(),
  inTheRound: list(id, LIMITS.lines),
  order: list(v.strictObject({ earlier: stepKey, later: stepKey }), LIMITS.marks),
});
