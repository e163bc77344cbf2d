import * as v from 'valibot';
import { DESIGN_FORMAT, DESIGN_VERSION } from '../../pattern';
import { LIMITS } from '../limits';
import { allowance, id, list, name, point, text, within } from './basics';
import { colour, cuttingOut, facing, lining, offGrain, remnant } from './clothSchema';
import { panelLine } from './lineSchema';
import { job, piece } from './pieceSchema';
import { closing, sewing, trim } from './trimSchema';

const tracing = v.variant('kind', [
  v.strictObject({ kind: v.literal('net'), outer: allowance }),
  v.strictObject({ kind: v.literal('cut'), included: allowance }),
]);

/** Widths as paper/sheetSize.ts takes them, mm. */
function isRoll(size: string): boolean {
  const width = Number(/^roll:(\d+(?:\.\d+)?)$/.exec(size)?.[1]);
  return width >= 200 && width <= 5080;
}

const paperSize = v.union(
  [v.picklist(['a4', 'letter', 'a3', 'tabloid', 'a0']), v.pipe(text(20), v.check(isRoll))],
  'not a paper size',
);

const count = v.pipe(within(1, LIMITS.fills), v.integer('not a whole number'));

/** All of a design file. Keys it does not know are faults. */
export const designShape = v.strictObject({
  format: v.literal(DESIGN_FORMAT),
  version: v.literal(DESIGN_VERSION),
  name: text(LIMITS.name),
  units: v.picklist(['cm', 'in'], 'neither cm nor in'),
  pieces: list(piece, LIMITS.pieces),
  lines: list(panelLine, LIMITS.lines),
  colours: v.pipe(list(colour, LIMITS.colours), v.minLength(1, 'no colour')),
  marks: list(v.strictObject({ piece: id, at: point, colour: id }), LIMITS.fills),
  allowances: v.strictObject({
    tracing,
    newSeam: allowance,
    hem: allowance,
    edges: list(v.strictObject({ piece: id, edge: name, width: allowance }), LIMITS.marks),
    lines: list(v.strictObject({ line: id, width: allowance }), LIMITS.lines),
  }),
  edgeJobs: list(v.strictObject({ piece: id, edge: name, job }), LIMITS.marks),
  meantOff: list(v.strictObject({ line: id, end: v.picklist(['start', 'end']) }), LIMITS.marks),
  trims: list(trim, LIMITS.trims),
  closings: list(closing, LIMITS.marks),
  sewing,
  numbers: list(v.strictObject({ piece: id, at: point, number: count }), LIMITS.fills),
  lining: v.nullable(lining),
  facings: list(facing, LIMITS.marks),
  cuttingOut,
  remnants: list(remnant, LIMITS.remnants),
  offGrain: list(offGrain, LIMITS.fills),
  paper: v.strictObject({ size: paperSize }),
});

/** A file that has the shape of a design; whether its references hold is not known yet. */
export type DesignShape = v.InferOutput<typeof designShape>;
