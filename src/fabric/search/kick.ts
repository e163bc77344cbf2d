import { orderBy } from './lay';
import type { LaySpace, LayState } from './laySpace';
import { copyState } from './laySpace';
import { TUNING } from './tuning';

/** Two big pieces of different size change places (their middles do). */
function swapTwo(space: LaySpace, state: LayState, random: () => number): void {
  const order = orderBy(space, (s) => s.area);
  const pick = (of: readonly number[]): number => of[Math.floor(random() * of.length)]!;
  const bigOf = (of: readonly number[]): readonly number[] =>
    of.slice(0, Math.max(1, Math.ceil(of.length * TUNING.big)));
  const shapeOf = (k: number): LaySpace['shapes'][number] => space.shapes[state.shape[k]!]!;
  const i = pick(bigOf(order));
  const unlike = order.filter((j) => Math.abs(shapeOf(j).area - shapeOf(i).area) > 0.02 * shapeOf(i).area);
  if (unlike.length === 0) return;
  const j = pick(bigOf(unlike));
  const dx = state.x[j]! - state.x[i]! + (shapeOf(j).length - shapeOf(i).length) / 2;
  const dy = state.y[j]! - state.y[i]! + (shapeOf(j).width - shapeOf(i).width) / 2;
  state.x[i] = state.x[i]! + dx;
  state.y[i] = state.y[i]! + dy;
  state.x[j] = state.x[j]! - dx;
  state.y[j] = state.y[j]! - dy;
}

/** A few pieces are put anywhere, in any of their turns. */
function reseat(space: LaySpace, state: LayState, length: number, random: () => number): void {
  const count = 1 + Math.floor(random() * TUNING.reseated);
  for (let k = 0; k < count; k += 1) {
    const i = Math.floor(random() * space.count);
    const turns = space.turns[i]!;
    const shape = turns[Math.floor(random() * turns.length)]!;
    const { domain, length: own } = space.shapes[shape]!;
    state.shape[i] = shape;
    state.x[i] = random() * Math.max(0, length - own);
    state.y[i] = domain.lowY + random() * Math.max(0, domain.highY - domain.lowY);
  }
}

/** A lay disturbed where small moves lead nowhere: big pieces swapped, or a few put elsewhere. */
export function kicked(space: LaySpace, length: number, from: LayState, random: () => number): LayState {
  const state = copyState(from);
  if (random() < TUNING.reseat) reseat(space, state, length, random);
  else swapTwo(space, state, random);
  return state;
}
