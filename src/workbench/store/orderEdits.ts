import type { Design, OrderWish, SewingWishes } from '../../pattern';
import type { Edit } from './documentSlice';

const wanting =
  (change: Partial<SewingWishes>): Edit =>
  (design) => {
    const keys = Object.keys(change) as (keyof SewingWishes)[];
    return keys.every((k) => change[k] === design.sewing[k])
      ? design
      : { ...design, sewing: { ...design.sewing, ...change } };
  };

const isSame = (p: readonly OrderWish[], q: readonly OrderWish[]): boolean =>
  p.length === q.length && p.every((w, i) => w.earlier === q[i]!.earlier && w.later === q[i]!.later);

/** Keep wishes for the order of steps, as a drag leaves them (moveStep). */
export const wishOrder =
  (order: readonly OrderWish[]): Edit =>
  (design: Design) =>
    isSame(order, design.sewing.order) ? design : wanting({ order })(design);

/** Back to the usual order. */
export const forgetWishes: Edit = wishOrder([]);

/** How sleeves are sewn in: before the sides are closed, or into the closed armhole. */
export const setSleeves = (sleeves: SewingWishes['sleeves']): Edit => wanting({ sleeves });

/** Whether the thread is changed as seldom as the order allows. */
export const setFewThreads = (fewThreads: boolean): Edit => wanting({ fewThreads });

/** Number the panels anew, in sewing order. */
export const numberAnew: Edit = (design) =>
  design.numbers.length === 0 ? design : { ...design, numbers: [] };
