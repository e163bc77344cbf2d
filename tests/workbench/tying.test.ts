import { expect, test } from 'vitest';
import { endOf, startOf } from '../../src/geometry';
import { saveDesign, openDesign } from '../../src/files';
import type { LineId, PieceId } from '../../src/pattern';
import { bringSize } from '../../src/workbench/bringIn/bringSize';
import { readTracings } from '../../src/workbench/bringIn/readTracings';
import { sayTies } from '../../src/workbench/drawing/tieWords';
import { createBench, garmentOf, type BenchStore } from '../../src/workbench/store/benchStore';
import { shiftLevel } from '../../src/workbench/store/levelEdits';
import { drawLine, holdLine, lineOf, reshapeLine, tieLinesHere } from '../../src/workbench/store/lineEdits';
import { HALF, WHOLE, designOf, straight } from './pieces';

const FRONT = 'front' as PieceId;
const L1 = 'line-1' as LineId;
const L2 = 'line-2' as LineId;
const bench = (): BenchStore => createBench(designOf(WHOLE));
const pathOf = (store: BenchStore, id: LineId) => lineOf(store.getState().doc, id)!.path;
const words = (store: BenchStore, id: LineId): string => {
  const { doc } = store.getState();
  const line = lineOf(doc, id)!;
  const { whole } = garmentOf(store.getState()).pieceById.get(line.piece)!;
  return sayTies({ design: doc, whole, units: 'cm' }, line.ties!, line);
};

test('a drawn line is tied where it lies and says by what; it follows its level, and undo brings it back', () => {
  const store = bench();
  const { commit, undo } = store.getState();
  commit(
    'draw',
    drawLine(
      L1,
      FRONT,
      [
        [
          [0, 145],
          [200, 145],
        ],
      ],
      false,
    ),
  );
  expect(words(store, L1)).toBe('square to the grain, 4.5 cm below the waist level on edge 4');
  commit('level', shiftLevel(FRONT, 'waist', 10));
  expect(pathOf(store, L1)).toEqual([
    [
      [0, 155],
      [200, 155],
    ],
  ]);
  undo();
  expect(pathOf(store, L1)).toEqual([
    [
      [0, 145],
      [200, 145],
    ],
  ]);
});

test('a line dragged away keeps what it is measured from; the value changes', () => {
  const store = bench();
  const { commit } = store.getState();
  commit(
    'draw',
    drawLine(
      L1,
      FRONT,
      [
        [
          [0, 145],
          [200, 145],
        ],
      ],
      false,
    ),
  );
  commit(
    'move',
    reshapeLine(L1, [
      [
        [0, 180],
        [200, 180],
      ],
    ]),
  );
  expect(words(store, L1)).toBe('square to the grain, 8 cm below the waist level on edge 4');
});

test('lines on a dragged line come along while it is dragged, and their panels keep their colours', () => {
  const store = bench();
  const { commit, preview, cancel } = store.getState();
  commit(
    'one',
    drawLine(
      L1,
      FRONT,
      [
        [
          [0, 145],
          [200, 145],
        ],
      ],
      false,
    ),
  );
  commit(
    'two',
    drawLine(
      L2,
      FRONT,
      [
        [
          [80, 145],
          [80, 400],
        ],
      ],
      false,
    ),
  );
  preview(
    reshapeLine(L1, [
      [
        [0, 180],
        [200, 180],
      ],
    ]),
  );
  expect(lineOf(store.getState().draft!, L2)!.path).toEqual([
    [
      [80, 180],
      [80, 400],
    ],
  ]);
  cancel();
  expect(pathOf(store, L2)).toEqual([
    [
      [80, 145],
      [80, 400],
    ],
  ]);
});

test('a traced line is free until it is tied; untied again it stays where it is', () => {
  const store = createBench(designOf(WHOLE, straight('line-1', [0, 145], [200, 145])));
  const { commit } = store.getState();
  commit('level', shiftLevel(FRONT, 'waist', 10));
  expect(pathOf(store, L1)).toEqual([
    [
      [0, 145],
      [200, 145],
    ],
  ]);
  commit('tie', tieLinesHere([L1]));
  commit('level', shiftLevel(FRONT, 'waist', 10));
  expect(startOf(pathOf(store, L1))[1]).toBe(155);
  commit('untie', holdLine(L1, null));
  commit('level', shiftLevel(FRONT, 'waist', 10));
  expect(startOf(pathOf(store, L1))[1]).toBe(155);
});

test('tied lines are saved with their ties and open as the same design', () => {
  const store = createBench(designOf(HALF));
  const { commit } = store.getState();
  commit(
    'one',
    drawLine(
      L1,
      FRONT,
      [
        [
          [0, 145],
          [100, 145],
        ],
      ],
      false,
    ),
  );
  commit(
    'two',
    drawLine(
      L2,
      FRONT,
      [
        [
          [60, 145],
          [60, 400],
        ],
      ],
      false,
    ),
  );
  const text = saveDesign(store.getState().doc);
  const opened = openDesign(text, 'kept.json');
  if (!opened.ok) throw new Error('it does not open');
  expect(saveDesign(opened.value)).toBe(text);
  expect(createBench(opened.value).getState().doc.lines).toEqual(store.getState().doc.lines);
});

const svg = (width: number, height: number, waist: number, name = 'front'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="800mm" viewBox="0 0 600 800"><g id="piece ${name}">
  <path id="outline" d="M50,50 H${50 + width} V${50 + height} H50 Z"/>
  <path id="level waist" d="M50,${50 + waist} H${50 + width}"/>
  <path id="grain" d="M100,60 V300"/></g></svg>`;

test('another size of a piece takes its place: tied lines follow, untied ones are listed, undo takes it back', async () => {
  const store = createBench(designOf(WHOLE, straight('line-1', [20, 0], [20, 400])));
  const { commit, undo } = store.getState();
  commit(
    'draw',
    drawLine(
      L2,
      FRONT,
      [
        [
          [0, 145],
          [200, 145],
        ],
      ],
      false,
    ),
  );
  const before = store.getState().doc;
  const load = () => Promise.resolve(readTracings);
  expect(await bringSize(store, FRONT, { name: 'size.svg', data: svg(240, 480, 120) }, load)).toBe(true);
  // 4.5 cm below the waist of the new size, from side to side of it.
  const path = pathOf(store, L2);
  expect([startOf(path), endOf(path)]).toEqual([
    [50, 215],
    [290, 215],
  ]);
  expect(store.getState().notice?.lines.join(' ')).toMatch(/1 tied line followed.*line 1/);
  undo();
  expect(store.getState().doc).toBe(before);
});

test('a tracing that holds no such piece is refused with a sentence', async () => {
  const store = bench();
  const two = svg(200, 400, 100, 'back').replace(
    '</svg>',
    svg(90, 90, 40, 'cuff').replace(/^<svg[^>]*>/, ''),
  );
  const load = () => Promise.resolve(readTracings);
  expect(await bringSize(store, FRONT, { name: 'size.svg', data: two }, load)).toBe(false);
  expect(store.getState().notice).toMatchObject({ tone: 'bad' });
  expect(store.getState().notice?.lines.join(' ')).toMatch(/no front/);
});
