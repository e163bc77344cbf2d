import { type EdgeRef, edgesOfZip, zipsOf } from '../neighbours';
import type { PanelledPiece } from '../panels';
import type { Closing, ClosingId } from '../pattern';
import { edgesAtEnds } from './edgesAlong';
import type { EdgesKnown } from './edgeRing';
import { ZIP_PLACE } from './joinPlaces';
import type { JoinStep } from './joinTasks';
import type { Need, StepKey } from './plan';
import type { SeamRun } from './seamRun';
import { type Task, taskOf, unique } from './task';

/**
 * A zip in an outer edge: in the seam that joins it to its like; on an edge that is sewn to nothing, sewn to that. A hidden one is sewn to
 * both edges while they lie flat and the seam is closed below it; a shown one is set into the sewn seam. Common practice, no source.
 */
export interface ZipStep {
  readonly key: StepKey;
  readonly closing: ClosingId;
  /** The two edges; the same one twice where it is sewn to that of the other copy of its piece, or to nothing. */
  readonly sides: readonly [EdgeRef, EdgeRef];
  readonly place: number;
  readonly needs: readonly Need[];
  /** The step that sews its seam, and whether the zip comes before it; null where it is sewn to nothing. */
  readonly seam: { readonly key: StepKey; readonly place: number; readonly isLater: boolean } | null;
}

/** Between a zip and its seam there is no other step. */
const BESIDE = 0.0005;

const setInto = (key: StepKey): Need => ({ key, because: { kind: 'is set into it', at: null } });

/** What the seams of zips that are sewn in first need: those zips. */
export const zipNeeds = (zips: readonly ZipStep[], seam: StepKey): Need[] =>
  zips.flatMap((z): Need[] =>
    z.seam?.key === seam && z.seam.isLater
      ? [{ key: z.key, because: { kind: 'begun there', at: null } }]
      : [],
  );

/** A zip whose seam is sewn in parts, with something in the round: it is set in when they are sewn. */
export const afterItsSeam = (zip: ZipStep, task: Task): Task =>
  zip.seam
    ? { ...task, place: zip.seam.place + BESIDE, needs: [...task.needs, setInto(zip.seam.key)] }
    : task;

/** Zips on outer edges: those of the design, and the usual ones where an edge's job says so. */
export function zipSteps(
  { jobs, wholes }: EdgesKnown,
  joins: readonly JoinStep[],
  closings: readonly Closing[],
): readonly ZipStep[] {
  return zipsOf(closings, jobs, wholes).flatMap((zip): ZipStep[] => {
    const edges = edgesOfZip(zip);
    if (edges.length === 0) return [];
    const join = zip.join && joins.find((j) => j.joins.includes(zip.join!));
    const isFirst = join !== null && join !== undefined && zip.kind === 'hidden';
    return [
      {
        key: zip.isOwn ? `zip ${zip.id}` : zip.id,
        closing: zip.id,
        sides: [edges[0]!, edges.at(-1)!],
        place: (join?.place ?? ZIP_PLACE) + (isFirst ? -BESIDE : BESIDE),
        needs: isFirst ? join.needs : join ? [setInto(join.key)] : [],
        seam: join ? { key: join.key, place: join.place, isLater: isFirst } : null,
      },
    ];
  });
}

/** Seams that run across some others, which are sewn in parts there, as needs. */
const across = (own: readonly SeamRun[], runs: readonly SeamRun[]): Need[] =>
  runs
    .filter((r) => !own.includes(r))
    .flatMap((r): Need[] => {
      const need = r.needs.find((n) => n.because.kind === 'is crossed' && own.some((o) => o.key === n.key));
      return need ? [{ key: r.key, because: need.because }] : [];
    });

/** Zips in panel lines of one piece: set in when the line's seams are sewn, and those that run across them. */
export function zipsInLines(
  piece: PanelledPiece,
  runs: readonly SeamRun[],
  closings: readonly Closing[],
): readonly Task[] {
  const place = new Map(runs.map((r, i) => [r.key, i] as const));
  return closings.flatMap(({ id, on }): Task[] => {
    const own = runs.filter(
      (r) => on.kind === 'line' && r.lines.some((l) => l.line === on.line && !l.mirrored),
    );
    if (own.length === 0) return [];
    const stretches = own.flatMap((r) => r.stretches);
    const waits = across(own, runs);
    return [
      taskOf({
        key: `zip ${id}`,
        kind: 'zip',
        piece: piece.whole.piece.id,
        place: Math.max(...[...own, ...waits].map(({ key }) => place.get(key)!)) + 0.25,
        needs: [
          ...own.map((r): Need => ({ key: r.key, because: { kind: 'is set into it', at: null } })),
          ...waits,
        ],
        lines: [{ a: unique(stretches.map((s) => s.a)), b: unique(stretches.map((s) => s.b)) }],
        closing: id,
        reaches: edgesAtEnds(piece, unique(own.flatMap((r) => r.seams))),
      }),
    ];
  });
}
