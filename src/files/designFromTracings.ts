import { applyMatrix, mirrorAcross } from '../geometry';
import {
  DESIGN_FORMAT,
  DESIGN_VERSION,
  NOT_MADE_UP,
  PLAIN_CLOTH,
  type Allowances,
  type Colour,
  type ColourId,
  type Cutting,
  type Design,
  type LineId,
  type PanelLine,
  type PanelMark,
  type PaperSize,
  type Piece,
  type PieceId,
  type TracingKind,
  type Units,
  USUAL_HEM,
  usualHem,
} from '../pattern';
import { isInsidePanel, slicedPiece } from '../panels';
import { wordsForColours } from './colourNames';
import { uniqueNames } from './roles';
import type { TracedPiece, Tracing } from './tracing';

/** What a new design starts from where the tracings say nothing. Lengths in mm. */
export interface DesignChoices {
  readonly name?: string;
  readonly tracing?: TracingKind;
  readonly newSeam?: number;
  readonly hem?: number;
  readonly fabricWidth?: number;
  readonly nap?: boolean;
  readonly paper?: PaperSize;
  readonly units?: Units;
}

/** Common practice, no source: 15 mm seams, 40 mm hems, cloth of 140 cm. */
export const USUAL: Required<Omit<DesignChoices, 'name'>> = {
  tracing: { kind: 'net', outer: 15 },
  newSeam: 15,
  hem: USUAL_HEM,
  fabricWidth: 1400,
  nap: false,
  paper: 'a4',
  units: 'cm',
};

/** A quiet cloth colour for tracings without fills. */
const PLAIN_FILL = '#b9c4cf';

const pieceId = (i: number): PieceId => `piece-${i + 1}` as PieceId;
const colourId = (i: number): ColourId => `colour-${i + 1}` as ColourId;

/**
 * Worn left and right: sleeves and cuffs, and pieces that end at the centre in a seam or opening instead of on a fold.
 * Anything else is cut once until the user says otherwise.
 */
function cuttingOf({ name, fold, edgeNames }: TracedPiece): Cutting {
  if (/\b(sleeves?|cuffs?)\b/i.test(name)) return 'pair';
  const isCentre = (edge: string): boolean => /^cent(re|er) (back|front)\b/.test(edge);
  return fold === null && edgeNames.some((e) => isCentre(e.name)) ? 'pair' : 'once';
}

const pieceFrom = (traced: TracedPiece, name: string, i: number): Piece => ({
  id: pieceId(i),
  name,
  outline: traced.outline,
  fold: traced.fold,
  grain: traced.grain,
  darts: traced.darts,
  notches: traced.notches,
  levels: traced.levels,
  edgeNames: traced.edgeNames,
  cutting: cuttingOf(traced),
  foldPanels: false,
});

const linesFrom = (pieces: readonly TracedPiece[]): PanelLine[] =>
  pieces
    .flatMap((piece, i) => piece.lines.map(({ path, once }) => ({ piece: pieceId(i), path, once })))
    .map((line, i) => ({ id: `line-${i + 1}` as LineId, ...line, overDarts: 'flat', ties: null }));

/** The cloths: one per fill, in the order first met; one plain cloth where nothing is filled. */
function coloursFrom(pieces: readonly TracedPiece[], choices: DesignChoices): Colour[] {
  const met = [...new Set(pieces.flatMap((p) => p.fills.map((f) => f.fill)))];
  return met.length > 0
    ? coloursOf(met, wordsForColours(met), choices)
    : coloursOf([PLAIN_FILL], ['colour 1'], choices);
}

function coloursOf(fills: readonly string[], names: readonly string[], choices: DesignChoices): Colour[] {
  return fills.map((fill, i) => ({
    id: colourId(i),
    name: names[i]!,
    fill,
    width: choices.fabricWidth ?? USUAL.fabricWidth,
    ...PLAIN_CLOTH,
    nap: choices.nap ?? USUAL.nap,
  }));
}

/** Marks as traced come first; on a half piece their mirror images follow and colour what has no mark of its own. */
function marksFrom(pieces: readonly TracedPiece[], colours: readonly Colour[]): PanelMark[] {
  const idOf = new Map(colours.map((c) => [c.fill, c.id]));
  return pieces.flatMap(({ fills, fold }, i) => {
    const own = fills.map(({ at, fill }): PanelMark => ({ piece: pieceId(i), at, colour: idOf.get(fill)! }));
    if (!fold) return own;
    const mirror = mirrorAcross(fold);
    return [...own, ...own.map((mark) => ({ ...mark, at: applyMatrix(mirror, mark.at) }))];
  });
}

/**
 * Where some panels are filled and others are not, those others are of a plain cloth of their own, not of the first fill.
 * The first colour of a design is that of panels without a mark.
 */
function withPlainCloth(design: Design, choices: DesignChoices): Design {
  const isBare = (piece: Piece): boolean => {
    const marks = design.marks.filter((m) => m.piece === piece.id);
    return slicedPiece(piece, design).panels.some((panel) => !marks.some((m) => isInsidePanel(panel, m.at)));
  };
  if (design.marks.length === 0 || !design.pieces.some(isBare)) return design;
  const fills = [...new Set([...design.colours.map((c) => c.fill), PLAIN_FILL])];
  const all = coloursOf(fills, wordsForColours(fills), choices);
  const plain = all.find((c) => c.fill === PLAIN_FILL)!;
  return { ...design, colours: [plain, ...all.filter((c) => c !== plain)] };
}

function allowancesFrom(choices: DesignChoices): Allowances {
  const tracing = choices.tracing ?? USUAL.tracing;
  return {
    tracing,
    newSeam: choices.newSeam ?? USUAL.newSeam,
    hem: choices.hem ?? usualHem(tracing),
    edges: [],
    lines: [],
  };
}

/**
 * One design from tracings, in the order given. Deterministic: the same tracings give the same design, ids included.
 * Pieces of the same name are told apart by their counters or a running number.
 * @throws RangeError without any piece
 */
export function designFromTracings(tracings: readonly Tracing[], choices: DesignChoices = {}): Design {
  const traced = tracings.flatMap((t) => t.pieces);
  if (traced.length === 0) throw new RangeError('a design needs at least one piece');
  const names = uniqueNames(traced.map(({ name }) => ({ name, full: name })));
  const colours = coloursFrom(traced, choices);
  const design: Design = {
    format: DESIGN_FORMAT,
    version: DESIGN_VERSION,
    name: choices.name ?? tracings[0]!.title,
    units: choices.units ?? USUAL.units,
    pieces: traced.map((piece, i) => pieceFrom(piece, names[i]!, i)),
    lines: linesFrom(traced),
    colours,
    marks: marksFrom(traced, colours),
    allowances: allowancesFrom(choices),
    ...NOT_MADE_UP,
    paper: { size: choices.paper ?? USUAL.paper },
  };
  return withPlainCloth(design, choices);
}
