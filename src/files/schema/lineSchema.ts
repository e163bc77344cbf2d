import * as v from 'valibot';
import { MOST_SHARE } from '../../lines';
import { LIMITS } from '../limits';
import { coordinate, id, index, list, name, path, share, within } from './basics';

const base = v.variant('kind', [
  v.strictObject({ kind: v.literal('level'), name }),
  v.strictObject({ kind: v.literal('centre') }),
  v.strictObject({ kind: v.literal('edge'), name, nth: index }),
  v.strictObject({ kind: v.literal('edge end'), name, nth: index, end: v.picklist(['first', 'last']) }),
]);
const reach = v.variant('kind', [
  v.strictObject({ kind: v.literal('from'), base, by: coordinate }),
  v.strictObject({
    kind: v.literal('between'),
    bases: v.strictTuple([base, base]),
    share: within(-MOST_SHARE, MOST_SHARE),
  }),
]);
const tie = v.variant('kind', [
  v.strictObject({
    kind: v.literal('edge'),
    name,
    nth: index,
    along: v.picklist(['edge', 'grain', 'across']),
    reach,
  }),
  v.strictObject({ kind: v.literal('inside'), down: reach, over: reach }),
  v.strictObject({
    kind: v.literal('line'),
    line: id,
    mirrored: v.boolean(),
    place: v.variant('kind', [
      v.strictObject({ kind: v.literal('share'), share }),
      v.strictObject({ kind: v.picklist(['down', 'over']), reach }),
    ]),
  }),
  v.strictObject({ kind: v.literal('dart'), dart: index, point: v.picklist([0, 1]), mirrored: v.boolean() }),
  v.strictObject({
    kind: v.literal('neighbour'),
    name,
    nth: index,
    line: id,
    end: v.picklist(['start', 'end']),
    mirrored: v.boolean(),
  }),
]);
const until = v.variant('kind', [
  v.strictObject({ kind: v.literal('outline') }),
  v.strictObject({ kind: v.literal('centre') }),
  v.strictObject({ kind: v.literal('line'), line: id, mirrored: v.boolean() }),
]);
const run = v.variant('kind', [
  v.strictObject({ kind: v.literal('square'), until }),
  v.strictObject({ kind: v.literal('with'), until }),
  v.strictObject({ kind: v.literal('angle'), degrees: within(-360, 360), until }),
]);
const ties = v.pipe(
  v.strictObject({ nodes: list(v.nullable(tie), LIMITS.curves + 1), run: v.nullable(run) }),
  v.check(
    ({ nodes, run: kept }) =>
      kept === null || (nodes.length === 2 && nodes.filter((n) => n !== null).length === 1),
    'a line that keeps its direction is straight and tied at one end',
  ),
);
/** A panel line, with what holds it. */
export const panelLine = v.pipe(
  v.strictObject({
    id,
    piece: id,
    path,
    once: v.boolean(),
    overDarts: v.picklist(['sewn', 'flat'], 'neither sewn nor flat'),
    ties: v.nullable(ties),
  }),
  v.check(
    (line) => line.ties === null || line.ties.nodes.length === line.path.length + 1,
    'the ties do not fit the line’s nodes',
  ),
);
