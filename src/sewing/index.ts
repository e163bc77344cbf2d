/**
 * Sewing: the order in which panels are joined, and their numbers.
 * Promises that every step joins groups that exist along one connected seam, or says that a seam must stay partly open.
 */
export * from './plan';
export type { SeamRun } from './seamRun';
export { type PlanGround, type Planned, planSewing } from './planSewing';
export { type Moved, moveStep } from './moveStep';
export { type Waits, sayNeed } from './sayNeed';
export { type Numbered, keepNumbers, numbersMeanwhile, withNumbers } from './keepNumbers';
export { type NumberChanges, numberChanges, sayNumberChanges } from './numberChanges';
export { sayNumbers } from './sayStep';
export { type CureGround, type OrderCure, orderCures } from './orderCures';
export { type PlanFault, checkPlan } from './checkPlan';
export type { SewnOrder, StripEnd, TrimStrip } from './trimStrip';
export { trimStrips } from './trimStrips';
export { type Covers, coversOf, endsAt } from './trimEndings';
export { shareOn } from './trimRange';
