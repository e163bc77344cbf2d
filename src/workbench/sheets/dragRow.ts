import { useRef, useState, type PointerEvent, type KeyboardEvent } from 'react';

/** A drag of one row of a list to before another (null: to the end). */
export interface RowDrag {
  readonly key: string;
  readonly before: string | null;
}

/** Near the edge of what scrolls, px, a drag scrolls it along, and by so much at each move. */
const NEAR_EDGE = 48;
const SCROLL = 14;

const rowsOf = (list: HTMLElement): HTMLElement[] => [
  ...list.querySelectorAll<HTMLElement>('[data-step-key]'),
];

/** The row before which something let go at this height comes to lie; null at the end. */
function rowAt(list: HTMLElement, y: number): string | null {
  const next = rowsOf(list).find((row) => {
    const { top, height } = (row.querySelector('.step-head') ?? row).getBoundingClientRect();
    return y < top + height / 2;
  });
  return next?.dataset['stepKey'] ?? null;
}

function scrollAlong(list: HTMLElement, y: number): void {
  const body = list.closest('.sheet-body');
  if (!body) return;
  const { top, bottom } = body.getBoundingClientRect();
  if (y < top + NEAR_EDGE) body.scrollTop -= SCROLL;
  if (y > bottom - NEAR_EDGE) body.scrollTop += SCROLL;
}

/** What a handle needs to be dragged by. */
export interface HandleProps {
  readonly onPointerDown: (e: PointerEvent<HTMLElement>) => void;
  readonly onPointerMove: (e: PointerEvent<HTMLElement>) => void;
  readonly onPointerUp: (e: PointerEvent<HTMLElement>) => void;
  readonly onPointerCancel: () => void;
  readonly onKeyDown: (e: KeyboardEvent<HTMLElement>) => void;
}

/** Farther than this from where it was taken up, px, a handle is dragged; nearer it was only pressed. */
const DRAGGED = 6;

/**
 * Drag rows of a list to other places, by mouse, pen or finger. Rows carry `data-step-key` and lie inside an element with
 * `data-step-list`; Escape lets go.
 */
export function useRowDrag(onDrop: (drag: RowDrag) => void): {
  readonly drag: RowDrag | null;
  readonly handle: (key: string) => HandleProps;
} {
  const [drag, setDrag] = useState<RowDrag | null>(null);
  const from = useRef<{ key: string; y: number } | null>(null);
  const stop = (): void => {
    from.current = null;
    setDrag(null);
  };
  const handle = (key: string): HandleProps => ({
    onPointerDown: (e) => {
      if (e.button !== 0) return;
      from.current = { key, y: e.clientY };
      e.currentTarget.setPointerCapture?.(e.pointerId);
    },
    onPointerMove: (e) => {
      const taken = from.current;
      if (!taken || taken.key !== key) return;
      const list = e.currentTarget.closest<HTMLElement>('[data-step-list]');
      if (!list || (drag === null && Math.abs(e.clientY - taken.y) < DRAGGED)) return;
      scrollAlong(list, e.clientY);
      const before = rowAt(list, e.clientY);
      if (drag?.before !== before || drag.key !== key) setDrag({ key, before });
    },
    onPointerUp: () => {
      const done = drag;
      stop();
      if (done) onDrop(done);
    },
    onPointerCancel: stop,
    onKeyDown: (e) => {
      if (e.key === 'Escape' && from.current) {
        e.stopPropagation();
        stop();
      }
    },
  });
  return { drag, handle };
}
