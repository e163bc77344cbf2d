import { liesOnFold } from '../../lines';
import { type EdgeJobs, type EdgeWork, allowanceOfZip, edgeJobs } from '../../neighbours';
import { slicedPiece } from '../../panels';
import {
  type Allowances,
  type Colour,
  type ColourId,
  type Dart,
  type Design,
  type EdgeAllowance,
  type EdgeAnswer,
  type EdgeJob,
  type Facing,
  type PanelMark,
  type Piece,
  type PieceId,
  type Problem,
  type WholePiece,
  NOT_MADE_UP,
  openedPiece,
  remember,
} from '../../pattern';
import { facingAnswers, zippedEdges } from './facingJobs';
import { INNER_EDGE, facingPieces } from './facingPieces';
import { liningId, liningPiece } from './liningPieces';
import { CENTRE_SEAM } from './namedRing';

/** Allowance along a facing's inner edge, mm: turned in or overlocked. Common practice (1/4 in), no source. */
const INNER_ALLOWANCE = 6;

/**
 * Lining and facings as a design of their own: pieces without panel lines, all darts sewn where they were traced. Its `facings` say which of
 * its own pieces is which facing (and what that is interfaced with); nothing is cut for them again.
 */
export interface ExtraDesign {
  readonly design: Design;
  readonly problems: readonly Problem[];
}

interface Made {
  readonly piece: Piece;
  readonly colour: ColourId;
  readonly answers: readonly EdgeAnswer[];
  readonly widths: readonly EdgeAllowance[];
}

const kept = (dart: Dart): Dart => ({ ...dart, treatment: { kind: 'keep' } });

/** What becomes of a lining's edge: sewn to the lining of what its piece is sewn to there, hemmed or bound with it, else caught in the garment's seam. */
function liningJob(work: EdgeWork, jobs: EdgeJobs, isLined: (piece: PieceId) => boolean): EdgeJob {
  if (work.job.kind === 'hem' || work.job.kind === 'bound') return { kind: work.job.kind };
  const to = work.joined.find((j) => isLined(j.piece));
  if (!to) return { kind: 'left' };
  return { kind: 'joins', piece: liningId(to.piece), edge: jobs.edges.get(to.piece)![to.edge]!.plainName };
}

const ofEachName = <T extends { readonly edge: string }>(all: readonly T[]): readonly T[] =>
  all.filter((a, i) => all.findIndex((b) => b.edge === a.edge) === i);

/** Allowances of a piece's edges for what is cut from it: those set by hand, or on a cut tracing what it includes. */
function widthsFor(
  whole: WholePiece,
  { allowances }: Pick<Design, 'allowances'>,
  to: PieceId,
): EdgeAllowance[] {
  if (allowances.tracing.kind === 'net')
    return allowances.edges.flatMap(({ piece, edge, width }) => {
      const own = whole.edges.find((e) => e.plainName === edge || e.numbered === edge);
      return piece === whole.piece.id && own ? [{ piece: to, edge: own.plainName, width }] : [];
    });
  return whole.edges.flatMap(({ plainName, included }) =>
    included === null ? [] : [{ piece: to, edge: plainName, width: included }],
  );
}

/** Pieces that open at their fold, because a zip is there, with the allowance at it, mm. */
type OpenFolds = readonly (readonly [PieceId, number])[];

interface Sources extends Pick<Design, 'pieces' | 'allowances' | 'edgeJobs' | 'lining' | 'facings'> {
  readonly openFolds: OpenFolds;
  /** Edges that a zip is in, as `piece/edge`. */
  readonly zipped: readonly string[];
}

/** Zips at folds and on edges, as text: the same zips give the same. */
function opensAt({ closings, lines, pieces, allowances }: Design): string {
  const found = closings.flatMap((closing): OpenFolds => {
    const { on } = closing;
    const line = on.kind === 'line' ? lines.find((l) => l.id === on.line) : undefined;
    const piece = line && pieces.find((p) => p.id === line.piece);
    const isThere = piece && liesOnFold({ foldLine: piece.fold }, line.path);
    return isThere ? [[piece.id, allowanceOfZip(closing, allowances)]] : [];
  });
  return JSON.stringify([found, zippedEdges(closings)]);
}

/** The allowance along the seam at the fold of a piece that opens there; none where it is cut on the fold. */
const centreWidth = ({ openFolds }: Sources, of: PieceId, piece: PieceId): EdgeAllowance[] =>
  openFolds.flatMap(([open, width]) => (open === of ? [{ piece, edge: CENTRE_SEAM, width }] : []));

/** A lining that opens at the fold of its piece is sewn to its other half below. */
const centreSeam = ({ id, edgeNames }: Piece): EdgeAnswer[] =>
  edgeNames.some((e) => e.name === CENTRE_SEAM)
    ? [{ piece: id, edge: CENTRE_SEAM, job: { kind: 'joins', piece: id, edge: CENTRE_SEAM } }]
    : [];

const opensAtFold = ({ openFolds }: Sources, piece: PieceId): boolean =>
  openFolds.some(([open]) => open === piece);

/** What is sewn to what in the garment, as it is before slicing. */
const jobsOf = (design: Sources): EdgeJobs =>
  edgeJobs(
    design.pieces.map((p) => openedPiece(p, design).whole),
    design.edgeJobs,
  );

function linings(design: Sources, wholes: readonly WholePiece[]): { made: Made[]; problems: Problem[] } {
  const { lining } = design;
  if (!lining) return { made: [], problems: [] };
  const jobs = jobsOf(design);
  const isLined = (piece: PieceId): boolean => lining.pieces.includes(piece);
  const found = wholes
    .filter((w) => isLined(w.piece.id))
    .map((whole) => {
      const works = jobs.edges.get(whole.piece.id) ?? [];
      const hemNames = new Set(works.filter((w) => w.job.kind === 'hem').map((w) => w.plainName));
      const hems = whole.edges.flatMap((e, i) => (hemNames.has(e.plainName) ? [i] : []));
      const { piece, problems } = liningPiece(whole, jobs, hems, lining, opensAtFold(design, whole.piece.id));
      const answers = works.map((w) => ({
        piece: piece.id,
        edge: w.plainName,
        job: liningJob(w, jobs, isLined),
      }));
      return {
        problems,
        made: {
          piece,
          colour: lining.colour,
          answers: [...ofEachName(answers), ...centreSeam(piece)],
          widths: [...widthsFor(whole, design, piece.id), ...centreWidth(design, whole.piece.id, piece.id)],
        },
      };
    });
  return { made: found.map((f) => f.made), problems: found.flatMap((f) => f.problems) };
}

/** Facings cut from pieces; `facings` say of each piece made what facing it is. */
interface MadeFacings {
  readonly made: readonly Made[];
  readonly facings: readonly Facing[];
  readonly problems: readonly Problem[];
}

function facings(design: Sources, wholes: readonly WholePiece[]): MadeFacings {
  // an edge has one facing: the first that is said
  const once = design.facings.filter(
    (f, i, all) => all.findIndex((o) => o.piece === f.piece && o.edge === f.edge) === i,
  );
  const cut = once.flatMap((facing) => {
    const whole = wholes.find((w) => w.piece.id === facing.piece);
    if (!whole) return [];
    return [{ facing, whole, ...facingPieces(whole, facing, opensAtFold(design, whole.piece.id)) }];
  });
  const answers = facingAnswers(
    cut.flatMap((c) => c.pieces),
    jobsOf(design),
    design.zipped,
  );
  const found = cut.map(({ facing, whole, pieces, problems }) => {
    const made = pieces.map(({ piece }): Made => ({
      piece,
      colour: facing.colour,
      answers: answers.filter((a) => a.piece === piece.id),
      widths: [
        ...widthsFor(whole, design, piece.id),
        ...centreWidth(design, whole.piece.id, piece.id),
        { piece: piece.id, edge: INNER_EDGE, width: INNER_ALLOWANCE },
      ],
    }));
    return { made, problems };
  });
  return {
    made: found.flatMap((f) => f.made),
    facings: cut.flatMap(({ facing, pieces }) => pieces.map(({ piece }) => ({ ...facing, piece: piece.id }))),
    problems: found.flatMap((f) => [...f.problems]),
  };
}

/** Every panel of the extra pieces in its cloth: one mark inside each. */
const marksFor = (made: readonly Made[], allowances: Allowances): PanelMark[] =>
  made.flatMap(({ piece, colour }) =>
    slicedPiece(piece, { allowances, lines: [] }).panels.map((p) => ({
      piece: piece.id,
      at: p.flat.at,
      colour,
    })),
  );

const makeOnce = remember(
  (
    pieces: Design['pieces'],
    lining: Design['lining'],
    facing: Design['facings'],
    answers: Design['edgeJobs'],
    allowances: Allowances,
    colours: readonly Colour[],
    units: Design['units'],
    sewing: Design['sewing'],
    folds: string,
    base: { readonly format: Design['format']; readonly version: Design['version'] } & Pick<
      Design,
      'paper' | 'name'
    >,
  ): ExtraDesign => {
    const [openFolds, zipped] = JSON.parse(folds) as [OpenFolds, readonly string[]];
    const design = { pieces, allowances, edgeJobs: answers, lining, facings: facing, openFolds, zipped };
    const wholes = pieces.map((p) => openedPiece({ ...p, darts: p.darts.map(kept) }, design).whole);
    const [lined, faced] = [linings(design, wholes), facings(design, wholes)];
    const made = [...lined.made, ...faced.made];
    const { tracing } = allowances;
    const own: Allowances = {
      ...allowances,
      tracing: { kind: 'net', outer: tracing.kind === 'net' ? tracing.outer : tracing.included },
      edges: made.flatMap((m) => m.widths),
      lines: [],
    };
    return {
      design: {
        ...base,
        ...NOT_MADE_UP,
        facings: faced.facings,
        units,
        pieces: made.map((m) => m.piece),
        lines: [],
        colours,
        marks: marksFor(made, own),
        allowances: own,
        edgeJobs: made.flatMap((m) => m.answers),
        sewing: { ...sewing, inTheRound: [], order: [] },
      },
      problems: [...lined.problems, ...faced.problems],
    };
  },
);

const BASES = remember(
  (paper: Design['paper'], name: string, format: Design['format'], version: Design['version']) => ({
    format,
    version,
    paper,
    name,
  }),
);

/**
 * The lining and the facings of a design as a design of their own, cut from the pieces as they were before slicing; null when there are none.
 * The same object as long as pieces, edges, allowances and cloths stay: panel lines play no part.
 */
export function extraDesign(design: Design): ExtraDesign | null {
  const { pieces, lining, facings: faced, edgeJobs: answers, allowances, colours, units, sewing } = design;
  if ((!lining || lining.pieces.length === 0) && faced.length === 0) return null;
  const base = BASES(design.paper, design.name, design.format, design.version);
  return makeOnce(pieces, lining, faced, answers, allowances, colours, units, sewing, opensAt(design), base);
}
