import * as v from 'valibot';
import { LIMITS } from '../limits';
import { index, id, lineOfTwoPoints, list, name, outline, path, point, share } from './basics';

const legs = <T extends v.GenericSchema>(tuple: T) => v.nullable(tuple);
const remainder = v.picklist(['ease', 'dart'], 'neither ease nor dart');
const treatment = v.variant('kind', [
  v.strictObject({ kind: v.literal('keep') }),
  v.strictObject({ kind: v.literal('close'), remainder }),
  v.strictObject({
    kind: v.literal('swing'),
    parts: v.pipe(
      list(
        v.strictObject({
          to: v.strictObject({ edge: name, nth: index, share }),
          share,
          close: v.nullable(remainder),
        }),
        LIMITS.dartParts,
      ),
      v.check(
        (parts) => parts.reduce((sum, p) => sum + p.share, 0) <= 1 + 1e-9,
        'more than the whole dart is swung away',
      ),
    ),
  }),
]);

const dart = v.variant(
  'kind',
  [
    v.strictObject({
      kind: v.literal('single'),
      mouth: v.strictTuple([point, point]),
      point,
      legs: legs(v.strictTuple([path, path])),
      treatment,
    }),
    v.strictObject({
      kind: v.literal('double'),
      points: v.strictTuple([point, point, point, point]),
      legs: legs(v.strictTuple([path, path, path, path])),
      treatment,
    }),
  ],
  'not a dart',
);

/** What becomes of an edge of a piece. */
export const job = v.variant('kind', [
  v.strictObject({ kind: v.literal('joins'), piece: id, edge: name }),
  v.strictObject({ kind: v.picklist(['fold', 'hem', 'zip', 'bound', 'left']) }),
]);

/** A traced piece. */
export const piece = v.strictObject({
  id,
  name,
  outline,
  fold: v.nullable(lineOfTwoPoints),
  grain: v.nullable(lineOfTwoPoints),
  darts: list(dart, LIMITS.darts),
  notches: list(v.strictObject({ at: point, inner: point }), LIMITS.marks),
  levels: list(v.strictObject({ name, line: lineOfTwoPoints }), LIMITS.marks),
  edgeNames: list(v.strictObject({ name, path }), LIMITS.marks),
  cutting: v.picklist(['once', 'pair'], 'neither once nor pair'),
  foldPanels: v.boolean(),
});
