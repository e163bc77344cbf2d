import { DESIGN_FORMAT, type Design, type Outcome } from '../pattern';
import { countCrossings } from './countCrossings';
import { decodeFile } from './decodeFile';
import { checkDesign } from './designSchema';
import { LIMITS } from './limits';
import { refusable, refuse } from './refusal';

type Plain = Readonly<Record<string, unknown>>;

/** Change every entry of a list; what is no list of objects is left for the check to refuse. */
const eachOf = (list: unknown, change: (entry: Plain) => Plain): unknown =>
  Array.isArray(list)
    ? list.map((entry: unknown) =>
        typeof entry === 'object' && entry !== null ? change(entry as Plain) : entry,
      )
    : list;

const isPlain = (value: unknown): value is Plain => typeof value === 'object' && value !== null;

/** Version 1 took what a cut tracing includes at its hems to be what it includes elsewhere, whatever `hem` said. */
function withHemIncluded(allowances: unknown): unknown {
  if (!isPlain(allowances) || !isPlain(allowances['tracing'])) return allowances;
  const { kind, included } = allowances['tracing'];
  return kind === 'cut' ? { ...allowances, hem: included } : allowances;
}

/** One step from a version to the next: UPGRADES[0] turns version 1 into 2, and so on. A released entry is never edited. */
export interface Upgrade {
  readonly what: string;
  readonly up: (older: Plain) => Plain;
}

const UPGRADES: readonly Upgrade[] = [
  {
    what: 'darts have legs and treatments, lines have ties, edges have jobs',
    up: (older) => ({
      ...older,
      version: 2,
      allowances: withHemIncluded(older['allowances']),
      pieces: eachOf(older['pieces'], (piece) => ({
        ...piece,
        foldPanels: false,
        darts: eachOf(piece['darts'], (dart) => ({ ...dart, legs: null, treatment: { kind: 'keep' } })),
      })),
      lines: eachOf(older['lines'], (line) => ({ ...line, overDarts: 'flat', ties: null })),
      edgeJobs: [],
      meantOff: [],
    }),
  },
  {
    what: 'trims have a place, a kind and rows; zips, sewing wishes, kept numbers, lining and facings',
    up: (older) => ({
      ...older,
      version: 3,
      allowances: isPlain(older['allowances']) ? { ...older['allowances'], lines: [] } : older['allowances'],
      trims: eachOf(older['trims'], ({ line, ...trim }) => ({
        ...trim,
        on: { kind: 'line', line, from: 0, to: 1 },
        kind: 'straight',
        rows: 2,
        shrinkage: 0,
        soldIn: null,
      })),
      closings: [],
      sewing: { sleeves: 'flat', fewThreads: false, inTheRound: [], order: [] },
      numbers: [],
      lining: null,
      facings: [],
    }),
  },
  {
    what: 'cloth has a margin, a layering, a repeat and a reserve; facings have interfacing; remnants, panels off the grain',
    up: (older) => ({
      ...older,
      version: 4,
      colours: eachOf(older['colours'], (colour) => ({
        ...colour,
        margin: 0,
        layering: 'single',
        repeat: { along: 0, across: 0 },
        reserve: 0,
      })),
      facings: eachOf(older['facings'], (facing) => ({ ...facing, interfacing: null })),
      cuttingOut: { gap: 2 },
      remnants: [],
      offGrain: [],
    }),
  },
];

/** No design nests deeper than this (a point of a curve of an outline of a piece: 8). */
const DEEPEST = 20;

/** Whether brackets outside strings nest deeper than a design does; read before anything builds objects from them. */
function isTooDeep(text: string): boolean {
  let depth = 0;
  let inString = false;
  for (let i = 0; i < text.length; i += 1) {
    const c = text.charCodeAt(i);
    if (inString) {
      if (c === 0x5c) i += 1;
      else if (c === 0x22) inString = false;
    } else if (c === 0x22) inString = true;
    else if (c === 0x5b || c === 0x7b) {
      depth += 1;
      if (depth > DEEPEST) return true;
    } else if (c === 0x5d || c === 0x7d) depth -= 1;
  }
  return false;
}

function parse(text: string, file: string): Plain {
  if (isTooDeep(text)) refuse('not-a-design', { file, what: 'it is nested too deep' });
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    // Where JSON breaks off says nothing to a sewist; that it is broken does.
    return refuse('not-a-design', { file, what: 'it is damaged or cut short' });
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return refuse('not-a-design', { file, what: 'it holds something else' });
  return value as Plain;
}

const own = (plain: Plain, key: string): unknown => (Object.hasOwn(plain, key) ? plain[key] : undefined);

/** Whether text looks like a saved design rather than a drawing: it starts with a brace. */
export const looksLikeDesign = (data: Uint8Array | string): boolean => {
  const head =
    typeof data === 'string' ? data.slice(0, 200) : new TextDecoder().decode(data.subarray(0, 200));
  return /^\uFEFF?\s*[{[]/.test(head);
};

/**
 * Open a saved design: upgrade it from its version, then check all of it.
 * @param data bytes of the file, or its text
 * @returns not ok for anything but a sound design, with the path of the first fault; a file from a newer version is refused
 * untouched. Never throws on a file's content.
 */
export function openDesign(data: Uint8Array | string, file: string): Outcome<Design> {
  return refusable<Design>(() => {
    const plain = parse(decodeFile(data, file), file);
    if (own(plain, 'format') !== DESIGN_FORMAT)
      refuse('not-a-design', { file, what: 'it does not say that it is one' });
    const [version, newest] = [own(plain, 'version'), UPGRADES.length + 1];
    if (typeof version !== 'number' || !Number.isInteger(version) || version < 1)
      return refuse('design-broken', { file, where: 'version', what: 'not a version number' });
    if (version > newest) refuse('design-too-new', { file, version });
    const upgraded = UPGRADES.slice(version - 1).reduce((older, { up }) => up(older), plain);
    const checked = checkDesign({ ...upgraded, version: newest });
    if (!('design' in checked))
      return refuse('design-broken', { file, where: checked.where, what: checked.what });
    const { pieces, lines } = checked.design;
    for (const piece of pieces) {
      const drawn = lines.filter((l) => l.piece === piece.id).map((l) => l.path);
      if (countCrossings(drawn) > LIMITS.crossings)
        refuse('lines-too-tangled', { most: LIMITS.crossings }, piece.name);
    }
    return { ok: true, value: checked.design, problems: [] };
  });
}
