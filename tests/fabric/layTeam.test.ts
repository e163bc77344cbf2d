import { expect, test } from 'vitest';
import type { ColourId, RemnantId } from '../../src/pattern';
import type { ClothPlan, ClothShape, LayJob } from '../../src/fabric';
import { isBetterCloth } from '../../src/fabric/worker/betterCloth';
import { NO_WORKER, OLD_WORKER } from '../../src/fabric/worker/laySeat';
import { LayTeam, type TeamTask } from '../../src/fabric/worker';
import { fakeWorkers, planOf } from './fakeSeats';
import { jobOf, pieceOf, rectangle } from './madeUpPieces';

const jobFor = (key: string): LayJob =>
  jobOf([pieceOf(1, rectangle(300, 200))], { colour: key as ColourId, colourName: key });

const task = (key: string, more: Partial<TeamTask> = {}): TeamTask => ({
  key,
  job: jobFor(key),
  remnants: [],
  seconds: 4,
  ...more,
});

function teamOf(seats: number) {
  const workers = fakeWorkers();
  const heard: string[] = [];
  const plans = new Map<string, ClothPlan>();
  const team = new LayTeam(
    {
      onBetter: (key, plan) => {
        plans.set(key, plan);
        heard.push(`${key} ${plan.bought.length}`);
      },
      onProgress: () => undefined,
      onRest: (key, failed) => heard.push(failed ? `${key} failed: ${failed}` : `${key} rests`),
    },
    seats,
    workers.make,
  );
  /** What each worker was asked for so far: colour and nominal seconds. */
  const asked = (): string[] =>
    workers.all.flatMap((w) => w.asked.map(({ job }) => `${job.colour} ${job.seconds} ${job.seed}`));
  return { team, workers, heard, plans, asked };
}

test('with a core for each colour every colour is searched at once, and no worker more is started', () => {
  const { team, workers, asked } = teamOf(3);
  team.search([task('red'), task('blue'), task('sand')]);
  expect(asked()).toEqual(['red 4 1', 'blue 4 1', 'sand 4 1']);
  expect(workers.all).toHaveLength(3);
});

test('with fewer cores than colours all have a first plan before any is searched for long', () => {
  const { team, workers, heard, asked } = teamOf(2);
  team.search([task('red'), task('blue'), task('sand')]);
  expect(asked()).toEqual(['red 0.2 1', 'blue 0.2 1']);
  workers.all[0]!.finish(900);
  expect(workers.all[0]!.job.colour).toBe('sand');
  workers.all[0]!.better(700);
  expect(heard).toEqual(['red 900', 'sand 700']);
  expect(workers.all).toHaveLength(2);
});

test('one core serves all colours in turn: first all first plans, then the one with most cloth lying empty', () => {
  const { team, workers, heard } = teamOf(1);
  team.search([task('red'), task('blue'), task('sand')]);
  const [worker] = workers.all;
  const order: string[] = [];
  const lengths: Record<string, number> = { red: 500, blue: 2000, sand: 900 };
  for (let turn = 0; turn < 6 && !worker!.isEnded; turn += 1) {
    const { colour, seconds } = worker!.job;
    order.push(`${colour} ${seconds}`);
    worker!.finish(lengths[colour]!);
  }
  // the last one without a plan needs no first shift of its own
  expect(order).toEqual(['red 0.2', 'blue 0.2', 'sand 4', 'blue 4', 'red 4']);
  expect(heard.filter((words) => words.endsWith('rests'))).toEqual(['sand rests', 'blue rests', 'red rests']);
  expect(workers.all).toHaveLength(1);
  expect(worker!.isEnded).toBe(true);
});

test('spare cores try the same pieces from other seeds, and the best plan wins whoever found it', () => {
  const { team, workers, heard, plans, asked } = teamOf(3);
  team.search([task('red')]);
  workers.all[0]!.better(1000);
  team.searchOn('red', 4);
  expect(asked()).toEqual(['red 4 1', 'red 4 3', 'red 4 4']);
  const [own, helper, other] = workers.all;
  helper!.better(950);
  own!.better(970);
  own!.finish(960);
  expect(heard).toEqual(['red 1000', 'red 950']);
  // the search asked for meanwhile goes on in the seat that is free now
  expect(own!.job.seed).toBe(2);
  own!.finish(955);
  helper!.finish(950);
  expect(heard.at(-1)).toBe('red 950');
  other!.finish(940);
  expect(plans.get('red')!.bought.length).toBe(940);
  expect(heard.slice(-2)).toEqual(['red 940', 'red rests']);
});

test('help goes where most cloth lies empty, and is shared', () => {
  const { team, workers } = teamOf(4);
  team.search([task('red'), task('blue')]);
  workers.all[0]!.better(1000);
  workers.all[1]!.better(3000);
  // a free seat is given work whenever something ends or begins
  team.search([task('sand', { seconds: 0.5 })]);
  const working = (): string[] => workers.living().map((w) => String(w.job.colour));
  expect(working().sort()).toEqual(['blue', 'blue', 'red', 'sand']);
});

test('stop and keep ends the workers of one colour at once; the others go on', () => {
  const { team, workers, heard } = teamOf(2);
  team.search([task('red'), task('blue')]);
  workers.all[0]!.better(800);
  workers.all[1]!.better(900);
  team.stop('red');
  expect(workers.all[0]!.isEnded).toBe(true);
  expect(workers.all[1]!.isEnded).toBe(false);
  workers.all[0]!.better(700);
  expect(heard).toEqual(['red 800', 'blue 900', 'red rests']);
  team.stop('red');
  expect(heard).toHaveLength(3);
});

test('searching on begins from a fresh seed and never makes the plan worse', () => {
  const { team, workers, heard } = teamOf(1);
  team.search([task('red')]);
  workers.all[0]!.finish(800);
  team.searchOn('red', 10);
  const worker = workers.all[1]!;
  expect([worker.job.seconds, worker.job.seed]).toEqual([10, 2]);
  worker.better(850);
  worker.finish(790);
  expect(heard).toEqual(['red 800', 'red rests', 'red 790', 'red rests']);
});

test('a plan remembered is searched on from seeds not tried before', () => {
  const { team, workers, heard } = teamOf(1);
  team.remember(task('red'), planOf(jobFor('red'), 640), 7);
  expect(workers.all).toHaveLength(0);
  team.searchOn('red', 4);
  expect(workers.all[0]!.job.seed).toBe(8);
  workers.all[0]!.finish(650);
  expect(heard).toEqual(['red rests']);
});

test('a colour without a plan does not wait for a long search: that goes back to the queue with what is left of it', () => {
  const { team, workers } = teamOf(1);
  team.search([task('red')]);
  workers.all[0]!.better(800);
  workers.all[0]!.progress(0.25);
  team.search([task('blue')]);
  expect(workers.all[0]!.isEnded).toBe(true);
  expect(workers.all[1]!.job.colour).toBe('blue');
  workers.all[1]!.finish(500);
  expect(workers.all[1]!.job).toMatchObject({ colour: 'red', seconds: 3, seed: 2 });
});

test('what is only for comparing comes last and gets no help', () => {
  const { team, workers, asked } = teamOf(2);
  team.search([task('red aside', { isAside: true, seconds: 1 }), task('red')]);
  expect(asked()).toEqual(['red 4 1', 'red aside 1 1']);
  workers.all[0]!.finish(500);
  expect(asked()).toHaveLength(2);
});

test('a search that somebody asks for goes before what is only for comparing', () => {
  const { team, workers } = teamOf(1);
  team.search([task('red'), task('red aside', { isAside: true, seconds: 1 })]);
  workers.all[0]!.finish(500);
  expect(workers.all[0]!.job.colour).toBe('red aside');
  team.searchOn('red', 10);
  expect(workers.living()[0]!.job).toMatchObject({ colour: 'red', seconds: 10 });
  workers.living()[0]!.finish(490);
  expect(workers.living()[0]!.job.colour).toBe('red aside');
});

test('a worker that dies is started once more for the same job; the second death is told, and others go on', () => {
  const { team, workers, heard } = teamOf(2);
  team.search([task('red'), task('blue')]);
  workers.all[0]!.better(800);
  workers.all[0]!.die();
  expect(workers.all[2]!.job.colour).toBe('red');
  workers.all[2]!.better(900);
  workers.all[2]!.die();
  expect(heard).toEqual(['red 800', `red failed: ${NO_WORKER}`]);
  workers.all[1]!.finish(700);
  expect(heard.at(-1)).toBe('blue rests');
  expect(workers.living()).toEqual([]);
});

test('help that dies does no harm', () => {
  const { team, workers, heard } = teamOf(2);
  team.search([task('red')]);
  workers.all[0]!.better(800);
  team.searchOn('red', 4);
  workers.all[1]!.die();
  workers.all[2]!.die();
  workers.all[0]!.finish(790);
  expect(heard).not.toContain(expect.stringContaining('failed'));
  expect(heard).toContain('red 790');
});

test('a job without sense and an old worker are told in words', () => {
  const { team, workers, heard } = teamOf(1);
  team.search([task('red')]);
  workers.all[0]!.fail('cloth 0 mm wide cannot be laid');
  team.search([task('blue')]);
  workers.all.at(-1)!.speakOld();
  expect(heard).toEqual(['red failed: cloth 0 mm wide cannot be laid', `blue failed: ${OLD_WORKER}`]);
});

test('a colour that fits no cloth is not searched any longer', () => {
  const { team, workers, heard } = teamOf(1);
  team.search([task('red'), task('blue')]);
  const [worker] = workers.all;
  const { bought } = planOf({ ...worker!.job, pieces: [] }, 0);
  worker!.onmessage!({
    data: {
      kind: 'better',
      jobId: worker!.asked.at(-1)!.jobId,
      plan: { own: [], bought },
      progress: 1,
    },
  } as never);
  worker!.onmessage!({
    data: { kind: 'ended', jobId: worker!.asked.at(-1)!.jobId, because: 'finished', plan: null },
  } as never);
  expect(heard).toEqual(['red 0', 'red rests']);
  expect(worker!.job.colour).toBe('blue');
});

test('of two plans the one that lays more pieces is better, then the one that buys less, then the one that leaves more of one’s own', () => {
  const two = jobOf([pieceOf(1, rectangle(10, 10)), pieceOf(2, rectangle(10, 10))]);
  const [one, both] = [planOf({ ...two, pieces: two.pieces.slice(0, 1) }, 100), planOf(two, 300)];
  expect(isBetterCloth(both, one)).toBe(true);
  expect(isBetterCloth(one, both)).toBe(false);
  expect(isBetterCloth(planOf(two, 299), both)).toBe(true);
  expect(isBetterCloth(planOf(two, 300), both)).toBe(false);
  const cloth = (side: number): ClothShape => ({
    remnant: 'left' as RemnantId,
    copy: 1,
    outline: rectangle(side, side),
  });
  const own = (length: number, ...sides: readonly number[]): ClothPlan => ({
    own: sides.map((side) => ({
      ...planOf({ ...two, pieces: two.pieces.slice(0, 1) }, length).bought,
      within: cloth(side),
    })),
    bought: planOf({ ...two, pieces: two.pieces.slice(1) }, 120).bought,
  });
  expect(isBetterCloth(own(80, 200), own(90, 200))).toBe(true);
  expect(isBetterCloth(own(90, 200), own(80, 200))).toBe(false);
  // a smaller piece is cut into, though more of its length is taken
  expect(isBetterCloth(own(90, 150), own(80, 200))).toBe(true);
});
