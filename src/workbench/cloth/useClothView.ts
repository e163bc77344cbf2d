import { useCallback, useEffect, useRef, useState, type RefObject } from 'react';
import type { Box, Pt } from '../../geometry';
import { listenToGestures } from '../canvas/gestures';
import { covered, useTable } from '../canvas/tableControls';
import { useBench } from '../store/benchStore';

/** How cloth is looked at: pixels = mm × scale + (x, y). */
export interface ClothView {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

/** What the fingers and the mouse do to the cloth besides moving it, at client pixels. */
export interface ClothHands {
  readonly point: (x: number, y: number) => void;
  readonly tap: (x: number, y: number) => void;
}

const LEAST_SCALE = 0.04;
const MOST_SCALE = 6;
type Inset = readonly [left: number, above: number, right: number, below: number];

/** Room for what is written round the cloth, pixels. */
const ROUND_IT: Inset = [86, 92, 34, 92];
/** The same where there is little room. */
const ROUND_IT_SMALL: Inset = [66, 84, 16, 62];
const ROUND_IT_LOW: Inset = [66, 82, 16, 38];
const [SMALL, LOW] = [760, 480];
/** The view's buttons lie this far in from the right, and this much higher than what is written below the cloth, pixels. */
const [CORNER_WIDTH, CORNER_HEIGHT] = [220, 56];
/** Held upright with the sheet folded away, its button and the signs lie across below, pixels. */
const UNFOLD_HEIGHT = 84;

function fitInto(box: Box, width: number, height: number, inset: Inset): ClothView {
  const [left, above, right, below] = inset;
  const [w, h] = [Math.max(60, width - left - right), Math.max(60, height - above - below)];
  const [boxW, boxH] = [box.maxX - box.minX, box.maxY - box.minY];
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, Math.min(w / boxW, h / boxH)));
  return {
    scale,
    x: left + (w - boxW * scale) / 2 - box.minX * scale,
    y: above + (h - boxH * scale) / 2 - box.minY * scale,
  };
}

/** What lies over the table's sides, and the room for what is written round the cloth, pixels. */
function insetOf(width: number, height: number): Inset {
  const round = height < LOW ? ROUND_IT_LOW : width < SMALL ? ROUND_IT_SMALL : ROUND_IT;
  const [left = 0, above = 0, right = 0, below = 0] = covered().map((n, i) => n + round[i]!);
  return [left, above, right, below];
}

/** Pixels there are for the cloth on a table of that size. */
export function roomForCloth(width: number, height: number): Pt {
  const [left, above, right, below] = insetOf(width, height);
  return [Math.max(60, width - left - right), Math.max(60, height - above - below)];
}

function fittedView(box: Box, width: number, height: number): ClothView {
  const [left, above, right, below] = insetOf(width, height);
  const view = fitInto(box, width, height, [left, above, right, below]);
  const isOverCorner = width >= SMALL && box.maxX * view.scale + view.x > width - CORNER_WIDTH;
  const isUnfoldable = width < SMALL && height > width && !document.querySelector('.sheet');
  const more = isOverCorner ? CORNER_HEIGHT : isUnfoldable ? UNFOLD_HEIGHT : 0;
  return more > 0 ? fitInto(box, width, height, [left, above, right, below + more]) : view;
}

const zoomed = (v: ClothView, factor: number, [px, py]: Pt): ClothView => {
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, v.scale * factor));
  const k = scale / v.scale;
  return { scale, x: px - (px - v.x) * k, y: py - (py - v.y) * k };
};

/**
 * A view of the cloth that is moved by mouse, fingers, wheel, keys and the view's buttons, as the table is. As long as nobody has moved it,
 * everything stays in it.
 * @param box what is to be seen, mm
 */
export function useClothView(holder: RefObject<HTMLElement | null>, box: Box, hands: ClothHands): ClothView {
  const controls = useTable();
  const sheetOpen = useBench((s) => s.sheetOpen);
  const [view, setView] = useState<ClothView>({ scale: 0.3, x: 0, y: 0 });
  const isFitted = useRef(true);
  const latest = useRef({ box, hands });
  useEffect(() => {
    latest.current = { box, hands };
  });

  const fit = useCallback((): void => {
    const { clientWidth, clientHeight } = holder.current ?? {};
    if (!clientWidth || !clientHeight) return;
    isFitted.current = true;
    setView(fittedView(latest.current.box, clientWidth, clientHeight));
  }, [holder]);

  useEffect(() => {
    const element = holder.current!;
    const change = (next: (v: ClothView) => ClothView): void => {
      isFitted.current = false;
      setView(next);
    };
    const middle = (): Pt => {
      const [left, above, , below] = covered();
      return [(left + element.clientWidth) / 2, (above + element.clientHeight - below) / 2];
    };
    const zoomBy = (factor: number, about: Pt = middle()): void => change((v) => zoomed(v, factor, about));
    const panBy = (dx: number, dy: number): void => change((v) => ({ ...v, x: v.x + dx, y: v.y + dy }));
    fit();
    controls.centre = { zoomBy, panBy, fitAll: fit };
    const at = (e: PointerEvent): [number, number] => [e.clientX, e.clientY];
    const stop = listenToGestures(element, {
      press: () => false,
      hover: (_, e) => latest.current.hands.point(...at(e)),
      drag: () => undefined,
      release: (_, e, dragged) => !dragged && latest.current.hands.tap(...at(e)),
      cancel: () => undefined,
      leave: () => latest.current.hands.point(-1, -1),
      pan: panBy,
      zoom: zoomBy,
    });
    const watch = new ResizeObserver(() => isFitted.current && fit());
    watch.observe(element);
    return () => {
      controls.centre = null;
      stop();
      watch.disconnect();
    };
  }, [holder, controls, fit]);

  const { minX, minY, maxX, maxY } = box;
  useEffect(() => {
    if (!isFitted.current) return undefined;
    // the frame after next, when the sheet stands or is gone
    let frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(fit);
    });
    return () => cancelAnimationFrame(frame);
  }, [fit, sheetOpen, minX, minY, maxX, maxY]);
  return view;
}
