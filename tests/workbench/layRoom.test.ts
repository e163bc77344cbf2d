import { expect, test } from 'vitest';
import { layJobs } from '../../src/fabric';
import { LayTeam } from '../../src/fabric/worker';
import { deriveGarment, type Garment } from '../../src/garment';
import type { Design } from '../../src/pattern';
import { LayMemory } from '../../src/workbench/handOut/layMemory';
import { LayRoom, USUAL_SECONDS, type LayState } from '../../src/workbench/handOut/layRoom';
import { changeColour } from '../../src/workbench/store/colourEdits';
import { fakeWorkers, planOf } from '../fabric/fakeSeats';
import { WHOLE, designOf, straight } from './pieces';

// aslant, so that no panel has a middle: folded cloth is nothing to them
const base = designOf(WHOLE, straight('line-1', [0, 160], [200, 190]));
/** Upper panel in the first cloth, lower one in the second. */
const twoCloths: Design = {
  ...base,
  marks: [{ piece: WHOLE.id, at: [100, 300], colour: base.colours[1]!.id }],
};
const start = deriveGarment(twoCloths);

function roomOf(seats = 2) {
  const workers = fakeWorkers();
  let time = 0;
  const room = new LayRoom(
    () =>
      Promise.resolve({
        layJobs: (garment: Garment, settings) => layJobs(garment, settings),
        makeTeam: (listener) => new LayTeam(listener, seats, workers.make),
      }),
    () => time,
  );
  const at = (colour: string) => workers.living().find((w) => w.job.colour === colour)!;
  return { room, workers, at, pass: (seconds: number) => (time += seconds) };
}
const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));
const [first, second] = twoCloths.colours.map(({ id }) => id);

test('each cloth is laid by itself, and how its length came down is kept with the time it took', async () => {
  const { room, at, pass } = roomOf();
  await room.lay(start);
  expect(room.now().map(({ colour, done, plan }) => [colour, done, plan])).toEqual([
    [first, false, null],
    [second, false, null],
  ]);
  pass(0.5);
  at(first!).better(400);
  pass(1);
  at(first!).better(380);
  at(first!).progress(0.5);
  expect(room.now()[0]).toMatchObject({
    progress: 0.5,
    searched: 1.5,
    history: [
      { seconds: 0.5, length: 400 },
      { seconds: 1.5, length: 380 },
    ],
  });
  expect(room.now()[1]!.plan).toBeNull();
});

test('a change of one cloth leaves the search of the other alone', async () => {
  const { room, at } = roomOf();
  await room.lay(start);
  const worker = at(second!);
  at(first!).better(400);
  at(second!).better(300);
  const wider = changeColour(first!, { width: 1500 })(twoCloths);
  await room.lay(deriveGarment(wider));
  expect(worker.isEnded).toBe(false);
  expect(room.now().map(({ plan }) => plan?.bought.length ?? null)).toEqual([null, 300]);
  expect(at(first!).job.width).toBe(1500);
});

test('a step taken back has its plan again at once, without any search', async () => {
  const { room, at, workers } = roomOf();
  await room.lay(start);
  at(first!).finish(400);
  at(second!).finish(300);
  const [laid] = room.now();
  const wider = changeColour(first!, { width: 1500 })(twoCloths);
  await room.lay(deriveGarment(wider));
  at(first!).finish(370);
  const before = workers.all.length;
  await room.lay(deriveGarment(twoCloths));
  expect(room.now()[0]).toMatchObject({ done: true, plan: laid!.plan, history: laid!.history });
  await room.lay(deriveGarment(wider));
  expect(room.now()[0]!.plan!.bought.length).toBe(370);
  expect(workers.all.length).toBe(before);
});

test('a search broken off by a change goes on from its best plan when the change is taken back', async () => {
  const { room, at } = roomOf(1);
  await room.lay(start);
  at(first!).finish(420);
  at(second!).finish(300);
  at(first!).better(400);
  const wider = changeColour(first!, { width: 1500 })(twoCloths);
  await room.lay(deriveGarment(wider));
  await room.lay(start);
  expect(room.now()[0]).toMatchObject({ done: false });
  expect(room.now()[0]!.plan!.bought.length).toBe(400);
  at(first!).finish(410);
  expect(room.now()[0]).toMatchObject({ done: true });
  expect(room.now()[0]!.plan!.bought.length).toBe(400);
});

test('stop and keep rests with the best plan; searching longer begins from it', async () => {
  const { room, at, pass } = roomOf();
  await room.lay(start);
  at(first!).better(400);
  pass(2);
  room.stopAndKeep(first!);
  expect(room.now()[0]).toMatchObject({ done: true, searched: 2 });
  expect(room.now()[0]!.plan!.bought.length).toBe(400);
  pass(60);
  room.searchOn(first!, 10);
  expect(room.now()[0]).toMatchObject({ done: false, progress: 0 });
  expect(at(first!).job.seconds).toBe(10);
  pass(1);
  at(first!).better(390);
  // the minute of rest does not count
  expect(room.now()[0]!.history.at(-1)).toEqual({ seconds: 3, length: 390 });
});

test('a shorter plan found elsewhere takes the place of the one that is shown, once that is at rest', async () => {
  const { room, at } = roomOf();
  await room.lay(start);
  at(first!).better(400);
  const now = (): LayState => room.now().find(({ colour }) => colour === first)!;
  const shorter = planOf(now().job, 390).bought;
  room.offer(first!, now().plan!.bought, shorter);
  expect(now().plan!.bought.length).toBe(400);
  at(first!).finish(400);
  const shown = now().plan!.bought;
  room.offer(first!, { ...shown }, shorter);
  room.offer(first!, shown, { ...shorter, length: 400 });
  expect(now().plan!.bought).toBe(shown);
  room.offer(first!, shown, shorter);
  expect(now()).toMatchObject({ done: true, plan: { own: [], bought: { length: 390 } } });
  expect(now().history.at(-1)!.length).toBe(390);
  // searching on goes on from it
  room.searchOn(first!, 5);
  at(first!).better(395);
  expect(now().plan!.bought.length).toBe(390);
  at(first!).better(380);
  expect(now().plan!.bought.length).toBe(380);
});

test('a handout waits until every cloth is at rest', async () => {
  const { room, at } = roomOf();
  const plans = room.finished(start);
  await turn();
  at(first!).finish(400);
  at(second!).better(300);
  let isThere = false;
  void plans.then(() => (isThere = true));
  await turn();
  expect(isThere).toBe(false);
  at(second!).finish(290);
  expect((await plans).map(({ length }) => length)).toEqual([400, 290]);
});

test('a cloth that could not be laid is told, and laid again when asked again', async () => {
  const { room, at } = roomOf();
  await room.lay(start);
  at(first!).fail('cloth 0 mm wide cannot be laid');
  expect(room.now()[0]).toMatchObject({ done: true, failed: 'cloth 0 mm wide cannot be laid' });
  const failing = room.finished(start);
  await turn();
  at(first!).fail('again');
  await expect(failing).rejects.toThrow('again');
  const plans = room.finished(start);
  await turn();
  at(first!).finish(400);
  at(second!).finish(300);
  expect(await plans).toHaveLength(2);
});

test('the other layering is laid to compare once no first plan is waited for', async () => {
  const { room, at, workers } = roomOf(1);
  const pair = { ...WHOLE, cutting: 'pair' as const };
  await room.lay(deriveGarment(designOf(pair)));
  expect(workers.living()[0]!.job).toMatchObject({ layering: 'single', seconds: USUAL_SECONDS });
  at(first!).finish(400);
  expect(workers.living()[0]!.job.layering).toBe('folded');
  expect(room.now()[0]).toMatchObject({ done: true, other: null });
  workers.living()[0]!.finish(450);
  expect(room.now()[0]!.other!.bought.length).toBe(450);
  expect(room.now()[0]!.plan!.bought.length).toBe(400);
});

test('the memory of plans is bounded: the one not asked for longest is forgotten first', () => {
  const memory = new LayMemory();
  const [job] = layJobs(start);
  const lay = {
    plan: planOf(job!, 100),
    history: [],
    searched: 1,
    lastSeed: 1,
    other: null,
    isFinished: true,
  };
  for (let i = 0; i < 60; i += 1) memory.put(`lay ${i}`, lay);
  expect(memory.get('lay 0')).toBe(lay);
  memory.put('one more', lay);
  expect(memory.size).toBe(60);
  expect(memory.get('lay 0')).toBe(lay);
  expect(memory.get('lay 1')).toBeNull();
});

test('plans that are waited for are those of the garment they were asked for, or there are none', async () => {
  const { room, at } = roomOf();
  const other = deriveGarment(changeColour(first!, { width: 1500 })(twoCloths));
  // another part of the bench asks for the same garment before the planner is there
  const plans = room.finished(start);
  void room.lay(start);
  await turn();
  at(first!).finish(400);
  at(second!).finish(300);
  expect((await plans).map(({ length }) => length)).toEqual([400, 300]);
  const changed = room.finished(other);
  await turn();
  await room.lay(start);
  await expect(changed).rejects.toThrow('changed while its cloth was being laid');
});

test('unseen plans are put away with their workers, and taken up from where they were', async () => {
  const { room, at, workers } = roomOf();
  await room.lay(start);
  at(first!).better(400);
  const leave = room.listen(() => undefined);
  room.putAway();
  expect(workers.living()).toHaveLength(2);
  leave();
  room.putAway();
  expect(workers.living()).toEqual([]);
  expect(room.now()).toEqual([]);
  await room.lay(start);
  expect(room.now().map(({ plan, done }) => [plan?.bought.length ?? null, done])).toEqual([
    [400, false],
    [null, false],
  ]);
  at(first!).finish(390);
  expect(room.now()[0]!.plan!.bought.length).toBe(390);
});

test('a planner still being loaded begins nothing that was put away', async () => {
  const { room, workers } = roomOf();
  const laying = room.lay(start);
  room.putAway();
  await laying;
  expect([room.now(), workers.all]).toEqual([[], []]);
});
