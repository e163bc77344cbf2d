import * as v from 'valibot';
import {
  CHORD_SAGITTA,
  chordCount,
  endOfCurve,
  isClosed,
  signedArea,
  signedAreaOfPoints,
  type Cubic,
  type Line,
  type Pt,
} from '../geometry';
import { MOST_SHARE } from '../lines';
import { DESIGN_FORMAT, DESIGN_VERSION, type Design } from '../pattern';
import { LIMITS } from './limits';
import { ringFault } from './ringFault';

const within = (least: number, most: number) =>
  v.pipe(
    v.number('a number is missing'),
    v.finite('not a finite number'),
    v.minValue(least, `smaller than ${least}`),
    v.maxValue(most, `larger than ${most}`),
  );
const text = (most: number) =>
  v.pipe(
    v.string('text is missing'),
    v.maxLength(most, `longer than ${most} characters`),
    // Control characters and lone surrogates would break the SVG, the PDF and the saved file.
    v.regex(/^[^\p{Cc}\p{Cs}]*$/u, 'characters that cannot be shown'),
  );
const name = v.pipe(text(LIMITS.name), v.nonEmpty('a name is missing'));
const id = v.pipe(text(100), v.nonEmpty('an id is missing'));
const list = <S extends v.GenericSchema>(item: S, most: number) =>
  v.pipe(v.array(item, 'a list is missing'), v.maxLength(most, `more than ${most} entries`));

const coordinate = within(-LIMITS.reach, LIMITS.reach);
const point = v.strictTuple([coordinate, coordinate], 'not a point');
const straight = v.strictTuple([point, point], 'not a straight line');
const bent = v.strictTuple([point, point, point, point], 'not a curve');
const curve = v.lazy((input) => (Array.isArray(input) && input.length === 4 ? bent : straight));

const lineOfTwoPoints = v.pipe(
  straight,
  v.check(([a, b]) => a[0] !== b[0] || a[1] !== b[1], 'both ends are the same point'),
);
const path = v.pipe(
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
const outline = v.pipe(
  path,
  v.check((ring) => isClosed(ring as (Line | Cubic)[]), 'the outline is open'),
  v.check((ring) => ringFault(ring as (Line | Cubic)[])?.kind !== 'crosses', 'the outline crosses itself'),
  v.check((ring) => ringFault(ring as (Line | Cubic)[])?.kind !== 'no area', 'the outline encloses nothing'),
  v.check((ring) => signedArea(ring as (Line | Cubic)[]) > 0, 'the outline runs the wrong way round'),
);

const legs = <T extends v.GenericSchema>(tuple: T) => v.nullable(tuple);
const share = within(0, 1);
const index = v.pipe(within(0, LIMITS.marks), v.integer('not a whole number'));
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
const panelLine = v.pipe(
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

const job = v.variant('kind', [
  v.strictObject({ kind: v.literal('joins'), piece: id, edge: name }),
  v.strictObject({ kind: v.picklist(['fold', 'hem', 'zip', 'bound', 'left']) }),
]);

const piece = v.strictObject({
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

const fill = v.pipe(text(7), v.regex(/^#[0-9a-f]{6}$/, 'not a colour like #c0ffee'));
const percent = within(0, 50);
/** 0: none; a real one is a few mm at least. */
const repeat = v.union([v.literal(0), within(1, 2000)], 'neither 0 nor from 1 to 2000');

const colour = v.strictObject({
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
const remnant = v.strictObject({
  id,
  name,
  colour: id,
  outline: v.pipe(
    list(point, LIMITS.remnantCorners),
    v.minLength(3, 'fewer than three corners'),
    v.check((points) => ringFault(ringOf(points)) === null, 'the outline crosses itself'),
    v.check((points) => signedAreaOfPoints(points) > 0, 'the outline runs the wrong way round'),
  ),
  count: v.pipe(within(1, 100), v.integer('not a whole number')),
});

/** Wider allowances than these are slips of the pen, mm. */
const allowance = within(0, 500);
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

const trimPlace = v.variant('kind', [
  v.pipe(
    v.strictObject({ kind: v.literal('line'), line: id, from: share, to: share }),
    v.check(({ from, to }) => from < to, 'the trim ends before it begins'),
  ),
  v.strictObject({ kind: v.literal('path'), piece: id, path, once: v.boolean() }),
]);
const trim = v.strictObject({
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
const closing = v.strictObject({
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
const sewing = v.strictObject({
  sleeves: v.picklist(['flat', 'set in'], 'neither flat nor set in'),
  fewThreads: v.boolean(),
  inTheRound: list(id, LIMITS.lines),
  order: list(v.strictObject({ earlier: stepKey, later: stepKey }), LIMITS.marks),
});
const count = v.pipe(within(1, LIMITS.fills), v.integer('not a whole number'));

const shape = v.strictObject({
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
  lining: v.nullable(v.strictObject({ pieces: list(id, LIMITS.pieces), colour: id, shorter: allowance })),
  facings: list(
    v.strictObject({ piece: id, edge: name, depth: within(1, 500), colour: id, interfacing: v.nullable(id) }),
    LIMITS.marks,
  ),
  cuttingOut: v.strictObject({ gap: within(0, 100) }),
  remnants: list(remnant, LIMITS.remnants),
  offGrain: list(v.strictObject({ piece: id, at: point, degrees: within(0.1, 90) }), LIMITS.fills),
  paper: v.strictObject({ size: paperSize }),
});

type Shape = v.InferOutput<typeof shape>;

/** Places in the file where an id is given twice or names nothing, as `path: what`. */
function brokenReferences(design: Shape): { path: string; what: string } | null {
  const repeated = (
    key: 'pieces' | 'lines' | 'colours' | 'trims' | 'closings' | 'remnants',
  ): { path: string; what: string } | null => {
    const seen = new Set<string>();
    const i = design[key].findIndex((x) => seen.size === seen.add(x.id).size);
    return i < 0 ? null : { path: `${key}.${i}.id`, what: 'the id is used twice' };
  };
  const known = {
    piece: new Set(design.pieces.map((p) => p.id)),
    line: new Set(design.lines.map((l) => l.id)),
    colour: new Set(design.colours.map((c) => c.id)),
  };
  const missing = (
    list: readonly object[],
    place: string,
    key: keyof typeof known,
  ): { path: string; what: string } | null => {
    const i = list.findIndex((x) => !known[key].has((x as Record<string, string>)[key]!));
    return i < 0 ? null : { path: `${place}.${i}.${key}`, what: `there is no such ${key}` };
  };
  const missingIn = (
    ids: readonly string[],
    place: string,
    key: keyof typeof known,
  ): { path: string; what: string } | null =>
    ids.some((x) => !known[key].has(x)) ? { path: place, what: `there is no such ${key}` } : null;
  const missingPlace = (key: 'trims' | 'closings'): { path: string; what: string } | null => {
    const places: readonly { on: { kind: string; line?: string; piece?: string } }[] = design[key];
    const i = places.findIndex(({ on }) =>
      on.kind === 'line' ? !known.line.has(on.line!) : !known.piece.has(on.piece!),
    );
    return i < 0 ? null : { path: `${key}.${i}.on`, what: `there is no such ${places[i]!.on.kind}` };
  };
  return (
    repeated('pieces') ??
    repeated('lines') ??
    repeated('colours') ??
    repeated('trims') ??
    repeated('closings') ??
    repeated('remnants') ??
    missing(design.remnants, 'remnants', 'colour') ??
    missing(design.offGrain, 'offGrain', 'piece') ??
    missing(design.lines, 'lines', 'piece') ??
    missing(design.marks, 'marks', 'piece') ??
    missing(design.marks, 'marks', 'colour') ??
    missing(design.allowances.lines, 'allowances.lines', 'line') ??
    missingPlace('trims') ??
    missingPlace('closings') ??
    missing(design.numbers, 'numbers', 'piece') ??
    missing(design.facings, 'facings', 'piece') ??
    missing(design.facings, 'facings', 'colour') ??
    missingIn(
      design.facings.flatMap((f) => f.interfacing ?? []),
      'facings.interfacing',
      'colour',
    ) ??
    missingIn(design.sewing.inTheRound, 'sewing.inTheRound', 'line') ??
    missingIn(design.lining?.pieces ?? [], 'lining.pieces', 'piece') ??
    missingIn(design.lining ? [design.lining.colour] : [], 'lining.colour', 'colour') ??
    missing(design.allowances.edges, 'allowances.edges', 'piece') ??
    missing(design.edgeJobs, 'edgeJobs', 'piece') ??
    missing(design.meantOff, 'meantOff', 'line')
  );
}

/** A checked design, or the first fault with its path in the file. */
export type Checked = { readonly design: Design } | { readonly where: string; readonly what: string };

/** The one place where unknown JSON becomes a design. Keys it does not know are faults too. */
export function checkDesign(input: unknown): Checked {
  const result = v.safeParse(shape, input, { abortEarly: true, abortPipeEarly: true });
  if (!result.success) {
    const [issue] = result.issues;
    return { where: v.getDotPath(issue) ?? 'its top', what: issue.message };
  }
  const broken = brokenReferences(result.output);
  return broken ? { where: broken.path, what: broken.what } : { design: result.output as unknown as Design };
}
