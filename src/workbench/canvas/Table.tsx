import { useEffect, useRef, useState, type ReactElement, type ReactNode } from 'react';
import type { Pt } from '../../geometry';
import { colourHand } from '../hands/colourHand';
import type { Hand } from '../hands/hand';
import { lineHand } from '../hands/lineHand';
import { lookHand } from '../hands/lookHand';
import { trimHand } from '../hands/trimHand';
import { useBenchStore, type BenchState, type BenchStore } from '../store/benchStore';
import { createBoard, type Board } from './board';
import { listenToGestures } from './gestures';
import { handAt } from './handAt';
import { pictureOf } from './picture';
import { fitAll, keepFitted, useTable, type TableControls } from './tableControls';

/** How long a pointed-at place is ringed, ms. */
const POINTING_LASTS = 1600;

function handsOf(store: BenchStore): (s: BenchState) => Hand {
  const [lines, colours, look] = [lineHand(store), trimHand(store, colourHand(store)), lookHand(store)];
  return ({ place }) => (place === 'lines' ? lines : place === 'colours' ? colours : look);
}

/** Wire the pointers to the hand of the place; moves are taken once per frame. */
function workTable(
  canvas: HTMLCanvasElement,
  board: Board,
  store: BenchStore,
  controls: TableControls,
): () => void {
  const handOf = handsOf(store);
  const hand = (): Hand => handOf(store.getState());
  let waiting: { px: Pt; event: PointerEvent; drag: boolean } | null = null;
  let frame = 0;
  const flush = (): void => {
    frame = 0;
    if (!waiting) return;
    const { px, event, drag } = waiting;
    waiting = null;
    const at = handAt(board, store.getState(), px, event);
    if (drag) hand().drag(at);
    else {
      hand().hover(at);
      canvas.style.cursor = hand().cursor(at);
    }
  };
  const later = (px: Pt, event: PointerEvent, drag: boolean): void => {
    waiting = { px, event, drag };
    frame ||= requestAnimationFrame(flush);
  };
  const stop = listenToGestures(canvas, {
    press: (px, event) => {
      flush();
      return hand().press(handAt(board, store.getState(), px, event));
    },
    hover: (px, event) => later(px, event, false),
    drag: (px, event) => later(px, event, true),
    release: (px, event, dragged) => {
      flush();
      hand().release(handAt(board, store.getState(), px, event), dragged);
    },
    cancel: () => hand().cancel(),
    leave: () => hand().leave(),
    pan: (dx, dy) => board.panBy(dx, dy),
    zoom: (factor, about) => board.zoomBy(factor, about),
  });
  controls.cancelHand = () => hand().cancel();
  const unplace = store.subscribe((s, before) => {
    if (s.place !== before.place) handOf(before).cancel();
  });
  return () => {
    cancelAnimationFrame(frame);
    stop();
    unplace();
  };
}

/** Whether only what is read of the cloth has changed, which is not drawn. */
const isReadOnly = (s: BenchState, before: BenchState): boolean =>
  s.cost !== before.cost && s.cost?.spots === before.cost?.spots && s.cost?.line === before.cost?.line;

/** Redraw on the next frame whenever the bench changes. */
function keepDrawn(board: Board, store: BenchStore): () => void {
  let frame = 0;
  let fade: ReturnType<typeof setTimeout> | undefined;
  const draw = (): void => {
    frame = 0;
    board.show(pictureOf(store.getState()));
  };
  const soon = (): void => {
    frame ||= requestAnimationFrame(draw);
  };
  draw();
  const stop = store.subscribe((s, before) => {
    if (!isReadOnly(s, before)) soon();
    if (s.pointing && s.pointing !== before.pointing) {
      clearTimeout(fade);
      fade = setTimeout(() => store.getState().set({ pointing: null }), POINTING_LASTS);
    }
  });
  return () => {
    stop();
    cancelAnimationFrame(frame);
    clearTimeout(fade);
  };
}

/** Screens of other density need a new canvas: paper.js fixes it once. */
function useDensity(): number {
  const [density, setDensity] = useState(() => window.devicePixelRatio);
  useEffect(() => {
    const query = window.matchMedia?.(`(resolution: ${density}dppx)`);
    const changed = (): void => setDensity(window.devicePixelRatio);
    query?.addEventListener('change', changed);
    return () => query?.removeEventListener('change', changed);
  }, [density]);
  return density;
}

/** The drawing: pieces side by side on the table, with what floats over it as children. */
export function Table({
  children,
  describedBy,
  isAway = false,
}: {
  children?: ReactNode;
  describedBy: string;
  /** Out of sight and reach, but still laid out: something else lies in the middle. */
  isAway?: boolean;
}): ReactElement {
  const store = useBenchStore();
  const controls = useTable();
  const density = useDensity();
  const holder = useRef<HTMLDivElement>(null);
  const [standing, setStanding] = useState(0);

  useEffect(() => {
    const box = holder.current!;
    const canvas = document.createElement('canvas');
    canvas.className = 'table-canvas';
    canvas.tabIndex = 0;
    canvas.setAttribute('role', 'application');
    canvas.setAttribute('aria-label', 'The drawing');
    canvas.setAttribute('aria-describedby', describedBy);
    canvas.style.width = `${box.clientWidth}px`;
    canvas.style.height = `${box.clientHeight}px`;
    box.prepend(canvas);
    const board = createBoard(canvas);
    controls.board = board;
    board.resize(box.clientWidth, box.clientHeight);
    const undraw = keepDrawn(board, store);
    const unwork = workTable(canvas, board, store, controls);
    fitAll(controls, store);
    const unfit = keepFitted(box, controls, store);
    setStanding((n) => n + 1);
    return () => {
      unfit();
      unwork();
      undraw();
      board.dispose();
      canvas.remove();
      controls.board = null;
    };
  }, [store, controls, density, describedBy]);

  return (
    <div className="table" ref={holder} data-away={isAway || undefined} inert={isAway}>
      {standing > 0 && children}
    </div>
  );
}
