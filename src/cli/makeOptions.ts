import { parseArgs } from 'node:util';
import { sheetSize } from '../paper';
import type { PaperSize, TracingKind } from '../pattern';

/** What the command line says; undefined where an option is not given. Lengths in mm. */
export interface MakeOptions {
  readonly files: readonly string[];
  readonly out: string;
  readonly newSeam?: number;
  readonly tracing?: TracingKind;
  readonly hem?: number;
  readonly fabricWidth?: number;
  readonly nap?: boolean;
  readonly paper?: PaperSize;
  readonly seconds?: number;
  readonly seed?: number;
  /** mm per unit, for drawings that do not say how large they are. */
  readonly scale?: number;
}

export const USAGE = `npm run -s make -- FILE [FILE …] --out FOLDER [options]
  FILE                 a traced SVG, or one saved design
  --new-seam 15        allowance on both sides of every new seam, mm
  --outer 15           allowance to add round the traced outline, mm, or
  --included 15        the tracing is a cutting line with that much inside, mm
  --hem 40             hem allowance, mm: added to edges that are hems, or with --included what the
                       tracing has inside them (left out: as much as elsewhere)
  --fabric-width 1400  usable width of the cloth, mm
  --nap                one-way cloth: all pieces the same way up
  --paper a4           a4, letter, a3, tabloid, a0 or roll:WIDTH (mm)
  --scale S            mm per unit, for a drawing that does not say how large it is
  --seconds 2          nominal search time for each lay plan
  --seed 1             another seed may find another lay plan`;

/** Wrong usage, in one line for the user. */
export class UsageError extends Error {}

/** Options with a value: least and most allowed. */
const NUMBERS = {
  'new-seam': [0, 500],
  outer: [0, 500],
  included: [0, 500],
  hem: [0, 500],
  'fabric-width': [50, 100_000],
  seconds: [0, 3600],
  seed: [0, 4_294_967_295],
  scale: [1e-6, 1e6],
} as const;
type NumberName = keyof typeof NUMBERS;

type Values = ReadonlyMap<string, string | true>;

function readValues(args: readonly string[]): { values: Values; files: string[] } {
  const text = { type: 'string' } as const;
  const options = {
    ...Object.fromEntries(Object.keys(NUMBERS).map((n) => [n, text])),
    out: text,
    paper: text,
    nap: { type: 'boolean' },
    help: { type: 'boolean' },
  } as const;
  const { tokens } = parseArgs({
    args: [...args],
    options,
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const values = new Map<string, string | true>();
  const files: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') files.push(token.value);
    if (token.kind !== 'option') continue;
    if (!Object.hasOwn(options, token.name)) throw new UsageError(`There is no option ${token.rawName}.`);
    const takesValue = token.name !== 'nap' && token.name !== 'help';
    if (takesValue && (token.value === undefined || token.value === ''))
      throw new UsageError(`${token.rawName} needs a value.`);
    if (!takesValue && token.value !== undefined) throw new UsageError(`${token.rawName} takes no value.`);
    values.set(token.name, token.value ?? true);
  }
  return { values, files };
}

function numberOf(values: Values, name: NumberName): number | undefined {
  const text = values.get(name);
  if (text === undefined) return undefined;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(String(text).trim()) ? Number(text) : Number.NaN;
  const [least, most] = NUMBERS[name];
  const isSound = value >= least && value <= most && (name !== 'seed' || Number.isInteger(value));
  if (!isSound)
    throw new UsageError(
      `--${name} ${text} is not ${name === 'seed' ? 'a whole number' : 'a number'} from ${least} to ${most}.`,
    );
  return value;
}

function tracingOf(values: Values): TracingKind | undefined {
  const [outer, included] = [numberOf(values, 'outer'), numberOf(values, 'included')];
  if (outer !== undefined && included !== undefined) {
    throw new UsageError(
      'Give --outer or --included, not both: the traced outline is a stitching line or a cutting line.',
    );
  }
  if (outer !== undefined) return { kind: 'net', outer };
  return included === undefined ? undefined : { kind: 'cut', included };
}

function paperOf(values: Values): PaperSize | undefined {
  const paper = values.get('paper');
  if (paper === undefined) return undefined;
  try {
    return sheetSize(String(paper).toLowerCase() as PaperSize).paper;
  } catch (error) {
    if (error instanceof RangeError) throw new UsageError(error.message);
    throw error;
  }
}

/**
 * Read the command line.
 * @returns 'help' when usage is asked for
 * @throws UsageError for anything that is not the command's usage
 */
export function readOptions(args: readonly string[]): MakeOptions | 'help' {
  const { values, files } = readValues(args);
  if (values.has('help')) return 'help';
  if (files.length === 0) throw new UsageError('No FILE is given.');
  const out = values.get('out');
  if (out === undefined) throw new UsageError('No --out FOLDER is given.');
  return {
    files,
    out: String(out),
    newSeam: numberOf(values, 'new-seam'),
    tracing: tracingOf(values),
    hem: numberOf(values, 'hem'),
    fabricWidth: numberOf(values, 'fabric-width'),
    nap: values.has('nap') ? true : undefined,
    paper: paperOf(values),
    seconds: numberOf(values, 'seconds'),
    seed: numberOf(values, 'seed'),
    scale: numberOf(values, 'scale'),
  };
}
