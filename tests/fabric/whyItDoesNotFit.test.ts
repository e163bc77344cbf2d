import { expect, test } from 'vitest';
import { whyItDoesNotFit, widthNeeded } from '../../src/fabric/check/whyItDoesNotFit';
import { planWarnings } from '../../src/fabric/check/planWarnings';
import { allowedRotations, planLay } from '../../src/fabric';
import type { LayJob } from '../../src/fabric';
import type { Pt } from '../../src/geometry';
import { sayProblem } from '../../src/pattern';
import { randomLayJob } from './randomLayJobs';
import { jobOf, pieceOf, rectangle } from './madeUpPieces';

const wide = pieceOf(7, rectangle(1600, 1380));
const facts = (job: LayJob, i = 0): unknown => whyItDoesNotFit(job.pieces[i]!, job).facts;

test('a panel that is too wide is told with the narrowest usual width on which it fits', () => {
  const job = jobOf([wide], { width: 900, units: 'cm' });
  expect(facts(job)).toMatchObject({
    panel: 7,
    across: 1380,
    needs: 1380,
    width: 900,
    over: 480,
    fitsAt: 1400,
  });
  // margins take their part, washing too: 1400 × 0.98 = 1372 is too little
  expect(facts({ ...job, margin: 15 })).toMatchObject({ width: 870, fitsAt: 1500 });
  expect(facts({ ...job, shrinksAcross: 2 })).toMatchObject({ fitsAt: 1500 });
  expect(facts({ ...job, units: 'in' })).toMatchObject({ fitsAt: 60 * 25.4 });
  expect(facts(jobOf([pieceOf(1, rectangle(2000, 1600))], { width: 900 }))).toMatchObject({ fitsAt: null });
});

test('the angle off its grain at which it would fit is the least one in whole degrees', () => {
  // a strip 1000 by 20 lying across 600: 1000 cos θ + 20 sin θ ≤ 600 from θ = 54.3° on
  const strip = jobOf([pieceOf(1, rectangle(20, 1000))], { width: 600 });
  expect(facts(strip)).toMatchObject({ turned: 55 });
  // lining and facings cannot be given leave
  expect(facts(jobOf([pieceOf(1, rectangle(20, 1000), { keepsGrain: true })], { width: 600 }))).toMatchObject(
    {
      turned: null,
    },
  );
  // 800 by 800 needs its diagonal or its side at every angle
  expect(facts(jobOf([pieceOf(1, rectangle(800, 800))], { width: 700 }))).toMatchObject({ turned: null });
});

test('on folded cloth it is told that a panel fits unfolded, and by how much each half is too wide', () => {
  const job = jobOf([pieceOf(1, rectangle(500, 520))], { width: 900, layering: 'folded', gap: 4 });
  expect(facts(job)).toMatchObject({
    across: 520,
    needs: 1044,
    over: 72,
    unfolded: true,
    unfoldedAt: null,
    fitsAt: 1150,
  });
  // with its middle on the fold it takes no more than its own width
  const middle: [Pt, Pt] = [
    [0, 260],
    [500, 260],
  ];
  const onFold = jobOf([pieceOf(1, rectangle(500, 520), { middle })], { width: 500, layering: 'folded' });
  expect(facts(onFold)).toMatchObject({ needs: 520, over: 20, unfolded: false, unfoldedAt: 900 });
});

test('cloth that is folded and too narrow even in one layer is told with the width that is enough unfolded', () => {
  const job = jobOf([pieceOf(1, rectangle(500, 950))], { width: 900, layering: 'folded' });
  expect(facts(job)).toMatchObject({ needs: 1900, fitsAt: null, unfoldedAt: 1150 });
  const said = sayProblem(whyItDoesNotFit(job.pieces[0]!, job), 'cm');
  expect(said).toContain(
    'Choices: lay the cloth in one layer, where cloth 115 cm wide is enough; move or add',
  );
  expect(facts({ ...job, layering: 'single' })).toMatchObject({ unfolded: false, unfoldedAt: null });
});

test('where only the print keeps a panel off, that is told', () => {
  // 860 wide, its anchor 430 − 30 from one side: 30 off the middle, so 860 + 60 on a repeat of 200
  const piece = pieceOf(1, rectangle(500, 860), { anchor: [0, 400] });
  const job = jobOf([piece], { width: 900, repeat: { along: 0, across: 200 } });
  expect(facts(job)).toMatchObject({ across: 860, needs: 920, unmatched: true });
});

test('the sentence says the choices, in the user’s units', () => {
  const job = jobOf([pieceOf(7, rectangle(20, 1000))], { width: 600, units: 'cm' });
  expect(sayProblem(whyItDoesNotFit(job.pieces[0]!, job), 'cm')).toBe(
    'Panel 7 is 100 cm across and does not fit navy of 60 cm usable width. Choices: take cloth 115 cm wide; move or add a line so that it is 40 cm narrower; give it leave to lie 55° off its grain (it then stretches and hangs differently: try it on a toile); join a strip to the cloth along the grain, where the seam does not show.',
  );
  const fusible = { ...job, pieces: [{ ...job.pieces[0]!, copy: 3 }] };
  expect(sayProblem(whyItDoesNotFit(fusible.pieces[0]!, fusible), 'cm')).toContain(
    'The interfacing of panel 7 is 100 cm across',
  );
});

test('a plan that lays a panel off its grain carries one warning for it, with how far', () => {
  const turns = [0, 180, 30, -30, 150, -150];
  const job = jobOf(
    [
      pieceOf(1, rectangle(100, 50), { turns, grainAngle: 20 }),
      pieceOf(1, rectangle(100, 50), { turns, grainAngle: 20, copy: 2, flipped: true }),
      pieceOf(2, rectangle(100, 50)),
    ],
    { width: 900 },
  );
  const at = (i: number, rotation: number) => {
    const { panel, copy, flipped } = job.pieces[i]!;
    return { panel, copy, flipped, x: 0, y: 0, rotation };
  };
  expect(planWarnings(job, [at(0, -20), at(1, -160), at(2, 180)])).toEqual([]);
  // grain of the mirrored copy at 160°: −190 is 30° off it
  expect(planWarnings(job, [at(0, -20), at(1, 170), at(2, 180)])).toMatchObject([
    { code: 'laid-off-grain', facts: { panel: 1 } },
  ]);
  const [warning] = planWarnings(job, [at(0, 10), at(1, 170), at(2, 0)]);
  expect((warning!.facts as { degrees: number }).degrees).toBeCloseTo(30, 9);
});

test('a repeat of more than half the cloth or half a panel is mentioned', () => {
  const piece = pieceOf(3, rectangle(300, 200));
  const job = (along: number, across: number): LayJob =>
    jobOf([piece], { width: 900, repeat: { along, across } });
  expect(planWarnings(job(150, 100), [])).toEqual([]);
  expect(planWarnings(job(151, 0), [])).toMatchObject([{ code: 'repeat-large', facts: { panels: [3] } }]);
  expect(planWarnings(job(0, 451), [])).toMatchObject([
    { code: 'repeat-large', facts: { halfCloth: true, panels: [3] } },
  ]);
  expect(sayProblem(planWarnings(job(320, 0), [])[0]!, 'cm')).toBe(
    'The repeat of navy, 32 cm along, is more than half the size of panel 3: matching it costs much cloth and no more than one motif shows. Set it to 0 where the print need not match.',
  );
});

test('the planner lays a piece on just the width it is said to need, and refuses it on less', () => {
  let folded = 0;
  for (let seed = 1; seed <= 150; seed += 1) {
    const random = randomLayJob(seed);
    if (random.within) continue;
    const [piece] = random.pieces;
    const job = { ...random, pieces: random.pieces.filter((p) => p.panel === piece!.panel), seconds: 0 };
    // the second copy of a pair lies as the first one, mirrored
    const needs = Math.min(...allowedRotations(piece!, job.nap).map((r) => widthNeeded(piece!, r, job)));
    const onWidth = (usable: number): boolean =>
      planLay({ ...job, width: usable + 2 * job.margin }).placed.length > 0;
    expect({ seed, fits: onWidth(needs + 0.01) }).toEqual({ seed, fits: true });
    expect({ seed, fits: onWidth(needs - 0.01) }).toEqual({ seed, fits: false });
    if (job.layering === 'folded') folded += 1;
  }
  expect(folded).toBeGreaterThan(30);
});

test('margins that leave nothing leave no width, and no line is said to make a panel narrower by all it has', () => {
  const job = jobOf([pieceOf(1, rectangle(400, 300))], { width: 900, margin: 500 });
  expect(facts(job)).toMatchObject({ width: 0, over: 300 });
  const words = sayProblem(whyItDoesNotFit(job.pieces[0]!, job), 'cm');
  expect(words).toContain('of 0 cm usable width');
  expect(words).not.toContain('narrower');
  const narrow = jobOf([pieceOf(1, rectangle(400, 300))], { width: 250 });
  expect(sayProblem(whyItDoesNotFit(narrow.pieces[0]!, narrow), 'cm')).toContain('5 cm narrower');
});
