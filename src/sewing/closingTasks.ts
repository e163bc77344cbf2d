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

/** A zip in an outer edge: set into the seam that joins it to its like; on an edge that is sewn to nothing, sewn to that. */
export interface ZipStep {
  readonly key: StepKey;
  readonly closing: ClosingId;
  /** The two edges; the same one twice where it is sewn to that of the other copy of its piece, or to nothing. */
  readonly sides: readonly [EdgeRef, EdgeRef];
  readonly place: number;
  readonly needs: readonly Need[];
}

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
    return [
      {
        key: zip.isOwn ? `zip ${zip.id}` : zip.id,
        closing: zip.id,
        sides: [edges[0]!, edges.at(-1)!],
        place: (join?.place ?? ZIP_PLACE) + 0.0005,
        needs: join ? [{ key: join.key, because: { kind: 'is set into it', at: null } }] : [],
      },
    ];
  });
}

/** Zips in panel lines of one piece: set in when the line's seams are sewn. */
export function zipsInLines(
  piece: PanelledPiece,
  runs: readonly SeamRun[],
  closings: readonly Closing[],
): readonly Task[] {
  return closings.flatMap(({ id, on }): Task[] => {
    const own = runs.filter(
      (r) => on.kind === 'line' && r.lines.some((l) => l.line === on.line && !l.mirrored),
    );
    if (own.length === 0) return [];
    const stretches = own.flatMap((r) => r.stretches);
    return [
      taskOf({
        key: `zip ${id}`,
        kind: 'zip',
        piece: piece.whole.piece.id,
        place: Math.max(...own.map((r) => runs.indexOf(r))) + 0.25,
        needs: own.map((r) => ({ key: r.key, because: { kind: 'is set into it', at: null } })),
        lines: [{ a: unique(stretches.map((s) => s.a)), b: unique(stretches.map((s) => s.b)) }],
        closing: id,
        reaches: edgesAtEnds(piece, unique(own.flatMap((r) => r.seams))),
      }),
    ];
  });
}
