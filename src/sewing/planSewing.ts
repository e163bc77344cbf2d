import type { Neighbours } from '../neighbours';
import { type PanelId, type PanelledPiece, type SeamId } from '../panels';
import { type Colour, type Design, type Problem, luminance, problem, remember } from '../pattern';
import { edgeWork, garmentTasks } from './garmentTasks';
import { numberPanels } from './numbers';
import { type Need, type SewingPlan, type Step, type StepKey, edgeKey } from './plan';
import { pieceTasks } from './pieceTasks';
import { type Units, replay } from './replay';
import { sayStep } from './sayStep';
import { schedule } from './schedule';
import { type Task, unique } from './task';

/** What of a design the sewing order depends on, beside its pieces. */
export type Wanted = Pick<Design, 'trims' | 'closings' | 'facings' | 'sewing' | 'numbers' | 'colours'>;

/** All that the sewing order depends on. A garment has it. */
export interface PlanGround {
  readonly design: Wanted;
  readonly pieces: readonly PanelledPiece[];
  readonly neighbours: Neighbours;
}

export interface Planned {
  readonly plan: SewingPlan;
  readonly problems: readonly Problem[];
}

/** Every task of a garment in its usual order: piece by piece, then what sews them to each other. */
function tasksOf({ design, pieces, neighbours }: PlanGround): readonly Task[] {
  const { trims, closings, facings, sewing } = design;
  const byPlace = (tasks: readonly Task[]): readonly Task[] => tasks.toSorted((p, q) => p.place - q.place);
  const within = pieces.flatMap((p) => byPlace(pieceTasks(p, trims, closings, sewing.order).tasks));
  const work = edgeWork(neighbours.jobs, neighbours.wholes, closings, facings, sewing.sleeves);
  const between = garmentTasks(work, { pieces, neighbours, tasks: within, sleeves: sewing.sleeves });
  return [...within, ...byPlace(between)];
}

/** The darkest cloth among panels: its colour is the thread's (common practice, no source). */
function threadOf(
  colours: readonly Colour[],
  pieces: readonly PanelledPiece[],
): (task: Task) => Colour['id'] | null {
  const dark = new Map(colours.map((c) => [c.id, luminance(c.fill)] as const));
  const cloth = new Map(pieces.flatMap((p) => p.panels.map((panel) => [panel.id, panel.colour] as const)));
  return (task) => {
    if (task.kind === 'trim') return null;
    const own = unique(task.lines.flatMap((l) => [...l.a, ...l.b]).map((p) => cloth.get(p)!));
    const darkest = own.toSorted((p, q) => (dark.get(p) ?? 1) - (dark.get(q) ?? 1))[0];
    return darkest ?? null;
  };
}

/** Steps in their order, numbered, with words. */
class Written {
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
    const finishing = this.#tasks.find((t) => t.finishes === task.key);
    return finishing ? this.#stepOf.get(finishing.key)! : null;
  }

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
      eases: own?.seams.some((s) => s.eased.length > 0 && seams.includes(s.id)) ?? false,
    });
    const needs = needsOnce(task.needs.filter((n) => this.#stepOf.has(n.key)));
    return {
      ...{ step: i + 1, key, kind, piece, joins, seams, edges, trim, closing, darts, corners },
      thread,
      needs,
      text,
    };
  }

  problems(task: Task, [left]: Units): Problem[] {
    if (task.openAt === null || task.piece === null) return [];
    const { whole } = this.#pieces.get(task.piece)!;
    const panel = Math.min(...left.map((p) => this.#numbers.get(p)!));
    return [problem('partial-seam', { panel }, whole.name, task.openAt)];
  }
}

const needsOnce = (needs: readonly Need[]): Need[] =>
  needs.filter((n, i) => needs.findIndex((o) => o.key === n.key) === i);

function firstSteps<K>(steps: readonly Step[], keys: (step: Step) => readonly K[]): Map<K, number> {
  const found = new Map<K, number>();
  for (const step of steps) for (const k of keys(step)) if (!found.has(k)) found.set(k, step.step);
  return found;
}

const planOnce = remember(
  (pieces: readonly PanelledPiece[], neighbours: Neighbours, ...wanted: readonly unknown[]): Planned => {
    const [trims, closings, facings, sewing, numbers, colours] = wanted as [
      ...[Wanted['trims'], Wanted['closings'], Wanted['facings'], Wanted['sewing'], Wanted['numbers']],
      Wanted['colours'],
    ];
    return plan({ design: { trims, closings, facings, sewing, numbers, colours }, pieces, neighbours });
  },
);

function plan({ design, pieces, neighbours }: PlanGround): Planned {
  const { order } = schedule(tasksOf({ design, pieces, neighbours }), design.sewing.order);
  const panels = pieces.flatMap((p) => p.panels.map(({ id }) => id));
  const units = replay(order, panels);
  const inHand = unique<PanelId>([...units.flat(2), ...panels]);
  const numbers = numberPanels(pieces, inHand, design.numbers);
  const written = new Written(pieces, order, numbers);
  const thread = threadOf(design.colours, pieces);
  const steps = order.map((task, i) => written.step(task, units[i]!, i, thread(task)));
  return {
    plan: {
      steps,
      numbers,
      stepOfSeam: firstSteps<SeamId>(steps, (s) => s.seams),
      stepOfEdge: firstSteps(steps, (s) => s.edges.map(edgeKey)),
    },
    problems: order.flatMap((task, i) => written.problems(task, units[i]!)),
  };
}

/** Plan the sewing of a garment: steps, panel numbers, and the warnings where a seam has to stay partly open. Remembered. */
export const planSewing = ({ design, pieces, neighbours }: PlanGround): Planned => {
  const { trims, closings, facings, sewing, numbers, colours } = design;
  return planOnce(pieces, neighbours, trims, closings, facings, sewing, numbers, colours);
};
