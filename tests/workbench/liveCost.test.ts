import { expect, test } from 'vitest';
import { startLay } from '../../src/fabric';
import { type ClothBuy, type ClothChange, alongLine, jobsOf } from '../../src/garment/spots';
import type { ColourId, Design, LineId, PanelLine, PieceId } from '../../src/pattern';
import { answerCost } from '../../src/workbench/cost/answerCost';
import { COST_CONTRACT, type FromCost, type ToCost } from '../../src/workbench/cost/contract';
import {
  CostClient,
  type CostListener,
  type CostWorkerLike,
  type Sight,
} from '../../src/workbench/cost/costClient';
import { type CostReading, heard, movedOn } from '../../src/workbench/cost/costReading';
import { keepCost } from '../../src/workbench/cost/costRoom';
import { changesOf, withChanges } from '../../src/workbench/cost/designChanges';
import { follow } from '../../src/workbench/cost/followed';
import { createBench } from '../../src/workbench/store/benchStore';
import { reshapeLine } from '../../src/workbench/store/lineEdits';
import { design, panelLine, piece, rectangle } from '../making/designs';

const LINE = 'line-1' as LineId;

/** 500 wide, cut across at 675.5: chalk above needs 705.5 of cloth, slate below 354.5. */
const cutAcross = (): Design =>
  design(
    [piece(rectangle(500, 1000))],
    [
      panelLine(
        [
          [0, 675.5],
          [500, 675.5],
        ],
        0,
      ),
    ],
    {
      marks: [
        { piece: 'front' as PieceId, at: [250, 5], colour: 'chalk' as ColourId },
        { piece: 'front' as PieceId, at: [250, 995], colour: 'slate' as ColourId },
      ],
    },
  );

const at = (d: Design, height: number): Design => alongLine(d, LINE, [0, 1])(height - 675.5)!;
const copy = <T>(data: T): T => structuredClone(data);
const soon = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

test('what changed is said of a copy too, and all that stayed is the very same there', () => {
  const d = cutAcross();
  const moved = at(d, 640);
  const there = copy(d);
  const changes = copy(changesOf(d, moved));
  expect(JSON.stringify(changes).length).toBeLessThan(JSON.stringify(d).length / 2);
  const arrived = withChanges(there, changes);
  expect(arrived).toEqual(moved);
  expect(arrived.pieces).toBe(there.pieces);
  expect(withChanges(there, changesOf(d, d))).toBe(there);
  const two: Design = { ...d, lines: [...d.lines, { ...d.lines[0]!, id: 'line-2' as LineId }] };
  expect(withChanges(there, changesOf(d, two)).lines[0]).toBe(there.lines[0]);
});

/** Everything the worker's answer to some messages is, each handed over as soon as `ready` says so of what was heard. */
async function answers(messages: readonly ToCost[]): Promise<FromCost[]> {
  const said: FromCost[] = [];
  const answer = answerCost((m) => said.push(copy(m)), soon);
  await Promise.all(messages.map((m) => answer(copy(m))));
  return said;
}

const before = (d: Design, turn = 1): ToCost => ({
  kind: 'before',
  contract: COST_CONTRACT,
  turn,
  design: d,
});
const now = (d: Design, to: Design, turn: number, line: LineId | null = null): ToCost => ({
  kind: 'now',
  turn,
  changes: changesOf(d, to),
  line,
});

test('quick plans come first and are the first lays of the planner, before and after alike', async () => {
  const d = cutAcross();
  const moved = at(d, 668);
  const said = await answers([before(d), now(d, moved, 2)]);
  expect(said[0]).toEqual({ kind: 'touched', turn: 2, colours: ['chalk', 'slate'] });
  const kinds = said.map((m) => (m.kind === 'cloth' ? `${m.change.colour} ${m.care}` : m.kind));
  expect(kinds).toEqual([
    'touched',
    'chalk quick',
    'slate quick',
    'open',
    'chalk better',
    'slate better',
    'chalk best',
    'slate best',
    'ended',
  ]);
  const [chalk] = said.flatMap((m) => (m.kind === 'cloth' ? [m.change] : []));
  const first = (design: Design) => startLay(jobsOf(design)[0]!).best;
  expect(chalk!.before).toMatchObject({ length: first(d).length, buy: first(d).buy });
  expect(chalk!.after).toMatchObject({ length: first(moved).length, buy: first(moved).buy });
  expect(said.at(-1)).toEqual({ kind: 'ended', turn: 2, because: 'finished' });
}, 30_000);

test('cheap spots of a line are told with the path that takes it there, and proven with the best plans', async () => {
  const d = cutAcross();
  const said = await answers([before(d), now(d, d, 2, LINE)]);
  const told = said.flatMap((m) => (m.kind === 'spots' && m.isAll ? [m] : []));
  expect(told.map(({ spots }) => spots.map(({ offset, care }) => [offset, care]))).toEqual(
    (['better', 'best'] as const).map((care) => [-7, 56].map((offset) => [offset, care])),
  );
  const { path } = told[0]!.spots[0]!;
  expect(path).toEqual(at(d, 668.5).lines[0]!.path);
  const there = reshapeLine(LINE, path)(d);
  expect(startLay(jobsOf(there)[0]!).best.buy).toBe(startLay(jobsOf(d)[0]!).best.buy - 100);
}, 30_000);

test('a turn is overtaken by the next message and says nothing more; each ends once', async () => {
  const d = cutAcross();
  const said = await answers([
    before(d),
    now(d, at(d, 600), 2, LINE),
    now(d, at(d, 620), 3, LINE),
    { kind: 'stop', turn: 4 },
  ]);
  expect(said.filter((m) => m.kind === 'ended')).toEqual([
    { kind: 'ended', turn: 2, because: 'overtaken' },
    { kind: 'ended', turn: 3, because: 'overtaken' },
  ]);
  expect(said.some((m) => m.kind === 'cloth')).toBe(false);
});

test('what is known better already is not said as a quick plan', async () => {
  const d = cutAcross();
  const moved = at(d, 668);
  const said: FromCost[] = [];
  const answer = answerCost((m) => said.push(m), soon);
  await answer(before(d));
  await answer(now(d, moved, 2));
  said.length = 0;
  await answer(now(d, moved, 3));
  expect(new Set(said.flatMap((m) => (m.kind === 'cloth' ? [m.care] : [])))).toEqual(new Set(['best']));
}, 30_000);

test('another contract is refused, and a question without a design fails in words', async () => {
  const d = cutAcross();
  const said = await answers([{ ...before(d), contract: COST_CONTRACT + 1 } as ToCost, now(d, d, 2)]);
  expect(said.map(({ kind }) => kind)).toEqual(['wrong-contract', 'failed']);
});

/** A worker that does nothing but take down what it is told. */
class SilentWorker implements CostWorkerLike {
  onmessage: CostWorkerLike['onmessage'] = null;
  onerror: CostWorkerLike['onerror'] = null;
  readonly told: ToCost[] = [];
  isEnded = false;
  postMessage(message: ToCost): void {
    this.told.push(copy(message));
  }
  terminate(): void {
    this.isEnded = true;
  }
  say(message: FromCost): void {
    this.onmessage?.({ data: message } as MessageEvent<FromCost>);
  }
}

function clientWith(): {
  client: CostClient;
  workers: SilentWorker[];
  answered: [FromCost, Sight][];
  frame: () => void;
} {
  const workers: SilentWorker[] = [];
  const answered: [FromCost, Sight][] = [];
  let waiting: (() => void)[] = [];
  const client = new CostClient(
    (message, sight) => answered.push([message, sight]),
    () => {
      workers.push(new SilentWorker());
      return workers.at(-1)!;
    },
    (then) => waiting.push(then),
  );
  const frame = (): void => {
    const due = waiting;
    waiting = [];
    for (const then of due) then();
  };
  return { client, workers, answered, frame };
}

test('one question a frame, the next when the worker is open again, and only the last of those in between', () => {
  const { client, workers, frame } = clientWith();
  const d = cutAcross();
  const steps = [670, 660, 650, 640].map((height) => at(d, height));
  const look = (i: number): void => client.look({ before: d, now: steps[i]!, line: LINE });
  look(0);
  look(1);
  expect(workers).toHaveLength(0);
  frame();
  const { told } = workers[0]!;
  expect(told.map(({ kind, turn }) => [kind, turn])).toEqual([
    ['before', 1],
    ['now', 2],
  ]);
  look(2);
  frame();
  look(3);
  frame();
  expect(told).toHaveLength(2);
  workers[0]!.say({ kind: 'open', turn: 2 });
  expect(told).toHaveLength(3);
  const last = told[2]!;
  expect(last.kind === 'now' && withChanges(d, last.changes)).toEqual(steps[3]);
  look(3);
  frame();
  expect(told).toHaveLength(3);
});

test('no answer to an old question is heard, whichever way it was overtaken', () => {
  const { client, workers, answered, frame } = clientWith();
  const d = cutAcross();
  const [a, b] = [at(d, 660), at(d, 640)];
  client.look({ before: d, now: a, line: LINE });
  frame();
  const worker = workers[0]!;
  worker.say({ kind: 'open', turn: 2 });
  client.look({ before: d, now: b, line: LINE });
  frame();
  worker.say({ kind: 'touched', turn: 2, colours: [] });
  worker.say({ kind: 'touched', turn: 3, colours: ['chalk' as ColourId] });
  expect(answered.map(([{ kind, turn }]) => [kind, turn])).toEqual([
    ['open', 2],
    ['touched', 3],
  ]);
  expect(answered[1]![1].now).toBe(b);
  // another design to compare with goes out at once, though the worker is not open
  client.look({ before: b, now: b, line: LINE });
  frame();
  expect(worker.told.slice(3).map(({ kind, turn }) => [kind, turn])).toEqual([
    ['before', 4],
    ['now', 5],
  ]);
  worker.say({ kind: 'ended', turn: 3, because: 'finished' });
  client.stop();
  worker.say({ kind: 'ended', turn: 5, because: 'finished' });
  expect(answered).toHaveLength(2);
  expect(worker.told.at(-1)).toEqual({ kind: 'stop', turn: 6 });
});

test('a worker that dies is started anew once, and then no more', () => {
  const { client, workers, answered, frame } = clientWith();
  const d = cutAcross();
  for (const height of [670, 660, 650]) {
    client.look({ before: d, now: at(d, height), line: LINE });
    frame();
    if (workers.at(-1)!.isEnded) continue;
    workers.at(-1)!.onerror?.({} as ErrorEvent);
  }
  expect(workers).toHaveLength(2);
  expect(answered.map(([{ kind }]) => kind)).toEqual(['failed', 'failed']);
});

const chosen = { selected: { kind: 'line', line: LINE } } as const;

test('a drag is compared with the design it began from, also after it has ended; keys with the first of their steps', () => {
  const start = cutAcross();
  const bench = createBench(start);
  const { set, preview, commit, cancel } = bench.getState();
  const seen = () => bench.getState();
  const doc = seen().doc;
  const move = (height: number) => reshapeLine(LINE, at(start, height).lines[0]!.path);
  expect(follow(null, seen())).toBeNull();
  set(chosen);
  const rest = follow(null, seen())!;
  expect(rest).toMatchObject({ by: 'resting', before: doc, now: doc });
  preview(move(660));
  const drag = follow(rest, seen())!;
  expect(drag).toMatchObject({ by: 'drag', before: doc, now: seen().draft });
  expect(follow(drag, seen())).toBe(drag);
  cancel();
  expect(follow(drag, seen())).toMatchObject({ by: 'resting', now: doc });
  preview(move(650));
  commit('Move a line', move(650));
  const dragged = follow(drag, seen())!;
  expect(dragged).toMatchObject({ by: 'dragged', before: doc, now: seen().doc });
  const after = seen().doc;
  commit('Nudge a line', move(649));
  const once = follow(dragged, seen())!;
  commit('Nudge a line', move(648));
  const twice = follow(once, seen())!;
  expect(twice).toMatchObject({ by: 'step', before: after, now: seen().doc });
  seen().undo();
  expect(follow(twice, seen())).toMatchObject({ by: 'resting', before: seen().doc });
  set({ place: 'colours' });
  expect(follow(twice, seen())).toBeNull();
});

test('a line being drawn is followed from its first stroke, and when it is on the table', () => {
  const bench = createBench(cutAcross());
  const seen = () => bench.getState();
  const doc = seen().doc;
  const line: PanelLine = {
    ...doc.lines[0]!,
    id: 'line-2' as LineId,
    path: [
      [
        [0, 300],
        [500, 300],
      ],
    ],
  };
  const draw = (d: Design): Design => ({ ...d, lines: [...d.lines, line] });
  seen().set({ underWay: {} as never });
  seen().preview(draw);
  const drag = follow(null, seen())!;
  expect(drag).toMatchObject({ by: 'drag', before: doc, line: null });
  seen().commit('Draw a line', draw);
  seen().set({ underWay: null });
  const drawn = follow(drag, seen())!;
  seen().set({ selected: { kind: 'line', line: line.id } });
  expect(follow(drawn, seen())).toMatchObject({ by: 'dragged', before: doc, now: seen().doc, line: line.id });
});

const buy = (mm: number): ClothBuy => ({
  colour: 'chalk' as ColourId,
  name: 'chalk',
  length: mm - 5,
  buy: mm,
  cost: null,
  misfits: [],
});

test('what is read stays while the hand moves on; a cloth no longer touched comes to what it did before', () => {
  const d = cutAcross();
  const moved = at(d, 600);
  const sight: Sight = { before: d, now: moved, line: LINE };
  const chalk: ClothChange = {
    colour: 'chalk' as ColourId,
    name: 'chalk',
    before: buy(800),
    after: buy(700),
  };
  let reading: CostReading = movedOn(null, sight);
  const hear = (message: FromCost): void => {
    reading = heard(reading, message, sight);
  };
  hear({ kind: 'touched', turn: 2, colours: ['slate', 'chalk'] as ColourId[] });
  expect(reading.cloths.map(({ colour }) => colour)).toEqual(['chalk', 'slate']);
  hear({ kind: 'cloth', turn: 2, care: 'better', change: chalk });
  expect(movedOn(reading, { ...sight, now: at(d, 610) })).toBe(reading);
  hear({ kind: 'touched', turn: 3, colours: ['slate'] as ColourId[] });
  expect(reading.cloths[0]!.change!.after!.buy).toBe(800);
  // taken back
  expect(movedOn(reading, { before: d, now: d, line: LINE }).cloths).toEqual([]);
  // another movement begins from nothing, and answers to the old one are not taken in
  const other = movedOn(reading, { before: moved, now: moved, line: LINE });
  expect(other.cloths).toEqual([]);
  expect(heard(other, { kind: 'cloth', turn: 3, care: 'quick', change: chalk }, sight)).toBe(other);
});

test('answers of one frame are taken in together, and none after the line is let go', () => {
  const bench = createBench(cutAcross());
  let say: CostListener = () => undefined;
  const frames: (() => void)[] = [];
  const asked: Sight[] = [];
  const client = {
    look: (sight: Sight) => asked.push(sight),
    stop: () => undefined,
  } as unknown as CostClient;
  const stop = keepCost(
    bench,
    (listener) => {
      say = listener;
      return client;
    },
    (then) => frames.push(then),
  );
  bench.getState().set(chosen);
  expect(asked).toHaveLength(1);
  let told = 0;
  bench.subscribe(() => (told += 1));
  const both = ['chalk', 'slate'] as ColourId[];
  say({ kind: 'touched', turn: 2, colours: both }, asked[0]!);
  say({ kind: 'open', turn: 2 }, asked[0]!);
  expect([told, frames.length]).toEqual([0, 1]);
  frames.shift()!();
  expect(told).toBe(1);
  expect(bench.getState().cost!.cloths.map(({ colour }) => colour)).toEqual(both);
  say({ kind: 'touched', turn: 2, colours: [] }, asked[0]!);
  bench.getState().set({ selected: null });
  expect(bench.getState().cost).toBeNull();
  frames.shift()!();
  expect(bench.getState().cost).toBeNull();
  stop();
});
