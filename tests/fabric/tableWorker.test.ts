import { expect, test } from 'vitest';
import { planLay, widthTable, type LayPlan, type WidthRow } from '../../src/fabric';
import { answerTable } from '../../src/fabric/worker/answerTable';
import { startTable, type TableEnd, type TableWorkerLike } from '../../src/fabric/worker/tableClient';
import { TABLE_CONTRACT, type FromTable, type ToTable } from '../../src/fabric/worker/tableContract';
import { garmentPieces, jobOf, pieceOf, rectangle } from './madeUpPieces';

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
const squares = [1, 2, 3].map((n) => pieceOf(n, rectangle(200 + n, 300)));
const job = jobOf(squares, { width: 1400 });
const shown = planLay(job);
const start = (jobId: number, contract = TABLE_CONTRACT): ToTable => ({
  kind: 'start',
  contract,
  jobId,
  job,
  shown,
  width: 1400,
});
const entries = (rows: readonly WidthRow[]): number =>
  rows.reduce((sum, r) => sum + r.entries.filter((e) => e.plan).length, 0);

test('a table is answered entry by entry and ended once, the same as the command line gets', async () => {
  const heard: FromTable[] = [];
  await answerTable((m) => heard.push(m), turn)(start(1));
  const tables = heard.flatMap((m) => (m.kind === 'rows' ? [m.rows] : []));
  expect(entries(tables[0]!)).toBe(1);
  tables.slice(1).forEach((rows, i) => expect(entries(rows)).toBeGreaterThanOrEqual(entries(tables[i]!)));
  expect(tables.at(-1)).toEqual(widthTable(job, shown).rows);
  expect(heard.filter((m) => m.kind !== 'rows')).toEqual([{ kind: 'ended', jobId: 1, because: 'finished' }]);
});

test('a cancelled table ends once', async () => {
  const long = jobOf(garmentPieces(4, 8), { width: 1400 });
  const heard: FromTable[] = [];
  const answer = answerTable((m) => heard.push(m), turn);
  const running = answer({ ...start(2), job: long, shown: planLay(long) } as ToTable);
  await turn();
  await turn();
  await answer({ kind: 'cancel', jobId: 2 });
  await running;
  expect(heard.filter((m) => m.kind !== 'rows')).toEqual([{ kind: 'ended', jobId: 2, because: 'cancelled' }]);
});

test('another contract and a job without sense are refused in words', async () => {
  const heard: FromTable[] = [];
  const answer = answerTable((m) => heard.push(m), turn);
  await answer(start(3, TABLE_CONTRACT + 1));
  await answer({ ...start(4), job: { ...job, gap: -1 } } as ToTable);
  expect(heard.filter((m) => m.kind !== 'rows')).toEqual([
    { kind: 'wrong-contract', jobId: 3, workerSpeaks: TABLE_CONTRACT },
    { kind: 'failed', jobId: 4, message: expect.stringContaining('gap') },
  ]);
});

/** A worker in this thread, with messages in both directions copied and delivered later, as the browser does. */
class NearWorker implements TableWorkerLike {
  onmessage: TableWorkerLike['onmessage'] = null;
  onerror: TableWorkerLike['onerror'] = null;
  isEnded = false;
  private readonly answer = answerTable((m) => {
    if (!this.isEnded) this.onmessage?.({ data: structuredClone(m) } as MessageEvent<FromTable>);
  }, turn);
  postMessage(message: ToTable): void {
    if (!this.isEnded) void this.answer(structuredClone(message));
  }
  terminate(): void {
    this.isEnded = true;
  }
}

interface Heard {
  readonly rows: (readonly WidthRow[])[];
  readonly better: LayPlan[];
  readonly ends: TableEnd[];
}

function begin(makeWorker: () => TableWorkerLike): { heard: Heard; ended: Promise<void>; cancel(): void } {
  const heard: Heard = { rows: [], better: [], ends: [] };
  let cancel = (): void => undefined;
  const ended = new Promise<void>((resolve) => {
    ({ cancel } = startTable(
      { job, shown, width: 1400 },
      {
        onRows: (rows) => heard.rows.push(rows),
        onBetter: (plan) => heard.better.push(plan),
        onEnded: (end) => {
          heard.ends.push(end);
          resolve();
        },
      },
      makeWorker,
    ));
  });
  return { heard, ended, cancel: () => cancel() };
}

test('the bench hears every entry and the end once, and ends the worker', async () => {
  const workers: NearWorker[] = [];
  const { heard, ended } = begin(() => {
    workers.push(new NearWorker());
    return workers.at(-1)!;
  });
  await ended;
  expect(heard.rows.at(-1)).toEqual(widthTable(job, shown).rows);
  expect(heard).toMatchObject({ better: [], ends: [{ because: 'finished' }] });
  expect(workers.map((w) => w.isEnded)).toEqual([true]);
});

test('cancel ends a table at once, and nothing more is heard of it', async () => {
  const { heard, cancel } = begin(() => new NearWorker());
  cancel();
  await turn();
  await turn();
  expect(heard).toEqual({ rows: [], better: [], ends: [{ because: 'cancelled' }] });
  cancel();
  expect(heard.ends).toHaveLength(1);
});

test('a worker that dies is started once more; the second death is told', async () => {
  const dying = (): TableWorkerLike => {
    const worker = new NearWorker();
    setTimeout(() => worker.onerror?.({} as ErrorEvent), 0);
    return worker;
  };
  let count = 0;
  const once = begin(() => ((count += 1) === 1 ? dying() : new NearWorker()));
  await once.ended;
  expect(once.heard.ends).toEqual([{ because: 'finished' }]);
  const twice = begin(dying);
  await twice.ended;
  expect(twice.heard.ends).toEqual([{ because: 'failed', message: expect.stringContaining('Reload') }]);
});

test('an old worker is told apart', async () => {
  const { heard, ended } = begin(() => {
    const worker = new NearWorker();
    worker.postMessage = ({ jobId }) =>
      worker.onmessage?.({
        data: { kind: 'wrong-contract', jobId, workerSpeaks: 0 },
      } as MessageEvent<FromTable>);
    return worker;
  });
  await ended;
  expect(heard.ends).toEqual([{ because: 'failed', message: expect.stringContaining('older version') }]);
});
