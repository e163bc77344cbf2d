import type { ClothShape, LayJob, LayPlan } from '../layPlan';
import { WORK_PER_SECOND } from '../search/startLay';
import { compareClothPlans } from './compareClothPlans';
import type { FillSpace, OwnCloth } from './fillSpace';
import { laidOut, sharedOut } from './layRest';
import type { Meter, Shared, Steps } from './layRest';
import { leftOver, outlinesOn } from './leftOver';
import { firstCopies, jobOn } from './ownPlan';

/** Cloth is never filled fuller than this by pieces of a garment: no use in trying. */
const FULLEST = 0.95;
/** Into so many parts a budget is divided: one for each try to lay one piece more. */
const TRIES = 8;

const isOn =
  (cloth: ClothShape) =>
  ({ within }: LayPlan): boolean =>
    within!.remnant === cloth.remnant && within!.copy === cloth.copy;

const sum = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);

/** Indices of the pieces of a plan, in the job's order. */
const piecesOf = (job: LayJob, plan: LayPlan | undefined): number[] =>
  (plan?.placed ?? []).map((at) => job.pieces.findIndex((p) => p.panel === at.panel && p.copy === at.copy));

/** Job of laying pieces (indices) on a cloth, with a budget of its own. */
const jobOf = (job: LayJob, cloth: ClothShape, pieces: readonly number[], seconds: number): LayJob => ({
  ...jobOn(
    job,
    cloth,
    [...pieces].sort((a, b) => a - b).map((i) => job.pieces[i]!),
  ),
  seconds,
});

/** The plan of the same colour as the job's, which had a budget of its own. */
const asOf = (job: LayJob, plan: LayPlan): LayPlan => ({ ...plan, seconds: job.seconds });

/** A piece and a cloth on which it may find room beside what lies there. */
interface Try {
  readonly piece: number;
  readonly cloth: ClothShape;
  /** How full the cloth would be, 0..1. */
  readonly share: number;
}

/** Where each of some pieces may find room, by area alone: the largest piece first, on the emptiest cloth first. */
function triesFor(
  own: readonly LayPlan[],
  pieces: readonly number[],
  space: FillSpace,
  cloths: readonly OwnCloth[],
): Try[] {
  const areaOf = (all: readonly number[]): number => sum(all.map((i) => space.areaOf(i)));
  return cloths
    .flatMap((c) => {
      const laid = piecesOf(space.job, own.find(isOn(c.cloth)));
      return pieces
        .filter((piece) => space.turns[piece]!.some((form) => space.fitsBox(c, form)))
        .map((piece) => ({ piece, cloth: c.cloth, share: areaOf([...laid, piece]) / c.area }));
    })
    .filter(({ share }) => share <= FULLEST)
    .sort((a, b) => space.areaOf(b.piece) - space.areaOf(a.piece) || a.share - b.share || a.piece - b.piece);
}

/** One piece more on a cloth, by moving what lies there closer together: the plans then, or null where none is found. */
function* pushedOn(
  own: readonly LayPlan[],
  { piece, cloth }: Pick<Try, 'piece' | 'cloth'>,
  space: FillSpace,
  seconds: number,
  meter: Meter,
): Steps<LayPlan[] | null> {
  const { job } = space;
  const old = own.find(isOn(cloth));
  const task = jobOf(job, cloth, [...piecesOf(job, old), piece], seconds);
  const found = yield* laidOut(
    task,
    meter,
    () => undefined,
    ({ placed }) => placed.length > 0,
  );
  if (found.placed.length === 0) return null;
  return inOrder(space, [...own.filter((plan) => plan !== old), asOf(job, found)]);
}

/**
 * Try to lay further pieces on one's own cloth; kept where less has to be bought.
 * @param seconds nominal, for all of it
 */
export function* withMorePieces(
  shared: Shared,
  space: FillSpace,
  movable: readonly number[],
  seconds: number,
  meter: Meter,
): Steps<Shared> {
  let now = shared;
  const inVain = new Set<string>();
  const keyOf = ({ piece, cloth }: Try): string => `${piece} ${cloth.remnant} ${cloth.copy}`;
  const until = meter.spent + seconds * WORK_PER_SECOND;
  while (meter.spent < until && now.rest.length > 0) {
    const pieces = now.rest.filter((piece) => movable.includes(piece));
    const next = triesFor(now.own, pieces, space, space.cloths).find((t) => !inVain.has(keyOf(t)));
    if (!next) break;
    inVain.add(keyOf(next));
    const own = yield* pushedOn(now.own, next, space, seconds / TRIES, meter);
    if (!own) continue;
    const closer = yield* sharedOut(space.job, own, meter);
    if (compareClothPlans(closer.plan, now.plan) < 0) now = closer;
  }
  return now;
}

/**
 * Try to do with fewer of one's own cloths: what lies on one of them goes to the others.
 * @param seconds nominal, for all of it
 */
export function* ontoFewerCloths(
  shared: Shared,
  space: FillSpace,
  seconds: number,
  meter: Meter,
): Steps<Shared> {
  const { job } = space;
  let now = shared;
  const until = meter.spent + seconds * WORK_PER_SECOND;
  for (const plan of [...shared.own].sort((a, b) => areaOn(a) - areaOn(b))) {
    const others = now.own.filter(({ placed }) => placed !== plan.placed);
    const cloths = space.cloths.filter(({ cloth }) => others.some(isOn(cloth)));
    let own: readonly LayPlan[] | null = others;
    for (const piece of piecesOf(job, plan).sort((i, j) => space.areaOf(j) - space.areaOf(i))) {
      let pushed: readonly LayPlan[] | null = null;
      for (const next of triesFor(own, [piece], space, cloths)) {
        if (pushed || meter.spent >= until) break;
        pushed = yield* pushedOn(own, next, space, seconds / TRIES, meter);
      }
      own = pushed;
      if (!own) break;
    }
    if (!own) continue;
    const first = firstCopies(own);
    now = { own: first, rest: now.rest, plan: { own: first, bought: now.plan.bought } };
  }
  return now;
}

/** Area of what lies on a cloth, mm². */
const areaOn = (plan: LayPlan): number => plan.density * plan.length * plan.width;

/** Plans in the order of one's own cloths. */
const inOrder = (space: FillSpace, own: readonly LayPlan[]): LayPlan[] =>
  space.cloths.flatMap(({ cloth }) => own.filter(isOn(cloth)));

/** Cloths that save nothing worth it are left whole, the one with the least on it first. */
export function* withFewerCloths(shared: Shared, space: FillSpace, meter: Meter): Steps<Shared> {
  let now = shared;
  for (const plan of [...shared.own].sort((a, b) => areaOn(a) - areaOn(b))) {
    const fewer = yield* sharedOut(
      space.job,
      now.own.filter(({ placed }) => placed !== plan.placed),
      meter,
    );
    if (compareClothPlans(fewer.plan, now.plan) < 0) now = fewer;
  }
  return now;
}

/**
 * The same pieces on each cloth, laid so that the largest rectangle is left.
 * @param seconds nominal, for all of it
 */
export function* withLargerLeftOvers(
  own: readonly LayPlan[],
  job: LayJob,
  seconds: number,
  meter: Meter,
): Steps<readonly LayPlan[]> {
  const rectangleOf = (plan: LayPlan): number => {
    const { rectangle } = leftOver(plan.within!, outlinesOn(job, plan));
    return rectangle ? rectangle.length * rectangle.width : 0;
  };
  const out: LayPlan[] = [];
  for (const plan of own) {
    const task = jobOf(job, plan.within!, piecesOf(job, plan), seconds / own.length);
    const found = yield* laidOut(task, meter);
    const isRoomier = found.placed.length > 0 && rectangleOf(found) > rectangleOf(plan);
    out.push(isRoomier ? asOf(job, found) : plan);
  }
  return out;
}
