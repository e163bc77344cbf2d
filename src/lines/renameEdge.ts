import { distance } from '../geometry';
import {
  type ClosingPlace,
  type Design,
  type PieceId,
  type WholePiece,
  nameEdge,
  openOut,
  placeAtSewn,
  sewnEdge,
} from '../pattern';
import { edgeId } from './edgeOnPiece';
import { renamedSteps } from './renamedSteps';

/** How an edge is meant in ties: plain name and which of that name. */
type Named = (name: string, nth: number) => { name: string; nth: number };

interface PlainObject {
  readonly [key: string]: unknown;
}
const isPlain = (value: unknown): value is PlainObject => typeof value === 'object' && value !== null;

const NAMING_KINDS: readonly unknown[] = ['edge', 'edge end', 'neighbour'];

/** Ties with the edges they speak of called by their new names. */
function renamedTies<T>(value: T, named: Named): T {
  if (Array.isArray(value)) return value.map((v: unknown) => renamedTies(v, named)) as T;
  if (!isPlain(value)) return value;
  const inner = Object.fromEntries(Object.entries(value).map(([k, v]) => [k, renamedTies(v, named)]));
  const { kind, name, nth } = value;
  if (!NAMING_KINDS.includes(kind) || typeof name !== 'string' || typeof nth !== 'number') return inner as T;
  return { ...inner, ...named(name, nth) } as T;
}

const middleOf = (whole: WholePiece, edge: number) => {
  const sewn = sewnEdge(whole, edge);
  return placeAtSewn(sewn, sewn.length / 2).point;
};

/** An edge is the same one when its middle has not moved, mm. */
const SAME_EDGE = 0.5;

/** What every edge of a piece is called after its names changed, by what it was called; told by where it lies. */
function newNames(before: WholePiece, after: WholePiece): Named {
  const known = new Map(
    before.edges.map((_, edge) => {
      const { name, nth } = edgeId(before, edge);
      const at = middleOf(before, edge);
      const now = after.edges.findIndex((_e, i) => distance(middleOf(after, i), at) < SAME_EDGE);
      return [`${nth} ${name}`, now < 0 ? { name, nth } : edgeId(after, now)] as const;
    }),
  );
  return (name, nth) => known.get(`${nth} ${name}`) ?? { name, nth };
}

/**
 * Give an edge another name by hand. What is kept under its old name goes along: widths, jobs, seams that name it, facings, zips, wishes for
 * the sewing order, places darts are swung to, and what lines are tied to. Where another edge had the name already, the first
 * of what is kept under it counts for both. The same design when there is no such edge.
 */
export function renameEdge(design: Design, id: PieceId, plainName: string, name: string): Design {
  const piece = design.pieces.find((p) => p.id === id);
  const renamed = piece && nameEdge(piece, plainName, name);
  if (!piece || !renamed || renamed === piece) return design;
  const [before, after] = [openOut(piece, null).whole, openOut(renamed, null).whole];
  const named = newNames(before, after);
  const nameOf = (old: string): string => {
    const edge = before.edges.findIndex((e) => e.plainName === old || e.numbered === old);
    return edge < 0 ? old : named(before.edges[edge]!.plainName, 0).name;
  };
  const keptAs = <T extends { readonly piece: PieceId; readonly edge: string }>(kept: T): T =>
    kept.piece === id ? { ...kept, edge: nameOf(kept.edge) } : kept;
  return {
    ...design,
    pieces: design.pieces.map((p) =>
      p === piece ? { ...renamed, darts: renamedPlaces(renamed.darts, nameOf) } : p,
    ),
    lines: design.lines.map((l) =>
      l.piece === id && l.ties ? { ...l, ties: renamedTies(l.ties, named) } : l,
    ),
    allowances: { ...design.allowances, edges: onceEach(design.allowances.edges.map(keptAs)) },
    facings: onceEach(design.facings.map(keptAs)),
    closings: design.closings.map((c) =>
      c.on.kind === 'edge' && c.on.piece === id ? { ...c, on: renamedPlace(c.on, named) } : c,
    ),
    edgeJobs: onceEach(
      design.edgeJobs.map((a) => {
        const own = keptAs(a);
        return own.job.kind === 'joins' ? { ...own, job: keptAs(own.job) } : own;
      }),
    ),
    sewing: { ...design.sewing, order: renamedSteps(design.sewing, outerEdges(design), id, nameOf) },
  };
}

/** The first of what is kept for each edge. */
const onceEach = <T extends { readonly piece: PieceId; readonly edge: string }>(kept: readonly T[]): T[] =>
  kept.filter((k, i) => kept.findIndex((o) => o.piece === k.piece && o.edge === k.edge) === i);

const outerEdges = ({ pieces }: Design): { piece: PieceId; edge: string }[] =>
  pieces.flatMap((p) => openOut(p, null).whole.edges.map((e) => ({ piece: p.id, edge: e.plainName })));

function renamedPlace(on: Extract<ClosingPlace, { kind: 'edge' }>, named: Named): ClosingPlace {
  const { name, nth } = named(on.edge, on.nth);
  return { ...on, edge: name, nth };
}

/** Places of darts name their edge by its plain name on the traced piece. */
const renamedPlaces = (darts: Design['pieces'][number]['darts'], nameOf: (old: string) => string) =>
  darts.map((dart) =>
    dart.treatment.kind === 'swing'
      ? {
          ...dart,
          treatment: {
            ...dart.treatment,
            parts: dart.treatment.parts.map((p) => ({ ...p, to: { ...p.to, edge: nameOf(p.to.edge) } })),
          },
        }
      : dart,
  );
