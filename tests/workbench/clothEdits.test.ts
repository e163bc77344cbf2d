import { expect, test } from 'vitest';
import { layJobs } from '../../src/fabric';
import { openDesign, saveDesign } from '../../src/files';
import { deriveGarment } from '../../src/garment';
import type { Pt } from '../../src/geometry';
import { leaveOf, replacePiece, withLines, type Panel } from '../../src/panels';
import { type Design, type LineId, type PieceId, scaleDesign } from '../../src/pattern';
import { createBench } from '../../src/workbench/store/benchStore';
import { giveLeave } from '../../src/workbench/store/clothEdits';
import { deleteLine } from '../../src/workbench/store/lineEdits';
import { piece, rectangle } from '../making/designs';
import { WHOLE, designOf, straight } from './pieces';

const panelAt = (design: Design, [x, y]: Pt): Panel =>
  deriveGarment(design).panels.toSorted(
    (p, q) => Math.hypot(p.spot.at[0] - x, p.spot.at[1] - y) - Math.hypot(q.spot.at[0] - x, q.spot.at[1] - y),
  )[0]!;
const leaveAt = (design: Design, at: Pt): number | null => leaveOf(design, panelAt(design, at));
const UPPER: Pt = [100, 80];
const LOWER: Pt = [100, 300];

const start = designOf(WHOLE, straight('line-1', [0, 160], [200, 160]));
const given = giveLeave([panelAt(start, LOWER)], 30)(start);

test('leave is given to one panel, changed and taken away, and giving it again changes nothing', () => {
  expect([leaveAt(given, UPPER), leaveAt(given, LOWER)]).toEqual([null, 30]);
  expect(giveLeave([panelAt(given, LOWER)], 30)(given)).toBe(given);
  const other = giveLeave([panelAt(given, LOWER)], 12.5)(given);
  expect(other.offGrain.map((m) => m.degrees)).toEqual([12.5]);
  expect(giveLeave([panelAt(other, LOWER)], null)(other).offGrain).toEqual([]);
  expect(giveLeave([panelAt(start, UPPER)], null)(start)).toBe(start);
});

test('an angle that makes no sense is refused', () => {
  for (const degrees of [0, -5, 91, NaN])
    expect(() => giveLeave([panelAt(start, LOWER)], degrees)(start)).toThrow(RangeError);
});

test('leave reaches the lay job, and is kept in the saved file', () => {
  expect(layJobs(deriveGarment(given))[0]!.pieces.map((p) => p.turns?.length ?? 0)).toEqual(
    deriveGarment(given).panels.map((p) => (leaveOf(given, p) === null ? 0 : 6)),
  );
  const opened = openDesign(saveDesign(given), 'given.json');
  expect(opened.ok && opened.value.offGrain).toEqual(given.offGrain);
});

test('leave follows its panel when a line moves over the mark, splits the panel, or is taken away', () => {
  // the line moves below the mark's spot: it lies in the lower panel still
  const moved = withLines(given, [straight('line-1', [0, 300], [200, 300])]);
  expect([leaveAt(moved, UPPER), leaveAt(moved, [100, 360])]).toEqual([null, 30]);
  const split = withLines(given, [...given.lines, straight('line-2', [100, 160], [100, 400])]);
  expect([leaveAt(split, UPPER), leaveAt(split, [50, 280]), leaveAt(split, [150, 280])]).toEqual([
    null,
    30,
    30,
  ]);
  // of the two panels that merge the larger has leave
  const merged = deleteLine('line-1' as LineId)(given);
  expect(leaveAt(merged, [100, 200])).toBe(30);
  const small = giveLeave([panelAt(start, UPPER)], 10)(start);
  expect(deleteLine('line-1' as LineId)(small).offGrain).toEqual([]);
});

test('leave of other pieces stays the same marks while a piece changes', () => {
  const back = piece(rectangle(200, 300, [500, 0]), { id: 'back' as PieceId, name: 'back' });
  const two: Design = { ...start, pieces: [...start.pieces, back] };
  const marked = giveLeave(
    deriveGarment(two).panels.filter((p) => p.piece === back.id),
    20,
  )(two);
  const moved = withLines(marked, [straight('line-1', [0, 200], [200, 200])]);
  expect(moved.offGrain).toBe(marked.offGrain);
});

test('leave goes with a piece to another size of it, and with the scale of the drawing', () => {
  const { design } = replacePiece(given, WHOLE.id, { ...WHOLE, outline: rectangle(200, 480) });
  expect([leaveAt(design, [100, 60]), leaveAt(design, [100, 400])]).toEqual([null, 30]);
  const scaled = scaleDesign(given, 2, 2);
  expect([leaveAt(scaled, [200, 160]), leaveAt(scaled, [200, 600])]).toEqual([null, 30]);
});

test('at the bench leave is one step that can be taken back, and follows a dragged line', () => {
  const store = createBench(start);
  const { commit } = store.getState();
  commit('Leave to lie off its grain', giveLeave([panelAt(start, LOWER)], 30));
  commit('Move a line', (d) => withLines(d, [straight('line-1', [0, 300], [200, 300])]));
  expect(leaveAt(store.getState().doc, [100, 370])).toBe(30);
  expect(leaveAt(store.getState().doc, UPPER)).toBeNull();
  store.getState().undo();
  store.getState().undo();
  expect(store.getState().doc.offGrain).toEqual([]);
});
