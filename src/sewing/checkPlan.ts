import { SAME_POINT, distance, endOf, startOf } from '../geometry';
import type { PanelId, PanelledPiece, Seam, SeamId } from '../panels';
import type { SewingPlan, Step } from './plan';

/** What a replay of the plan at the sewing table found wrong. */
export interface PlanFault {
  readonly step: number | null;
  readonly what: string;
}

/** Whether seams form one connected line when laid end to end in any direction. */
function areConnected(seams: readonly Seam[]): boolean {
  const waiting = seams.slice(1);
  const ends = seams.length > 0 ? [startOf(seams[0]!.path), endOf(seams[0]!.path)] : [];
  for (let found = true; found && waiting.length > 0;) {
    found = false;
    for (const s of [...waiting]) {
      const own = [startOf(s.path), endOf(s.path)];
      if (!own.some((p) => ends.some((q) => distance(p, q) <= SAME_POINT))) continue;
      ends.push(...own);
      waiting.splice(waiting.indexOf(s), 1);
      found = true;
    }
  }
  return waiting.length === 0;
}

const sameMembers = (a: ReadonlySet<PanelId>, b: readonly PanelId[]): boolean =>
  a.size === b.length && b.every((p) => a.has(p));

/** The state of the table: which panels hang together, which seams are sewn. */
class Table {
  readonly faults: PlanFault[] = [];
  readonly #groupOf = new Map<PanelId, Set<PanelId>>();
  readonly #unsewn: Set<Seam>;
  readonly #byId: ReadonlyMap<SeamId, Seam>;
  /** Seams finished in a partial seam: they may be left behind, as they are open on purpose. */
  readonly #leftOpen: ReadonlySet<SeamId>;

  constructor(pieces: readonly PanelledPiece[], steps: readonly Step[]) {
    this.#leftOpen = new Set(steps.flatMap((s) => (s.kind === 'partial seam' ? s.seams : [])));
    const seams = pieces.flatMap((p) => p.seams);
    this.#unsewn = new Set(seams);
    this.#byId = new Map(seams.map((s) => [s.id, s] as const));
    for (const p of pieces.flatMap((piece) => piece.panels)) this.#groupOf.set(p.id, new Set([p.id]));
  }

  #fault(step: Step, what: string): void {
    this.faults.push({ step: step.step, what });
  }

  sew(step: Step): void {
    const [left, right] = step.joins;
    const seams = step.seams.map((id) => this.#byId.get(id)!);
    if (seams.some((s) => !this.#unsewn.has(s))) this.#fault(step, 'a seam is sewn twice');
    for (const s of seams) this.#unsewn.delete(s);
    if (!areConnected(seams)) this.#fault(step, 'its seams are not one connected line');
    const [a, b] = [this.#groupOf.get(left[0]!)!, this.#groupOf.get(right[0]!)!];
    if (a === b) return this.#close(step, seams, a);
    if (!sameMembers(a, left) || !sameMembers(b, right))
      this.#fault(step, 'it joins panels that are not a whole unit at that time');
    const joins = (s: Seam): boolean => (a.has(s.a) && b.has(s.b)) || (a.has(s.b) && b.has(s.a));
    if (seams.some((s) => !joins(s))) this.#fault(step, 'a seam does not lie between the two units');
    const trapped =
      step.kind === 'seam' && [...this.#unsewn].some((s) => joins(s) && !this.#leftOpen.has(s.id));
    if (trapped) this.#fault(step, 'part of the seam between the two units is left behind');
    const both = new Set([...a, ...b]);
    for (const p of both) this.#groupOf.set(p, both);
  }

  /** A seam within one unit: finishing a partial seam, or closing a ring or slit whose ends both lie free. */
  #close(step: Step, seams: readonly Seam[], group: ReadonlySet<PanelId>): void {
    if (seams.some((s) => !group.has(s.a) || !group.has(s.b)))
      this.#fault(step, 'a closing seam leaves its unit');
    if (step.kind === 'seam' && !this.#endsFree(seams))
      this.#fault(step, 'a seam is trapped: it ends at a seam already sewn');
  }

  /** Whether a run's ends touch no sewn seam. */
  #endsFree(seams: readonly Seam[]): boolean {
    const ends = seams.flatMap((s) => [startOf(s.path), endOf(s.path)]);
    const inner = ends.filter((p, i) => ends.some((q, k) => k !== i && distance(p, q) <= SAME_POINT));
    const free = ends.filter((p) => !inner.includes(p));
    const sewn = [...this.#byId.values()].filter((s) => !this.#unsewn.has(s) && !seams.includes(s));
    return free.every((p) =>
      sewn.every((s) => distance(startOf(s.path), p) > SAME_POINT && distance(endOf(s.path), p) > SAME_POINT),
    );
  }

  finish(): readonly PlanFault[] {
    for (const s of this.#unsewn) this.faults.push({ step: null, what: `seam ${s.id} is never sewn` });
    return this.faults;
  }
}

/**
 * Replay a plan join by join, as at the table, sharing no code with the planning: every join brings together two units that
 * exist, along one connected seam that is whole at that time; every seam is sewn once. Empty when the plan is sound.
 */
export function checkPlan(plan: SewingPlan, pieces: readonly PanelledPiece[]): readonly PlanFault[] {
  const table = new Table(pieces, plan.steps);
  for (const step of plan.steps) if (step.kind === 'seam' || step.kind === 'partial seam') table.sew(step);
  return table.finish();
}
