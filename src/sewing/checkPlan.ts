import { type Pt, SAME_POINT, distance, endOf, startOf } from '../geometry';
import type { Neighbours } from '../neighbours';
import type { PanelId, PanelledPiece, Seam, SeamId } from '../panels';
import type { Closing, LineId, OrderWish, Trim, TrimId } from '../pattern';
import { edgeFaults } from './checkEdges';
import type { SewingPlan, Step } from './plan';

/** What a replay of the plan at the sewing table found wrong. */
export interface PlanFault {
  readonly step: number | null;
  readonly what: string;
}

/** What a plan is checked against beside its pieces. */
export interface Surroundings {
  readonly neighbours: Neighbours;
  readonly wishes: readonly OrderWish[];
  readonly trims: readonly Trim[];
  /** Zips without an entry are hidden ones. */
  readonly closings?: readonly Closing[];
  /** Outer edges are finished with another garment's: those of lining and facings. */
  readonly leavesEdges?: boolean;
}

interface Ends {
  readonly piece: string;
  readonly at: Pt;
}

/** Places on outer edges that come together over a seam between pieces. */
type Meetings = readonly (readonly [Ends, Ends])[];

const endsOf = (s: Seam): Ends[] => [
  { piece: s.piece, at: startOf(s.path) },
  { piece: s.piece, at: endOf(s.path) },
];
const isAt = (p: Ends, q: Ends): boolean => p.piece === q.piece && distance(p.at, q.at) <= SAME_POINT;

/** Whether seams form one connected line when laid end to end in any direction, over the seams between pieces too. */
function areConnected(seams: readonly Seam[], meetings: Meetings): boolean {
  const waiting = seams.slice(1);
  const ends = seams.length > 0 ? endsOf(seams[0]!) : [];
  const touch = (p: Ends, q: Ends): boolean =>
    isAt(p, q) || meetings.some(([x, y]) => (isAt(x, p) && isAt(y, q)) || (isAt(x, q) && isAt(y, p)));
  for (let found = true; found && waiting.length > 0;) {
    found = false;
    for (const s of [...waiting]) {
      const own = endsOf(s);
      if (!own.some((p) => ends.some((q) => touch(p, q)))) continue;
      ends.push(...own);
      waiting.splice(waiting.indexOf(s), 1);
      found = true;
    }
  }
  return waiting.length === 0;
}

const meetingsOf = (neighbours: Neighbours | undefined): Meetings =>
  (neighbours?.seams ?? []).flatMap(({ meetings }) =>
    meetings.map(({ a, b }): readonly [Ends, Ends] => [a, b]),
  );

/** The state of the table: which panels hang together, which seams are sewn. */
class Table {
  readonly faults: PlanFault[] = [];
  readonly #groupOf = new Map<PanelId, ReadonlySet<PanelId>>();
  readonly #unsewn: Set<Seam>;
  readonly #byId: ReadonlyMap<SeamId, Seam>;
  /** Seams finished in a partial seam: they may be left behind, as they are open on purpose. */
  readonly #leftOpen: ReadonlySet<SeamId>;
  readonly #meetings: Meetings;
  readonly #lineOf: ReadonlyMap<TrimId, LineId>;
  /** Whether pieces hang together already. */
  #hasJoined = false;

  constructor(pieces: readonly PanelledPiece[], steps: readonly Step[], around: Surroundings | null) {
    const trims = around?.trims ?? [];
    this.#lineOf = new Map(
      trims.flatMap(({ id, on }) => (on.kind === 'line' ? [[id, on.line] as const] : [])),
    );
    this.#leftOpen = new Set(steps.flatMap((s) => (s.kind === 'partial seam' ? s.seams : [])));
    const seams = pieces.flatMap((p) => p.seams);
    this.#unsewn = new Set(seams);
    this.#byId = new Map(seams.map((s) => [s.id, s] as const));
    this.#meetings = meetingsOf(around?.neighbours);
    for (const p of pieces.flatMap((piece) => piece.panels)) this.#groupOf.set(p.id, new Set([p.id]));
  }

  #fault(step: Step, what: string): void {
    this.faults.push({ step: step.step, what });
  }

  /** All panels that hang together with some. */
  #unitOf(panels: readonly PanelId[]): ReadonlySet<PanelId> {
    return new Set(panels.flatMap((p) => [...this.#groupOf.get(p)!]));
  }

  #hangTogether(panels: ReadonlySet<PanelId>): void {
    for (const p of panels) this.#groupOf.set(p, panels);
  }

  follow(step: Step): void {
    if (step.joins.flat().some((p) => !this.#groupOf.has(p)))
      return this.#fault(step, 'it names a panel that is not there');
    if (step.kind === 'seam' || step.kind === 'partial seam') this.#sew(step);
    else if (step.kind === 'join' || step.kind === 'zip') this.#join(step);
    else if (step.kind === 'trim') this.#lay(step);
    else if (step.joins[0].length === 0) this.#fault(step, 'it says no panel');
  }

  #sew(step: Step): void {
    const seams = step.seams.flatMap((id) => this.#byId.get(id) ?? []);
    if (seams.some((s) => !this.#unsewn.has(s))) this.#fault(step, 'a seam is sewn twice');
    for (const s of seams) this.#unsewn.delete(s);
    if (!areConnected(seams, this.#meetings)) this.#fault(step, 'its seams are not one connected line');
    const [left, right] = step.joins;
    const [a, b] = [this.#unitOf(left), this.#unitOf(right)];
    if (right.some((p) => a.has(p))) return this.#close(step, seams, a);
    this.#areWhole(step, a, b);
    const joins = (s: Seam): boolean => (a.has(s.a) && b.has(s.b)) || (a.has(s.b) && b.has(s.a));
    if (seams.some((s) => !joins(s))) this.#fault(step, 'a seam does not lie between the two units');
    // later, where pieces hang together, two units may touch in more than one place: then the seam left closes one (see #close)
    const isBehind = (s: Seam): boolean => !this.#hasJoined && joins(s) && !this.#leftOpen.has(s.id);
    if (step.kind === 'seam' && [...this.#unsewn].some(isBehind))
      this.#fault(step, 'part of the seam between the two units is left behind');
    this.#hangTogether(new Set([...a, ...b]));
  }

  /** Both sides of a join are all that hangs together there. */
  #areWhole(step: Step, a: ReadonlySet<PanelId>, b: ReadonlySet<PanelId>): void {
    const [left, right] = step.joins;
    if (a.size !== left.length || b.size !== right.length)
      this.#fault(step, 'it joins panels that are not a whole unit at that time');
  }

  /** A trim lies on one whole unit, and the seams under it are sewn. */
  #lay(step: Step): void {
    const [on] = step.joins;
    const unit = this.#unitOf(on);
    if (on.length === 0 || unit.size !== on.length) this.#fault(step, 'the trim lies on no whole unit');
    const line = step.trim && this.#lineOf.get(step.trim);
    const isImage = step.key.includes(' mirrored');
    const isUnder = (s: Seam): boolean =>
      s.line.line === line && s.line.mirrored === isImage && unit.has(s.a) && unit.has(s.b);
    if ([...this.#unsewn].some((s) => isUnder(s) && !this.#leftOpen.has(s.id)))
      this.#fault(step, 'the seam under the trim is not sewn by then');
  }

  /** A seam between pieces, or a zip: two whole units, or panels along it within one. */
  #join(step: Step): void {
    const [left, right] = step.joins;
    if (left.length === 0 || right.length === 0) return this.#fault(step, 'it says no panel');
    const [a, b] = [this.#unitOf(left), this.#unitOf(right)];
    const isWithin = [...a].some((p) => b.has(p));
    if (!isWithin) this.#areWhole(step, a, b);
    this.#hasJoined = true;
    this.#hangTogether(new Set([...a, ...b]));
  }

  /** A seam within one unit: finishing a partial seam, or closing a ring or slit whose ends both lie free. */
  #close(step: Step, seams: readonly Seam[], group: ReadonlySet<PanelId>): void {
    if (seams.some((s) => !group.has(s.a) || !group.has(s.b)))
      this.#fault(step, 'a closing seam leaves its unit');
    if (step.kind === 'seam' && !this.#endsFree(seams, group))
      this.#fault(step, 'a seam is trapped: it ends at a seam already sewn');
  }

  /** Whether a run's ends touch no sewn seam of its unit: another unit's may come to the same place and not be joined there yet. */
  #endsFree(seams: readonly Seam[], group: ReadonlySet<PanelId>): boolean {
    const ends = seams.flatMap(endsOf);
    const free = ends.filter((p, i) => !ends.some((q, k) => k !== i && isAt(p, q)));
    const sewn = [...this.#byId.values()].filter(
      (s) => !this.#unsewn.has(s) && !seams.includes(s) && group.has(s.a),
    );
    return free.every((p) => sewn.every((s) => endsOf(s).every((q) => !isAt(p, q))));
  }

  finish(): readonly PlanFault[] {
    for (const s of this.#unsewn) this.faults.push({ step: null, what: `seam ${s.id} is never sewn` });
    return this.faults;
  }
}

/** Keys are all different, and whatever a step needs comes before it. */
function needFaults({ steps }: SewingPlan): PlanFault[] {
  const places = new Map(steps.map((s) => [s.key, s.step] as const));
  const twice = steps.filter((s) => places.get(s.key) !== s.step);
  return [
    ...twice.map((s) => ({ step: s.step, what: `another step has the key ${s.key}` })),
    ...steps.flatMap((s) =>
      s.needs
        .filter((n) => !((places.get(n.key) ?? Infinity) < s.step))
        .map((n) => ({ step: s.step, what: `it needs ${n.key}, which is not done by then` })),
    ),
  ];
}

/**
 * Replay a plan step by step, as at the table, sharing no code with the planning: every seam and join brings together two units that
 * exist, along one connected line that is whole at that time, or closes one; every seam is sewn once; what a step needs is done. With
 * `around`, seams between pieces, zips, edges, hems and trims are held to their laws too (checkEdges.ts). Empty when the plan is
 * sound.
 */
export function checkPlan(
  plan: SewingPlan,
  pieces: readonly PanelledPiece[],
  around: Surroundings | null = null,
): readonly PlanFault[] {
  const table = new Table(pieces, plan.steps, around);
  for (const step of plan.steps) table.follow(step);
  return [...table.finish(), ...needFaults(plan), ...(around ? edgeFaults(plan, pieces, around) : [])];
}
