import type { Neighbours } from '../neighbours';
import { type PanelId, type PanelledPiece, type SeamId } from '../panels';
import { type Colour, type Design, type OrderWish, type Problem, luminance, remember } from '../pattern';
import { edgeWork, garmentTasks } from './garmentTasks';
import { inTheRound } from './inTheRound';
import { numberPanels } from './numbers';
import { type SewingPlan, type Step, edgeKey } from './plan';
import { pieceTasks } from './pieceTasks';
import { replay } from './replay';
import { roundSeams, sewnFlat } from './roundSeams';
import { type Schedule, schedule } from './schedule';
import { type Task, unique } from './task';
import { byThreads } from './threads';
import { StepWriter } from './writeSteps';

/** What of a design the sewing order depends on, beside its pieces. */
export type Wanted = Pick<Design, 'trims' | 'closings' | 'facings' | 'sewing' | 'numbers' | 'colours'>;

/** All that the sewing order depends on. A garment has it. */
export interface PlanGround {
  readonly design: Wanted;
  readonly pieces: readonly PanelledPiece[];
  readonly neighbours: Neighbours;
  /** The lowest panel number: 1 but for what is sewn after something else. */
  readonly firstNumber?: number;
}

export interface Planned {
  readonly plan: SewingPlan;
  readonly problems: readonly Problem[];
  /** Wishes for an order of two steps of the plan that cannot be met. */
  readonly refused: readonly OrderWish[];
}

const byPlace = (tasks: readonly Task[]): readonly Task[] => tasks.toSorted((p, q) => p.place - q.place);

/** Every task of a garment in its usual order: piece by piece, then what sews them to each other. */
function tasksOf({ design, pieces, neighbours }: PlanGround): {
  readonly within: readonly Task[];
  readonly between: readonly Task[];
  /** Wanted in the round, but sewn flat. */
  readonly flat: readonly Task[];
} {
  const { trims, closings, facings, sewing } = design;
  const ofPieces = pieces.map((p) => pieceTasks(p, trims, closings, sewing.order, sewing.inTheRound));
  const within = ofPieces.flatMap((p) => byPlace(p.tasks));
  const work = edgeWork(neighbours.jobs, neighbours.wholes, closings, facings, sewing.sleeves);
  const ground = { pieces, neighbours, tasks: within, sleeves: sewing.sleeves };
  const between = garmentTasks(work, ground);
  const rounds = sewing.inTheRound.length > 0 ? roundSeams(ofPieces, neighbours, sewing.inTheRound) : [];
  const all = inTheRound(rounds, work, { within, between }, ground);
  const flat = sewnFlat(ofPieces, sewing.inTheRound, rounds);
  return { within: all.within, between: byPlace(all.between), flat };
}

/** The darkest cloth among the panels of a task: its colour is the thread's (common practice, no source). */
function threads(
  colours: readonly Colour[],
  pieces: readonly PanelledPiece[],
): (task: Task) => Colour | null {
  const byId = new Map(
    colours.map((colour) => [colour.id, { colour, light: luminance(colour.fill) }] as const),
  );
  const cloth = new Map(
    pieces.flatMap((p) => p.panels.map((panel) => [panel.id, byId.get(panel.colour)] as const)),
  );
  return (task) => {
    if (task.kind === 'trim') return null;
    const own = task.lines.flatMap((l) => [...l.a, ...l.b]).flatMap((p) => cloth.get(p) ?? []);
    return own.reduce((p, q) => (q.light < p.light ? q : p), own[0]!)?.colour ?? null;
  };
}

function firstSteps<K>(steps: readonly Step[], keys: (step: Step) => readonly K[]): Map<K, number> {
  const found = new Map<K, number>();
  for (const step of steps) for (const k of keys(step)) if (!found.has(k)) found.set(k, step.step);
  return found;
}

interface Ordered extends Schedule {
  readonly flat: readonly Task[];
}

/** Tasks in the order in which they are sewn, and what of the wishes is not met. */
function ordered(ground: PlanGround, threadOf: (task: Task) => Colour | null): Ordered {
  const { order: wishes, fewThreads } = ground.design.sewing;
  const { within, between, flat } = tasksOf(ground);
  const found = { ...schedule([...within, ...between], wishes), flat };
  if (!fewThreads) return found;
  const trimFill = new Map(ground.design.trims.map((t) => [t.id, t.fill] as const));
  const fillOf = (task: Task): string | null =>
    task.trim ? (trimFill.get(task.trim) ?? null) : (threadOf(task)?.fill ?? null);
  const isWithin = new Set(within);
  const met = wishes.filter((w) => !found.refused.includes(w));
  return { ...found, order: byThreads(found.order, (t) => isWithin.has(t), fillOf, met) };
}

function plan(ground: PlanGround): Planned {
  const { design, pieces, firstNumber } = ground;
  const threadOf = threads(design.colours, pieces);
  const { order, refused, flat } = ordered(ground, threadOf);
  const panels = pieces.flatMap((p) => p.panels.map(({ id }) => id));
  const units = replay(order, panels);
  const numbers = numberPanels(
    pieces,
    unique<PanelId>([...units.flat(2), ...panels]),
    design.numbers,
    firstNumber,
  );
  const writer = new StepWriter(pieces, order, numbers);
  const steps: readonly Step[] = order.map((task, i) =>
    writer.step(task, units[i]!, i, threadOf(task)?.id ?? null),
  );
  return {
    plan: {
      steps,
      numbers,
      stepOfSeam: firstSteps<SeamId>(steps, (s) => s.seams),
      // a hidden zip comes before the seam that its edges are joined in
      stepOfEdge: firstSteps(
        steps.toSorted((p, q) => Number(p.kind === 'zip') - Number(q.kind === 'zip')),
        (s) => s.edges.map(edgeKey),
      ),
    },
    problems: [
      ...order.flatMap((task, i) => writer.problems(task, units[i]!)),
      ...refused.map((w) => writer.refused(w.earlier, w.later)),
      ...flat.map((task) => writer.sewnFlat(task)),
    ],
    refused,
  };
}

/** Remembered by the pieces and by what is wanted: these stay the same objects while something else is changed. */
const planOnce = remember(
  (
    wishes: Design['sewing'],
    trims: Design['trims'],
    closings: Design['closings'],
    facings: Design['facings'],
    numbers: Design['numbers'],
    colours: Design['colours'],
    pieces: readonly PanelledPiece[],
    neighbours: Neighbours,
    firstNumber: number,
  ): Planned =>
    plan({
      design: { sewing: wishes, trims, closings, facings, numbers, colours },
      pieces,
      neighbours,
      firstNumber,
    }),
);

/** Plan the sewing of a garment: steps, panel numbers, and what is to be told of them. Remembered. */
export function planSewing({ design, pieces, neighbours, firstNumber = 1 }: PlanGround): Planned {
  const { sewing, trims, closings, facings, numbers, colours } = design;
  return planOnce(sewing, trims, closings, facings, numbers, colours, pieces, neighbours, firstNumber);
}
