import { expect, test } from 'vitest';
import type { LayPlan } from '../../src/fabric';
import { planLay } from '../../src/fabric';
import { answerLay } from '../../src/fabric/worker/answerLay';
import { LAYOUT_CONTRACT } from '../../src/fabric/worker/contract';
import type { FromLay, ToLay } from '../../src/fabric/worker/contract';
import { startLayJob } from '../../src/fabric/worker/layClient';
import type { LayEnd, WorkerLike } from '../../src/fabric/worker/layClient';
import { garmentPieces, jobOf, pieceOf, rectangle } from './madeUpPieces';

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
const job = jobOf(garmentPieces(4, 8), { gap: 2, seconds: 0.12 });
const start = (jobId: number, contract = LAYOUT_CONTRACT): ToLay => ({ kind: 'start', contract, jobId, job });

test('a job is answered with ever shorter plans and ended once, with the plan the command line gets', async () => {
  const heard: FromLay[] = [];
  await answerLay((m) => heard.push(m), turn)(start(1));
  const plans = heard.flatMap((m) => (m.kind === 'better' ? [m.plan] : []));
  expect(plans.length).toBeGreaterThan(1);
  plans.slice(1).forEach((plan, i) => expect(plan.length).toBeLessThan(plans[i]!.length));
  expect(heard.filter((m) => m.kind === 'ended')).toHaveLength(1);
  expect(heard.at(-1)).toEqual({ kind: 'ended', jobId: 1, because: 'finished', plan: planLay(job) });
}, 30_000);

test('a cancelled job ends once with the best plan so far', async () => {
  const heard: FromLay[] = [];
  const answer = answerLay((m) => heard.push(m), turn);
  const running = answer(start(2));
  await turn();
  await turn();
  await answer({ kind: 'cancel', jobId: 2 });
  await running;
  const ends = heard.filter((m) => m.kind !== 'better' && m.kind !== 'progress');
  expect(ends).toHaveLength(1);
  expect(ends[0]).toMatchObject({ kind: 'ended', because: 'cancelled' });
});

test('a job in another contract or without sense is refused in words', async () => {
  const heard: FromLay[] = [];
  const answer = answerLay((m) => heard.push(m), turn);
  await answer(start(3, LAYOUT_CONTRACT + 1));
  await answer({
    kind: 'start',
    contract: LAYOUT_CONTRACT,
    jobId: 4,
    job: jobOf([pieceOf(1, rectangle(1, 1))], { width: 0 }),
  });
  expect(heard).toEqual([
    { kind: 'wrong-contract', jobId: 3, workerSpeaks: LAYOUT_CONTRACT },
    { kind: 'failed', jobId: 4, message: 'cloth 0 mm wide cannot be laid' },
  ]);
});

/** A worker in this thread, with messages in both directions copied and delivered later, as the browser does. */
class NearWorker implements WorkerLike {
  static made: NearWorker[] = [];
  onmessage: WorkerLike['onmessage'] = null;
  onerror: WorkerLike['onerror'] = null;
  isEnded = false;
  private readonly answer = answerLay((m) => {
    if (!this.isEnded) this.onmessage?.({ data: structuredClone(m) } as MessageEvent<FromLay>);
  }, turn);
  constructor() {
    NearWorker.made.push(this);
  }
  postMessage(message: ToLay): void {
    if (!this.isEnded) void this.answer(structuredClone(message));
  }
  terminate(): void {
    this.isEnded = true;
  }
  die(): void {
    this.onerror?.(new Event('error') as ErrorEvent);
  }
}

const run = (
  onStart: (worker: NearWorker, cancel: () => void) => void,
): Promise<{ end: LayEnd; plans: LayPlan[]; ends: number }> =>
  new Promise((resolve) => {
    const plans: LayPlan[] = [];
    let ends = 0;
    const onEnded = (end: LayEnd): void => {
      ends += 1;
      setTimeout(() => resolve({ end, plans, ends }), 5);
    };
    NearWorker.made = [];
    const running = startLayJob(
      job,
      { onBetter: (plan) => plans.push(plan), onEnded },
      () => new NearWorker(),
    );
    onStart(NearWorker.made[0]!, () => running.cancel());
  });

test('the client hears every better plan and the end', async () => {
  const { end, plans, ends } = await run(() => undefined);
  expect(ends).toBe(1);
  expect(end).toMatchObject({ because: 'finished' });
  expect(end.plan).toEqual(plans.at(-1));
  expect(NearWorker.made.every((w) => w.isEnded)).toBe(true);
});

test('cancel ends the job at once and nothing is heard after it', async () => {
  const { end, plans, ends } = await run((_, cancel) => cancel());
  expect([end, plans, ends]).toEqual([{ because: 'cancelled', plan: null }, [], 1]);
});

test('a worker that dies is started once more; the second death is reported', async () => {
  const once = await run((worker) => worker.die());
  expect(NearWorker.made).toHaveLength(2);
  expect(once.end).toMatchObject({ because: 'finished' });
  const twice = await run((worker) => {
    worker.die();
    NearWorker.made[1]!.die();
  });
  expect(twice.end).toMatchObject({ because: 'failed' });
  expect(twice.ends).toBe(1);
}, 30_000);
