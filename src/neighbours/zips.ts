import {
  type Allowances,
  type Closing,
  type ClosingId,
  type PieceId,
  type Units,
  type WholePiece,
  MM_PER_INCH,
  remember,
} from '../pattern';
import { sideOf } from './bodySides';
import { type EdgeJobs, type EdgeRef, type EdgeWork, type SeamJoin, sameEdge } from './seamJoin';

/** A zip of the garment: one of the design's, or the usual one of an edge that is closed by a zip and has no other. */
export interface Zip extends Closing {
  /** Whether it stands in the design; a proposed one is put there when anything about it is said. */
  readonly isOwn: boolean;
  /** The edge it is on; null for one in a panel line. */
  readonly edge: EdgeRef | null;
  /** The seam between outer edges that it is in; null for one in a panel line, or on an edge that is sewn to nothing. */
  readonly join: SeamJoin | null;
}

/**
 * Allowance at a zip, mm, where none is said: 20 for both kinds (common practice; mudmosh.com's classroom set has 3/4 in, 19 mm, at a zip,
 * stepped from the 1/2 in of the seam's rest).
 */
export const ZIP_ALLOWANCE = 20;
/** Zips are sold in lengths that step by 5 cm, or by 2 in, mm. Common practice, no source. */
export const ZIP_LENGTH_STEP: Readonly<Record<Units, number>> = { cm: 50, in: 2 * MM_PER_INCH };
/** Slot of a shown zip where none is said, mm: dress-weight zips show about 10 of teeth and tape. Common practice, no source. */
export const ZIP_SLOT = 10;

/**
 * Allowance on both sides of a zip, mm: as said of the zip, else as set by hand for its edge or line, else the usual one.
 * @param included what a cut tracing includes at its edge, which nothing changes; null on a net tracing and for a panel line
 */
export function allowanceOfZip(
  { on, allowance }: Pick<Closing, 'on' | 'allowance'>,
  { edges, lines }: Pick<Allowances, 'edges' | 'lines'>,
  included: number | null = null,
): number {
  const byHand =
    on.kind === 'line'
      ? lines.find((l) => l.line === on.line)
      : edges.find((e) => e.piece === on.piece && e.edge === on.edge);
  return included ?? allowance ?? byHand?.width ?? ZIP_ALLOWANCE;
}

type Wholes = ReadonlyMap<PieceId, WholePiece>;

const joinOf = ({ joins }: EdgeJobs, edge: EdgeRef): SeamJoin | null =>
  joins.find((j) => sameEdge(j.a, edge) || sameEdge(j.b, edge)) ?? null;

/** The edge that a closing names; null when the piece has none like it. */
function edgeOf(wholes: Wholes, { on }: Closing): EdgeRef | null {
  if (on.kind !== 'edge') return null;
  const edges = wholes.get(on.piece)?.edges ?? [];
  const own = edges.flatMap((e, i) => (e.plainName === on.edge || e.numbered === on.edge ? [i] : []));
  const edge = own[on.nth];
  return edge === undefined ? null : { piece: on.piece, edge };
}

/** The place of an edge as a closing names it. */
function zipPlace(whole: WholePiece, edge: number): Closing['on'] {
  const { plainName } = whole.edges[edge]!;
  const nth = whole.edges.slice(0, edge).filter((e) => e.plainName === plainName).length;
  return { kind: 'edge', piece: whole.piece.id, edge: plainName, nth };
}

function proposed(wholes: Wholes, jobs: EdgeJobs, work: EdgeWork): Zip {
  const { piece, edge, plainName } = work;
  return {
    id: `zip ${piece}/${plainName}` as ClosingId,
    kind: 'hidden',
    on: zipPlace(wholes.get(piece)!, edge),
    length: null,
    allowance: null,
    slot: ZIP_SLOT,
    isOwn: false,
    edge: { piece, edge },
    join: joinOf(jobs, work),
  };
}

/** Of the edges of one name that have a zip, the one on the wearer's left: side zips are set in there (common practice, no source). */
function usualEdge(wholes: Wholes, works: readonly EdgeWork[]): EdgeWork {
  const onLeft = works.find(
    (w) => works.length > 1 && sideOf(wholes.get(w.piece)!, w.edge, false) === 'left',
  );
  return onLeft ?? works[0]!;
}

/** Zips for edges that are closed by one and have none: one for each name of an edge, and for each seam. */
function proposedZips(wholes: Wholes, jobs: EdgeJobs, own: readonly Zip[]): Zip[] {
  const names = new Map<string, EdgeWork[]>();
  for (const work of [...jobs.edges.values()].flat()) {
    if (work.job.kind !== 'zip') continue;
    const key = `${work.piece} ${work.plainName}`;
    names.set(key, [...(names.get(key) ?? []), work]);
  }
  const found: Zip[] = [];
  for (const works of names.values()) {
    const isHere = (zip: Zip): boolean =>
      works.some((w) =>
        [zip.edge, zip.join?.a, zip.join?.b].some((e) => e !== null && e !== undefined && sameEdge(e, w)),
      );
    if (![...own, ...found].some(isHere)) found.push(proposed(wholes, jobs, usualEdge(wholes, works)));
  }
  return found;
}

const zipsOnce = remember((jobs: EdgeJobs, closings: readonly Closing[], wholes: Wholes): readonly Zip[] => {
  const own = closings.flatMap((closing): Zip[] => {
    const edge = edgeOf(wholes, closing);
    if (closing.on.kind === 'edge' && !edge) return [];
    return [{ ...closing, isOwn: true, edge, join: edge && joinOf(jobs, edge) }];
  });
  return [...own, ...proposedZips(wholes, jobs, own)];
});

const NONE: readonly Zip[] = [];

/**
 * All zips of a garment: those of the design whose edge is there, then the usual one for every edge that is closed by a zip and has none.
 * Remembered; the same empty list where there are none.
 */
export function zipsOf(closings: readonly Closing[], jobs: EdgeJobs, wholes: Wholes): readonly Zip[] {
  if (closings.length === 0 && !hasZipEdges(jobs)) return NONE;
  return zipsOnce(jobs, closings, wholes);
}

const hasZipEdges = remember((jobs: EdgeJobs): boolean =>
  [...jobs.edges.values()].some((works) => works.some(({ job }) => job.kind === 'zip')),
);

/** The outer edges that a zip is sewn to: both sides of its seam, or the one edge of a pair or of none. */
export const edgesOfZip = ({ edge, join }: Zip): readonly EdgeRef[] => {
  if (!edge) return [];
  if (!join || sameEdge(join.a, join.b)) return [edge];
  return [join.a, join.b].map((side): EdgeRef => ({ piece: side.piece, edge: side.edge }));
};
