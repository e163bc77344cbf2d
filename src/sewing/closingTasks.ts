import { type EdgeRef, type EdgeWork, sameEdge } from '../neighbours';
import { findEdge } from '../lines';
import type { PanelledPiece } from '../panels';
import type { Closing, ClosingId } from '../pattern';
import { edgesAtEnds } from './edgesAlong';
import { type EdgesKnown, plainKey } from './edgeRing';
import { ZIP_PLACE } from './joinPlaces';
import type { JoinStep } from './joinTasks';
import type { Need, StepKey } from './plan';
import type { SeamRun } from './seamRun';
import { type Task, taskOf, unique } from './task';

/** A zip between two outer edges: set into the seam that joins them, or closing them by itself. */
export interface ZipStep {
  readonly key: StepKey;
  readonly closing: ClosingId | null;
  /** The two edges; for a piece cut as a pair the one edge of both copies, twice. */
  readonly sides: readonly [EdgeRef, EdgeRef];
  readonly place: number;
  readonly needs: readonly Need[];
}

function edgeOf({ on }: Closing, { wholes }: EdgesKnown): EdgeRef | null {
  const whole = on.kind === 'edge' ? wholes.get(on.piece) : undefined;
  if (!whole || on.kind !== 'edge') return null;
  const edge = findEdge(whole, { name: on.edge, nth: on.nth });
  return edge === null ? null : { piece: on.piece, edge };
}

/** The edge of job `zip` on the other side: of the same name on this piece or another, else that of the piece's other copy. */
function otherSide(own: EdgeWork, zips: readonly EdgeWork[]): EdgeRef {
  const alike = zips.filter((z) => !sameEdge(z, own) && z.plainName === own.plainName);
  const other = alike.find((z) => z.piece === own.piece) ?? alike[0] ?? own;
  return { piece: other.piece, edge: other.edge };
}

/** Zips on outer edges: where the design has one, and where an edge's job says so. */
export function zipSteps(
  neighbours: EdgesKnown,
  joins: readonly JoinStep[],
  closings: readonly Closing[],
): readonly ZipStep[] {
  const zips = [...neighbours.jobs.edges.values()].flat().filter((e) => e.job.kind === 'zip');
  const done: EdgeRef[] = [];
  const isDone = (ref: EdgeRef): boolean => done.some((d) => sameEdge(d, ref));
  const steps: ZipStep[] = [];
  const set = (ref: EdgeRef, closing: ClosingId | null): void => {
    const join = joins.find((j) => j.edges.some((e) => sameEdge(e, ref)));
    const pair = join?.joins.find((j) => sameEdge(j.a, ref) || sameEdge(j.b, ref));
    const work = zips.find((z) => sameEdge(z, ref));
    if (isDone(ref) || (!pair && !work)) return;
    const sides = pair ? ([pair.a, pair.b] as const) : ([ref, otherSide(work!, zips)] as const);
    done.push(...sides);
    steps.push({
      key: closing ? `zip ${closing}` : `zip ${plainKey(neighbours.wholes, ref)}`,
      closing,
      sides: [
        { piece: sides[0].piece, edge: sides[0].edge },
        { piece: sides[1].piece, edge: sides[1].edge },
      ],
      place: (join?.place ?? ZIP_PLACE) + 0.0005,
      needs: join ? [{ key: join.key, because: { kind: 'is set into it', at: null } }] : [],
    });
  };
  for (const closing of closings) {
    const ref = edgeOf(closing, neighbours);
    if (ref) set(ref, closing.id);
  }
  for (const { piece, edge } of zips) set({ piece, edge }, null);
  return steps;
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
