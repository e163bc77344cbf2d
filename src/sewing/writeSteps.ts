import type { PanelId, PanelledPiece } from '../panels';
import { type Problem, problem } from '../pattern';
import type { Need, Step, StepKey } from './plan';
import type { Units } from './replay';
import { sayStep } from './sayStep';
import type { Task } from './task';

const needsOnce = (needs: readonly Need[]): Need[] =>
  needs.filter((n, i) => needs.findIndex((o) => o.key === n.key) === i);

/** Tasks in their order, made into steps with numbers and words. */
export class StepWriter {
  readonly #pieces: ReadonlyMap<string, PanelledPiece>;
  readonly #tasks: readonly Task[];
  readonly #numbers: ReadonlyMap<PanelId, number>;
  readonly #stepOf: ReadonlyMap<StepKey, number>;

  constructor(
    pieces: readonly PanelledPiece[],
    tasks: readonly Task[],
    numbers: ReadonlyMap<PanelId, number>,
  ) {
    this.#pieces = new Map(pieces.map((p) => [p.whole.piece.id, p] as const));
    this.#tasks = tasks;
    this.#numbers = numbers;
    this.#stepOf = new Map(tasks.map((t, i) => [t.key, i + 1] as const));
  }

  #sorted(panels: readonly PanelId[]): readonly PanelId[] {
    return [...panels].sort((p, q) => this.#numbers.get(p)! - this.#numbers.get(q)!);
  }

  /** The step that finishes, or began, a seam that is sewn in two goes. */
  #partner(task: Task): number | null {
    if (task.finishes !== null) return this.#stepOf.get(task.finishes) ?? null;
    if (task.openAt === null) return null;
    const finishing = this.#tasks.find((t) => t.finishes === task.key);
    return finishing ? this.#stepOf.get(finishing.key)! : null;
  }

  /** @param i its place in the order, from 0 */
  step(task: Task, units: Units, i: number, thread: Step['thread']): Step {
    const { key, kind, piece, seams, edges, trim, closing, darts, corners } = task;
    const joins = [this.#sorted(units[0]), this.#sorted(units[1])] as const;
    const own = piece === null ? undefined : this.#pieces.get(piece);
    const text = sayStep({
      kind,
      piece: own?.whole.name ?? null,
      isPair: own?.whole.piece.cutting === 'pair',
      left: joins[0].map((p) => this.#numbers.get(p)!),
      right: joins[1].map((p) => this.#numbers.get(p)!),
      other: this.#partner(task),
      finishes: task.finishes !== null,
      what: task.what,
      isMirrored: edges.length === 1,
      eases: own?.seams.some((s) => s.eased.length > 0 && seams.includes(s.id)) ?? false,
    });
    const needs = needsOnce(task.needs.filter((n) => n.key !== key && this.#stepOf.has(n.key)));
    return {
      ...{ step: i + 1, key, kind, piece, joins, seams, edges, trim, closing, darts, corners },
      ...{ thread, needs, text },
    };
  }

  /** What a seam left partly open, or one that turns a corner, asks to be told. */
  problems(task: Task, [left]: Units): Problem[] {
    if (task.openAt === null && task.corners.length === 0) return [];
    const name = this.#pieces.get(task.piece ?? '')?.whole.name ?? null;
    const corners = task.corners.map(({ at, turn, clip }) =>
      problem('corner-set-in', { panel: this.#numbers.get(clip)!, turn }, name, at),
    );
    if (task.openAt === null) return corners;
    const panel = Math.min(...left.map((p) => this.#numbers.get(p)!));
    return [problem('partial-seam', { panel }, name, task.openAt), ...corners];
  }

  /** A seam that was wanted in the round and is sewn flat. */
  sewnFlat({ piece, reaches }: Task): Problem {
    const name = this.#pieces.get(piece ?? '')?.whole.name ?? null;
    return problem('round-sewn-flat', {}, name, reaches[0]?.at ?? null);
  }

  /** A wish for an order that what is sewn does not allow. */
  refused(earlier: StepKey, later: StepKey): Problem {
    const facts = { earlier: this.#stepOf.get(earlier)!, later: this.#stepOf.get(later)! };
    return problem('order-wish-impossible', facts);
  }
}
