import { expect, test } from 'vitest';
import type { ClothPlan } from '../../src/fabric';
import { planLay } from '../../src/fabric';
import { answerLay } from '../../src/fabric/worker/answerLay';
import { LAYOUT_CONTRACT } from '../../src/fabric/worker/contract';
import type { FromLay, ToLay } from '../../src/fabric/worker/contract';
import { LayTeam } from '../../src/fabric/worker';
import type { WorkerLike } from '../../src/fabric/worker/laySeat';
import { garmentPieces, jobOf, pieceOf, rectangle } from './madeUpPieces';

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
const job = jobOf(garmentPieces(4, 8), { gap: 2, seconds: 0.12 });
const start = (jobId: number, contract = LAYOUT_CONTRACT): ToLay => ({
  kind: 'start',
  contract,
  jobId,
  job,
  remnants: [],
});

test('a job is answered with ever shorter plans and ended once, with the plan the command line gets', async () => {
  const heard: FromLay[] = [];
  await answerLay((m) => heard.push(m), turn)(start(1));
  const plans = heard.flatMap((m) => (m.kind === 'better' ? [m.plan.bought] : []));
  expect(plans.length).toBeGreaterThan(1);
  plans.slice(1).forEach((plan, i) => expect(plan.length).toBeLessThan(plans[i]!.length));
  expect(heard.filter((m) => m.kind === 'ended')).toHaveLength(1);
  expect(heard.at(-1)).toEqual({
    kind: 'ended',
    jobId: 1,
    because: 'finished',
    plan: { own: [], bought: planLay(job) },
  });
}, 30_000);

test('a cancelled job ends once with the best plan so far', async () => {
  const heard: FromLay[] = [];
  const answer = answerLay((m) => heard.push(m), turn);
  // far more to search than two turns can
  const running = answer({ ...start(2), job: { ...job, seconds: 60 } } as ToLay);
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
    remnants: [],
  });
  expect(heard).toEqual([
    { kind: 'wrong-contract', jobId: 3, workerSpeaks: LAYOUT_CONTRACT },
    { kind: 'failed', jobId: 4, message: 'cloth 0 mm wide cannot be laid' },
  ]);
});

/** A worker in this thread, with messages in both directions copied and delivered later, as the browser does. */
class NearWorker implements WorkerLike {
  onmessage: WorkerLike['onmessage'] = null;
  onerror: WorkerLike['onerror'] = null;
  private isEnded = false;
  private readonly answer = answerLay((m) => {
    if (!this.isEnded) this.onmessage?.({ data: structuredClone(m) } as MessageEvent<FromLay>);
  }, turn);
  postMessage(message: ToLay): void {
    if (!this.isEnded) void this.answer(structuredClone(message));
  }
  terminate(): void {
    this.isEnded = true;
  }
}

test('two cloths on one seat both come to rest with a plan, each of their plans better than the last', async () => {
  const lengths = new Map<string, number[]>();
  await new Promise<void>((resolve) => {
    let resting = 0;
    const listener = {
      onBetter: (key: string, { bought }: ClothPlan) =>
        void lengths.set(key, [...(lengths.get(key) ?? []), bought.length]),
      onProgress: () => undefined,
      onRest: () => {
        resting += 1;
        if (resting === 2) resolve();
      },
    };
    const team = new LayTeam(listener, 1, () => new NearWorker());
    team.search(['a', 'b'].map((key) => ({ key, job, remnants: [], seconds: 0.1 })));
  });
  expect([...lengths.keys()]).toEqual(['a', 'b']);
  for (const plans of lengths.values())
    plans.slice(1).forEach((length, i) => expect(length).toBeLessThan(plans[i]!));
}, 30_000);
