import {
  type Care,
  type CheapSpot,
  type LayCloth,
  type RememberedLay,
  type TouchedCloth,
  acrossLine,
  cheapSpots,
  clothLayer,
  layTouched,
  provenBest,
  remembered,
  touchedCloths,
} from '../../garment/spots';
import type { Design, LineId } from '../../pattern';
import { COST_CONTRACT, type FoundSpot, type FromCost, type ToCost } from './contract';
import { withChanges } from './designChanges';

/** A hand that has brought nothing new for so long rests, ms. */
export const REST = 150;
/** How far on either side of a line cheap spots are looked for, mm. */
export const SPOT_REACH = 60;

type Now = Extract<ToCost, { kind: 'now' }>;

/** What a turn's work yields: a message, a wish to wait until the hand rests, or nothing but a chance to leave off. */
type Step = FromCost | 'rest' | undefined;

const lineIn = (design: Design, id: LineId): Design['lines'][number] | undefined =>
  design.lines.find((l) => l.id === id);

const found = ({ design, ...spot }: CheapSpot, line: LineId): FoundSpot => ({
  ...spot,
  path: lineIn(design, line)!.path,
});

/** The best care with which a cloth is known as it was and as it is, so that it need not be laid again; quick where it is not. */
function knownCare({ before, after }: TouchedCloth, lay: RememberedLay): Care {
  const isKnown = (care: Care): boolean =>
    (!before || lay.knows(before, care)) && (!after || lay.knows(after, care));
  return (['best', 'better'] as const).find(isKnown) ?? 'quick';
}

/** Lay the cloths that changed, all with the same care; what is known better already is said so. */
function* laidCloths(
  before: Design,
  now: Design,
  care: Care,
  lay: RememberedLay,
  turn: number,
): Generator<Step> {
  for (const cloth of touchedCloths(before, now)) {
    yield;
    const known = knownCare(cloth, lay);
    const taken = known === 'best' || care === 'quick' ? known : care;
    yield { kind: 'cloth', turn, care: taken, change: yield* layTouched(cloth, taken, lay) };
  }
}

/** Look for the line's cheap spots, telling of each as it is found. */
function* searchSpots(
  now: Design,
  line: LineId,
  lay: LayCloth,
  turn: number,
): Generator<Step, readonly CheapSpot[]> {
  const say = (spots: readonly CheapSpot[], isAll: boolean): FromCost => ({
    kind: 'spots',
    turn,
    spots: spots.map((spot) => found(spot, line)),
    isAll,
  });
  const drawn = lineIn(now, line);
  const direction = drawn ? acrossLine(drawn.path) : null;
  let spots: readonly CheapSpot[] = [];
  if (direction) {
    const search = cheapSpots(now, line, direction, SPOT_REACH, lay);
    for (let step = search.next(); ; step = search.next()) {
      if (step.value !== spots && step.value.length !== spots.length) yield say(step.value, false);
      spots = step.value;
      if (step.done) break;
      yield;
    }
  }
  yield say(spots, true);
  return spots;
}

/** Prove spots with the best plans; those that these do not show are taken back. */
function* proveSpots(
  now: Design,
  line: LineId,
  spots: readonly CheapSpot[],
  lay: LayCloth,
  turn: number,
): Generator<Step> {
  const direction = acrossLine(lineIn(now, line)!.path)!;
  const proven: CheapSpot[] = [];
  for (const spot of spots) {
    const again = yield* provenBest(now, line, direction, spot, lay);
    if (again) proven.push(again);
  }
  yield { kind: 'spots', turn, spots: proven.map((spot) => found(spot, line)), isAll: true };
}

/** All the work of one turn, in order: quick plans, then, once the hand rests, better ones, cheap spots, and the best. */
function* turnSteps(before: Design, { turn, changes, line }: Now, lay: RememberedLay): Generator<Step> {
  const now = withChanges(before, changes);
  const touched = touchedCloths(before, now).map(({ colour }) => colour);
  yield { kind: 'touched', turn, colours: touched };
  yield* laidCloths(before, now, 'quick', lay, turn);
  yield { kind: 'open', turn };
  yield 'rest';
  yield* laidCloths(before, now, 'better', lay, turn);
  const spots = line === null ? [] : yield* searchSpots(now, line, lay, turn);
  yield* laidCloths(before, now, 'best', lay, turn);
  if (spots.length > 0) yield* proveSpots(now, line!, spots, lay, turn);
}

/** What laying depends on besides the job. */
const clothsOf = ({ remnants, colours }: Design): string =>
  JSON.stringify([remnants, colours.map(({ id, price }) => [id, price])]);

/**
 * What the worker does with a message; needs no worker. A turn is overtaken as soon as a later message is there: work is done in slices
 * of some hundredths of a second, and after each the messages that came meanwhile are heard.
 * @param pause resolves after so many ms, when messages that came meanwhile have been handed over
 */
export function answerCost(
  post: (message: FromCost) => void,
  pause: (ms: number) => Promise<void>,
): (message: ToCost) => Promise<void> {
  let latest = 0;
  let before: Design | null = null;
  let laying = { of: '', lay: null as RememberedLay | null };

  const layerFor = (design: Design): RememberedLay => {
    const of = clothsOf(design);
    if (laying.of !== of || !laying.lay) laying = { of, lay: remembered(clothLayer(design)) };
    return laying.lay!;
  };

  async function work(now: Now, from: Design): Promise<void> {
    const { turn } = now;
    for (const step of turnSteps(from, now, layerFor(from))) {
      if (step === 'rest') await pause(REST);
      else if (step) post(step);
      else await pause(0);
      if (latest !== turn) return post({ kind: 'ended', turn, because: 'overtaken' });
    }
    post({ kind: 'ended', turn, because: 'finished' });
  }

  return async (message) => {
    const { turn } = message;
    latest = turn;
    if (message.kind === 'stop') return;
    if (message.kind === 'before') {
      const isOurs = message.contract === COST_CONTRACT;
      before = isOurs ? message.design : null;
      if (!isOurs) post({ kind: 'wrong-contract', turn, workerSpeaks: COST_CONTRACT });
      return;
    }
    if (!before) return post({ kind: 'failed', turn, message: 'there is no design to compare with' });
    try {
      await work(message, before);
    } catch (error) {
      post({ kind: 'failed', turn, message: error instanceof Error ? error.message : String(error) });
    }
  };
}
