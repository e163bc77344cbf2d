import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Pt } from '../../src/geometry';
import { deriveGarment } from '../../src/garment';
import type { HandAt } from '../../src/workbench/hands/hand';
import { lineHand } from '../../src/workbench/hands/lineHand';
import { createBench, garmentOf, type BenchStore } from '../../src/workbench/store/benchStore';
import { dart } from '../making/designs';
import { HALF, WHOLE, designOf, straight } from './pieces';

interface Held {
  readonly touch?: boolean;
  readonly alt?: boolean;
  readonly ctrl?: boolean;
  readonly shift?: boolean;
}

/** The hand over the one piece of a test design, 1 mm to the pixel. */
function handOn(store: BenchStore, p: Pt, held: Held = {}): HandAt {
  const piece = garmentOf(store.getState()).pieces[0]!;
  const left = piece.whole.unfolded ? -100 : 0;
  const right = piece.whole.unfolded ? 100 : 200;
  const away = Math.max(left - p[0], p[0] - right, -p[1], p[1] - 400, 0);
  return {
    piece,
    p,
    away,
    perPixel: 1,
    touch: false,
    alt: false,
    ctrl: false,
    shift: false,
    ...held,
    inside: () => p,
  };
}

const areasAddUp = (store: BenchStore): void => {
  const { pieces } = deriveGarment(store.getState().doc);
  for (const { whole, panels } of pieces) {
    expect(panels.reduce((sum, { area }) => sum + area, 0) / whole.area).toBeCloseTo(1, 6);
  }
};

test('a drag draws a line and leaves it chosen; a click on it and a drag move it', () => {
  const store = createBench(designOf(WHOLE));
  const hand = lineHand(store);
  hand.press(handOn(store, [3, 180]));
  hand.drag(handOn(store, [120, 186]));
  expect(store.getState().draft?.lines).toHaveLength(1);
  hand.drag(handOn(store, [195, 186]));
  hand.release(handOn(store, [195, 186]), true);
  expect(store.getState().doc.lines[0]!.path).toEqual([
    [
      [0, 180],
      [200, 180],
    ],
  ]);
  expect(store.getState().selected).toEqual({ kind: 'line', line: 'line-1' });

  hand.press(handOn(store, [50, 181]));
  hand.drag(handOn(store, [50, 231]));
  hand.release(handOn(store, [50, 231]), true);
  expect(store.getState().doc.lines[0]!.path[0]![0][1]).toBeCloseTo(230, 9);
  expect(store.getState().past.map(({ label }) => label)).toEqual(['Draw a line on front', 'Move a line']);
});

test('two clicks draw a line; the same click twice draws nothing', () => {
  const store = createBench(designOf(WHOLE));
  const hand = lineHand(store);
  const click = (p: Pt): void => {
    hand.press(handOn(store, p));
    hand.release(handOn(store, p), false);
  };
  click([2, 300]);
  hand.hover(handOn(store, [100, 300]));
  click([198, 301]);
  expect(store.getState().doc.lines).toHaveLength(1);
  click([2, 350]);
  click([2, 350]);
  expect(store.getState().doc.lines).toHaveLength(1);
  expect(store.getState().underWay).toBeNull();
});

test('a click in the wedge of a dart opens its ways; a drag from there, and a click on its point, draw', () => {
  const store = createBench(designOf({ ...WHOLE, darts: [dart([200, 260], [80, 300], [200, 340])] }));
  const hand = lineHand(store);
  hand.press(handOn(store, [160, 300]));
  hand.release(handOn(store, [160, 300]), false);
  expect(store.getState()).toMatchObject({
    openDart: { piece: 'front', dart: 0 },
    underWay: null,
    past: [],
  });

  store.getState().set({ openDart: null });
  hand.press(handOn(store, [81, 300]));
  hand.release(handOn(store, [81, 300]), false);
  expect(store.getState().underWay).not.toBeNull();
  expect(store.getState().openDart).toBeNull();
  hand.cancel();

  hand.press(handOn(store, [160, 300]));
  hand.drag(handOn(store, [160, 20]));
  hand.release(handOn(store, [160, 2]), true);
  expect(store.getState().doc.lines).toHaveLength(1);
  expect(store.getState().openDart).toBeNull();
});

test('the mirror image of a chosen line moves the line the other way round', () => {
  const store = createBench(designOf(HALF, straight('line-1', [60, 0], [60, 400])));
  store.getState().set({ selected: { kind: 'line', line: 'line-1' as never } });
  const hand = lineHand(store);
  hand.press(handOn(store, [-60, 120]));
  hand.drag(handOn(store, [-40, 120], { ctrl: true }));
  hand.release(handOn(store, [-40, 120], { ctrl: true }), true);
  expect(store.getState().doc.lines[0]!.path[0]![0][0]).toBeCloseTo(40, 9);
});

test('taking a stroke back leaves everything as it was', () => {
  const store = createBench(designOf(WHOLE));
  const before = store.getState().doc;
  const hand = lineHand(store);
  hand.press(handOn(store, [3, 180]));
  hand.drag(handOn(store, [150, 180]));
  hand.cancel();
  expect(store.getState()).toMatchObject({ doc: before, draft: null, underWay: null, tip: null, past: [] });
});

const place = fc.tuple(fc.integer({ min: -120, max: 220 }), fc.integer({ min: -20, max: 420 }));
const held = fc.record({ touch: fc.boolean(), alt: fc.boolean(), ctrl: fc.boolean(), shift: fc.boolean() });
const act = fc.record({
  kind: fc.constantFrom('drag', 'drag', 'click', 'cancelled', 'undo', 'redo'),
  from: place,
  to: place,
  held,
});

test.each([
  ['a whole piece', WHOLE],
  ['a half piece', HALF],
])(
  'whatever the hand does on %s, areas add up, nothing is left hanging, and undo leads back to the start',
  (_, piece) => {
    fc.assert(
      fc.property(fc.array(act, { minLength: 1, maxLength: 14 }), (acts) => {
        const store = createBench(designOf(piece));
        const start = store.getState().doc;
        const hand = lineHand(store);
        for (const { kind, from, to, held: keys } of acts) {
          if (kind === 'undo') store.getState().undo();
          else if (kind === 'redo') store.getState().redo();
          else {
            const taken = hand.press(handOn(store, from, keys));
            if (kind !== 'click' && taken) hand.drag(handOn(store, to, keys));
            if (kind === 'cancelled') hand.cancel();
            else hand.release(handOn(store, kind === 'click' ? from : to, keys), kind === 'drag');
          }
          expect(store.getState().notice).toBeNull();
          areasAddUp(store);
        }
        hand.cancel();
        expect(store.getState().draft).toBeNull();
        while (store.getState().past.length > 0) store.getState().undo();
        expect(store.getState().doc).toBe(start);
      }),
      { seed: 71, numRuns: 60 },
    );
  },
);
