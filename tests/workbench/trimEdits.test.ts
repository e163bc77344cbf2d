import { expect, test } from 'vitest';
import { pathLength } from '../../src/geometry';
import type { Design, LineId, TrimId } from '../../src/pattern';
import { draggedTo, handlesOf } from '../../src/workbench/drawing/trimHandles';
import {
  addTrim,
  changeTrim,
  freshTrim,
  lineToTrim,
  moveTrimEnd,
  onLine,
  removeTrim,
  trimToLine,
} from '../../src/workbench/store/trimEdits';
import { panelledPiece } from '../../src/panels';
import { designOf, line, straight, trim } from '../trim/trimmedDesign';

const hip = line('hip', straight([0, 300], [400, 300]));
const stem = line('stem', straight([160, 0], [160, 300]));
const base = designOf([hip, stem], [trim('braid', 'hip')]);
const id = 'braid' as TrimId;

test('a new trim is more of the ribbon laid last, under an id of its own', () => {
  const like = { ...base, trims: [{ ...base.trims[0]!, width: 25, fill: '#c0ffee' }] };
  const fresh = freshTrim(like, onLine('stem' as LineId));
  expect(fresh).toMatchObject({ width: 25, fill: '#c0ffee', on: { line: 'stem', from: 0, to: 1 } });
  const twice = addTrim(fresh)(like);
  expect(freshTrim(twice, fresh.on).id).not.toBe(fresh.id);
  expect(freshTrim({ ...base, trims: [] }, fresh.on)).toMatchObject({ name: 'ribbon', width: 10 });
});

test('an end moves along the line and never past the other one', () => {
  expect(moveTrimEnd(id, 'to', 0.4)(base).trims[0]!.on).toMatchObject({ from: 0, to: 0.4 });
  expect(moveTrimEnd(id, 'from', 7)(base).trims[0]!.on).toMatchObject({ from: 0.99, to: 1 });
  expect(moveTrimEnd(id, 'to', -3)(base).trims[0]!.on).toMatchObject({ from: 0, to: 0.01 });
});

test('a change that changes nothing gives the same design back', () => {
  expect(changeTrim(id, { width: 10 })(base)).toBe(base);
  expect(moveTrimEnd(id, 'to', 1)(base)).toBe(base);
  expect(changeTrim('gone' as TrimId, { width: 3 })(base)).toBe(base);
  expect(removeTrim('gone' as TrimId)(base)).toBe(base);
});

test('taking a trim off forgets what was wanted of its step, and nothing else', () => {
  const wishes = [
    { earlier: 'trim braid #2', later: 'seam hip' },
    { earlier: 'seam stem', later: 'trim braid' },
    { earlier: 'trim braided', later: 'seam hip' },
  ];
  const after = removeTrim(id)({ ...base, sewing: { ...base.sewing, order: wishes } });
  expect(after.trims).toEqual([]);
  expect(after.sewing.order).toEqual([wishes[2]]);
});

test('a line becomes the path of its trim and a line again where it was', () => {
  const loose = lineToTrim('hip' as LineId)(base);
  expect(loose.lines.map((l) => l.id)).toEqual(['stem']);
  expect(loose.trims).toMatchObject([
    { id, on: { kind: 'path', piece: 'front', path: hip.path, once: false } },
  ]);
  const back = trimToLine(id)(loose);
  const again = back.lines.find((l) => l.id !== 'stem')!;
  expect(again.path).toEqual(hip.path);
  expect(back.trims[0]!.on).toEqual(onLine(again.id));
});

test('an end that is dragged catches the line that meets its own, and follows the hand elsewhere', () => {
  const piece = panelledPiece(base.pieces[0]!, base);
  const drag = (p: readonly [number, number], reach: number): Design =>
    draggedTo(base, base.trims[0]!, 'to', p, piece, reach)!(base);
  expect(drag([163, 310], 12).trims[0]!.on).toMatchObject({ from: 0, to: 0.4 });
  expect(drag([200, 310], 12).trims[0]!.on).toMatchObject({ from: 0, to: 0.5 });
  const at = handlesOf(drag([200, 310], 0), drag([200, 310], 0).trims[0]!).map((h) => h.at);
  expect(at).toEqual([
    [0, 300],
    [200, 300],
  ]);
  expect(pathLength(hip.path)).toBe(400);
});
