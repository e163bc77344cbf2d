import type { Pt } from '../../geometry';
import type { Design, LineId } from '../../pattern';
import { deriveGarment } from '../deriveGarment';
import { alongLine } from './alongLine';
import { type ClothChange, expectedChange, isCheaper, layTouched, touchedCloths } from './buys';
import type { Care, LayCloth } from './clothBuy';

/** A place for a line where less is bought than where it lies. */
export interface CheapSpot {
  /** How far along the direction, mm. */
  readonly offset: number;
  /** The design with the line there. */
  readonly design: Design;
  /** The care of the plans that show the saving: those of both places were laid with the same. */
  readonly care: Exclude<Care, 'quick'>;
  /** Every cloth whose pieces change, as it comes to where the line lies and at the spot. */
  readonly changes: readonly ClothChange[];
  /** Whether a line that met another over a seam does no longer. */
  readonly misses: boolean;
}

/** The first look goes in steps of so many mm, the second to one. */
const COARSE = 5;
/** How far beyond the edge of what is good a spot lies, mm: nobody cuts to the hair. */
const SPARE = 1;
/** How often an expected saving may turn out to be none before a side is given up. */
const MOST_DOUBTS = 2;

/** What a search looks at. */
interface Ground {
  readonly design: Design;
  readonly at: (offset: number) => Design | null;
  readonly lay: LayCloth;
}

/** What changes with the line at an offset; null where the drawing would be wrong. */
function* changesAt(
  { design, at, lay }: Ground,
  offset: number,
  care: Care,
): Generator<undefined, readonly ClothChange[] | null> {
  const moved = at(offset);
  if (!moved) return null;
  const changes: ClothChange[] = [];
  for (const cloth of touchedCloths(design, moved)) {
    yield;
    changes.push(yield* layTouched(cloth, care, lay));
  }
  return changes;
}

/**
 * Whether better plans may be expected to show a saving at an offset: they are taken to be shorter than quick ones as much as
 * where the line lies. Null where the drawing would be wrong.
 */
function* isPromising(ground: Ground, offset: number): Generator<undefined, boolean | null> {
  const { design, at, lay } = ground;
  const moved = at(offset);
  if (!moved) return null;
  const expected: ClothChange[] = [];
  for (const cloth of touchedCloths(design, moved)) {
    yield;
    expected.push(yield* expectedChange(cloth, lay));
  }
  return isCheaper(expected);
}

/** The offset nearest to `bad`, in whole mm from it, that is still promising. Both on one side; `good` is. */
function* nearestGood(ground: Ground, bad: number, good: number): Generator<undefined, number> {
  let [no, yes] = [bad, good];
  while (Math.abs(yes - no) > 1) {
    const middle = Math.trunc((no + yes) / 2);
    if (yield* isPromising(ground, middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

const missesOf = (design: Design): number =>
  deriveGarment(design).problems.filter(({ code }) => code === 'lines-do-not-meet').length;

/** A spot, if better plans of both places show the saving too. */
function* provenSpot(
  ground: Ground,
  offset: number,
  care: CheapSpot['care'],
): Generator<undefined, CheapSpot | null> {
  const changes = yield* changesAt(ground, offset, care);
  if (!changes || !isCheaper(changes)) return null;
  const moved = ground.at(offset)!;
  return { offset, design: moved, care, changes, misses: missesOf(moved) > missesOf(ground.design) };
}

/** How far the search has come on one side of the line. */
class Side {
  /** The last offset known to be no better. */
  private no = 0;
  private doubts = 0;
  isDone = false;
  found: CheapSpot | null = null;
  private readonly ground: Ground;
  private readonly sign: 1 | -1;

  constructor(ground: Ground, sign: 1 | -1) {
    this.ground = ground;
    this.sign = sign;
  }

  /** Look so far out, once nearer places have been looked at. */
  *look(distance: number): Generator<undefined, void> {
    if (this.isDone) return;
    const offset = this.sign * distance;
    const promising = yield* isPromising(this.ground, offset);
    if (promising === null) this.isDone = true;
    else if (promising) yield* this.prove(offset);
    else this.no = offset;
  }

  private *prove(good: number): Generator<undefined, void> {
    const edge = yield* nearestGood(this.ground, this.no, good);
    this.found =
      (yield* provenSpot(this.ground, edge + this.sign * SPARE, 'better')) ??
      (yield* provenSpot(this.ground, good, 'better'));
    this.doubts += 1;
    this.isDone = this.found !== null || this.doubts >= MOST_DOUBTS;
    this.no = good;
  }
}

/**
 * The nearest spot on either side of a line where less is bought than where it lies: see isCheaper for what counts. Places within reach
 * are looked at in steps, with quick plans and how much better than those the plans are where the line lies; the edge of what is
 * promising is found to 1 mm, and the spot 1 mm beyond is kept only if better plans, of the line there and of the line where it lies,
 * show the saving. So no spot is claimed that plans do not show; one that does not look promising is missed. The same design gives the
 * same spots.
 * @param direction unit vector in the traced coordinates of the line's piece
 * @param reach     how far to look, mm; less where the drawing would become wrong
 * @param lay       as clothLayer gives it, best remembered
 * @returns a search to be run to its end or left off at any yield; each yield gives the spots so far. At most one spot per side,
 * the nearest first
 */
export function* cheapSpots(
  design: Design,
  line: LineId,
  direction: Pt,
  reach: number,
  lay: LayCloth,
): Generator<readonly CheapSpot[], readonly CheapSpot[]> {
  const ground: Ground = { design, at: alongLine(design, line, direction), lay };
  const sides = [new Side(ground, 1), new Side(ground, -1)];
  let spots: readonly CheapSpot[] = [];
  for (let distance = COARSE; distance <= reach; distance += COARSE) {
    for (const side of sides) {
      const looking = side.look(distance);
      while (!looking.next().done) yield spots;
      if (side.found && !spots.includes(side.found)) spots = nearestFirst([...spots, side.found]);
    }
  }
  return spots;
}

const nearestFirst = (spots: readonly CheapSpot[]): readonly CheapSpot[] =>
  [...spots].sort((a, b) => Math.abs(a.offset) - Math.abs(b.offset));

/** The spot proven once more with the best plans; null where those do not show the saving. */
export function* provenBest(
  design: Design,
  line: LineId,
  direction: Pt,
  spot: CheapSpot,
  lay: LayCloth,
): Generator<undefined, CheapSpot | null> {
  return yield* provenSpot({ design, at: alongLine(design, line, direction), lay }, spot.offset, 'best');
}
