import { expect, test } from 'vitest';
import { type LayJob, startLay } from '../../src/fabric';
import {
  type ClothBuy,
  type ClothChange,
  type CheapSpot,
  type LayCloth,
  cheapSpots,
  clothLayer,
  finish,
  isCheaper,
  jobKey,
  jobsOf,
  layTouched,
  moreToBuy,
  provenBest,
  remembered,
  touchedCloths,
} from '../../src/garment/spots';
import { type Polyline, type Pt, transformPath } from '../../src/geometry';
import type { Colour, ColourId, Design, LineId, PieceId, PanelMark } from '../../src/pattern';
import { colour, design, panelLine, piece, rectangle } from '../making/designs';

const LINE = 'line-1' as LineId;
const DOWN: Pt = [0, 1];
const RIGHT: Pt = [1, 0];

const mark = (at: Pt, of: string, on = 'front'): PanelMark => ({
  piece: on as PieceId,
  at,
  colour: of as ColourId,
});

interface Made {
  readonly size: Pt;
  readonly line: Polyline;
  /** A spot on either side of the line: chalk, slate. */
  readonly sides: readonly [Pt, Pt];
  readonly chalk?: Partial<Colour>;
  readonly slate?: Partial<Colour>;
}

/** A rectangle cut in two: 15 mm round every panel. */
function cutInTwo({ size: [w, h], line, sides, chalk, slate }: Made): Design {
  return design([piece(rectangle(w, h))], [panelLine(line, 0)], {
    colours: [
      { ...colour('chalk', '#e8e4d8'), ...chalk },
      { ...colour('slate', '#4a5560'), ...slate },
    ],
    marks: [mark(sides[0], 'chalk'), mark(sides[1], 'slate')],
  });
}

/** Chalk above, slate below; 500 mm wide. */
const cutAcross = (height: number, y: number, over: Partial<Made> = {}): Design =>
  cutInTwo({
    size: [500, height],
    line: [
      [0, y],
      [500, y],
    ],
    sides: [
      [250, 5],
      [250, height - 5],
    ],
    ...over,
  });

const spotsOf = (d: Design, direction: Pt, reach = 60, lay: LayCloth = remembered(clothLayer(d))) =>
  finish(cheapSpots(d, LINE, direction, reach, lay));

const saved = ({ changes }: CheapSpot): number[] => changes.map(moreToBuy);

test('a length that crosses a step of the counter: one spot up for the one cloth, one down for the other, each with 1 mm to spare', () => {
  // chalk 675.5 + 30 = 705.5 needs 800 and from 5.5 mm higher 700; slate 324.5 + 30 = 354.5 needs 400 and from 54.5 mm lower 300
  const spots = spotsOf(cutAcross(1000, 675.5), DOWN);
  expect(spots.map(({ offset }) => offset)).toEqual([-7, 56]);
  expect(spots.map(saved)).toEqual([
    [-100, 0],
    [0, -100],
  ]);
  expect(spots[0]!.design.lines[0]!.path[0]![0][1]).toBeCloseTo(668.5, 6);
});

test('a spot farther than the reach is not offered', () => {
  expect(spotsOf(cutAcross(1000, 675.5), DOWN, 50).map(({ offset }) => offset)).toEqual([-7]);
});

test('what one cloth saves and the other takes is no saving, unless the prices say so', () => {
  // chalk 705.5: 800, from 5.5 mm higher 700; slate 265 + 30 = 295: 300, and from more than 5 mm higher 400
  const even = cutAcross(940.5, 675.5);
  expect(spotsOf(even, DOWN, 20)).toEqual([]);
  const dearChalk = cutAcross(940.5, 675.5, { chalk: { price: 20 }, slate: { price: 5 } });
  const spots = spotsOf(dearChalk, DOWN, 20);
  expect(spots.map(saved)).toEqual([[-100, 100]]);
  expect(spots[0]!.offset).toBe(-7);
});

/** A front 700 wide cut along the grain at x; the chalk part shares its cloth with a back 700 wide. */
function sideBySide(x: number): Design {
  const front = piece(rectangle(700, 800));
  const back = piece(rectangle(700, 800, [900, 0]), { id: 'back' as PieceId, name: 'back' });
  const line: Polyline = [
    [x, 0],
    [x, 800],
  ];
  return design([front, back], [panelLine(line, 0)], {
    marks: [mark([5, 400], 'chalk'), mark([695, 400], 'slate'), mark([1250, 400], 'chalk', 'back')],
  });
}

test('two panels that lie side by side only while one of them is narrow enough', () => {
  // 1400 wide, 2 between them: the front's part may be 1400 − 2 − 730 − 30 = 638 wide
  const spots = spotsOf(sideBySide(650.5), RIGHT);
  expect(spots.map(({ offset }) => offset)).toEqual([-14]);
  const [chalk] = spots[0]!.changes;
  expect(chalk!.before!.length).toBeGreaterThan(1600);
  expect(chalk!.after!.length).toBeCloseTo(830, 6);
});

test('a panel wider than its cloth begins to fit where its line leaves it narrow enough', () => {
  const wide = cutInTwo({
    size: [600, 300],
    line: [
      [390.5, 0],
      [390.5, 300],
    ],
    sides: [
      [5, 150],
      [595, 150],
    ],
    chalk: { width: 400 },
  });
  const [spot, ...others] = spotsOf(wide, RIGHT);
  expect(others).toEqual([]);
  // 370 + 30 = 400
  expect(spot!.offset).toBe(-22);
  expect(spot!.changes.map(({ before, after }) => [before!.misfits.length, after!.misfits.length])).toEqual([
    [1, 0],
    [0, 0],
  ]);
});

test('a spot is what plans of the moved design show, at the same budget as those of the design itself', () => {
  const before = cutAcross(1000, 675.5);
  const [spot] = spotsOf(before, DOWN);
  const lay = clothLayer(before);
  const changes = touchedCloths(before, spot!.design).map((cloth) =>
    finish(layTouched(cloth, spot!.care, lay)),
  );
  expect(changes).toEqual(spot!.changes);
  expect(isCheaper(changes)).toBe(true);
  expect(finish(provenBest(before, LINE, DOWN, spot!, lay))).toMatchObject({ offset: -7, care: 'best' });
});

test('a saving that only quick plans show is not claimed', () => {
  const d = cutAcross(1000, 675.5);
  const real = clothLayer(d);
  const flattering: LayCloth = function* lay(job, care) {
    const buy = yield* real(job, care);
    // better plans find that chalk needs no more where the line lies now
    return care === 'quick' || buy.name !== 'chalk' ? buy : { ...buy, buy: 700 };
  };
  expect(spotsOf(d, DOWN, 40, flattering)).toEqual([]);
});

test('the search is bounded, can be left off at every cloth, and gives the same spots again', () => {
  const d = sideBySide(650.5);
  let lays = 0;
  const counted: LayCloth = function* lay(job, care) {
    lays += 1;
    return yield* clothLayer(d)(job, care);
  };
  const first = spotsOf(d, RIGHT, 60, remembered(counted));
  // 12 steps to either side, three steps of halving, proofs of two places: of two cloths each
  expect(lays).toBeLessThan(2 * (12 * 2 + 3 + 4));
  expect(spotsOf(d, RIGHT).map(({ offset, changes }) => [offset, changes])).toEqual(
    first.map(({ offset, changes }) => [offset, changes]),
  );
  lays = 0;
  const search = cheapSpots(d, LINE, RIGHT, 60, counted);
  search.next();
  search.next();
  expect(lays).toBeLessThanOrEqual(1);
});

const bare = ({ length, buy }: { length: number; buy: number }): number[] => [length, buy];

test('a quick lay is the first plan of the lay planner, and a better one that of its budget', () => {
  const d = sideBySide(650.5);
  const [job] = jobsOf(d);
  const lay = clothLayer(d);
  expect(bare(finish(lay(job!, 'quick')))).toEqual(bare(startLay({ ...job!, seconds: 0 }).best));
  const search = startLay({ ...job!, seconds: 0.4 });
  while (!search.done) search.step(1e7);
  expect(bare(finish(lay(job!, 'better')))).toEqual(bare(search.best));
});

test('what lies on one’s own cloth is not bought, and a panel too wide for the bought cloth may fit there', () => {
  const d = cutAcross(1000, 675.5, { slate: { width: 400 } });
  const slate = jobsOf(d)[1]!;
  const bought = finish(clothLayer(d)(slate, 'quick'));
  expect(bought).toMatchObject({ buy: 0, misfits: [1] });
  const outline: Polyline = [
    [0, 0],
    [600, 0],
    [600, 700],
    [0, 700],
  ];
  const remnants = [{ id: 'rest' as never, name: 'rest', colour: 'slate' as ColourId, outline, count: 1 }];
  expect(finish(clothLayer({ ...d, remnants })(slate, 'better'))).toMatchObject({ buy: 0, misfits: [] });
});

test('only cloths whose pieces change are touched, whatever their panels are called', () => {
  const d = sideBySide(650.5);
  const moved: Design = {
    ...d,
    lines: d.lines.map((l) => ({ ...l, path: transformPath(l.path, [1, 0, 0, 1, 3, 0]) })),
  };
  expect(touchedCloths(d, d)).toEqual([]);
  expect(touchedCloths(d, { ...d, name: 'other' })).toEqual([]);
  expect(touchedCloths(d, moved).map(({ colour: c }) => c)).toEqual(['chalk', 'slate']);
  const [job] = jobsOf(d);
  const renamed: LayJob = {
    ...job!,
    seconds: 9,
    pieces: job!.pieces.map((p) => ({ ...p, panel: `${p.panel} other` as never })),
  };
  expect(jobKey(renamed)).toBe(jobKey(job!));
  expect(jobKey({ ...job!, nap: true })).not.toBe(jobKey(job!));
  expect(jobKey(jobsOf(moved)[0]!)).not.toBe(jobKey(job!));
});

test('a job is laid once while it stays the same', () => {
  const d = sideBySide(650.5);
  let lays = 0;
  const lay = remembered(function* counted(job, care) {
    lays += 1;
    return yield* clothLayer(d)(job, care);
  });
  const [job] = jobsOf(d);
  finish(lay(job!, 'quick'));
  finish(lay({ ...job! }, 'quick'));
  expect(lays).toBe(1);
  finish(lay(job!, 'better'));
  expect(lays).toBe(2);
});

test('of cloth that costs nothing less is still less; where money is at stake it decides', () => {
  const change = (was: number, is: number, price: number | null): ClothChange => {
    const of = (buy: number): ClothBuy => ({
      colour: 'chalk' as ColourId,
      name: 'chalk',
      length: buy,
      buy,
      cost: price === null ? null : (buy / 1000) * price,
      misfits: [],
    });
    return { colour: 'chalk' as ColourId, name: 'chalk', before: of(was), after: of(is) };
  };
  expect(isCheaper([change(600, 500, 0)])).toBe(true);
  expect(isCheaper([change(500, 600, 0)])).toBe(false);
  expect(isCheaper([change(600, 500, 8), change(500, 600, 8)])).toBe(false);
  expect(isCheaper([change(700, 500, 2), change(500, 600, 8)])).toBe(false);
  expect(isCheaper([change(700, 500, 2), change(500, 600, null)])).toBe(true);
});
