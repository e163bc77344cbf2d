import type { Pt } from '../../geometry';

/** What the table understands of pointers, wheels and fingers. All points are canvas pixels. */
export interface GestureTarget {
  /** @returns true when the hand takes the press; false moves the table */
  press(px: Pt, event: PointerEvent): boolean;
  hover(px: Pt, event: PointerEvent): void;
  drag(px: Pt, event: PointerEvent): void;
  /** `dragged` tells a click from a drag. */
  release(px: Pt, event: PointerEvent, dragged: boolean): void;
  /** The press is taken back: a second finger came down, or the system took the pointer. */
  cancel(): void;
  leave(): void;
  pan(dx: number, dy: number): void;
  zoom(factor: number, about: Pt): void;
}

/** Movement below this, pixels, is a click. */
const DRAG_FROM = { mouse: 4, touch: 9 } as const;
/** Pause after which a wheel starts a new gesture, ms. */
const WHEEL_PAUSE = 250;
/** One notch of a mouse wheel zooms by about this. */
const ZOOM_PER_PIXEL = 0.0016;

type Pressed = {
  readonly id: number;
  readonly start: Pt;
  last: Pt;
  dragged: boolean;
  readonly hand: boolean;
};

const middle = (a: Pt, b: Pt): Pt => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
const apart = (a: Pt, b: Pt): number => Math.max(1, Math.hypot(a[0] - b[0], a[1] - b[1]));

/**
 * Listen to one canvas, or to a drawing of another kind. One finger or the left button works the hand; two fingers, the middle button or a held space bar move
 * and zoom the table; a wheel zooms, a trackpad's two-finger scroll moves, its pinch (wheel with ctrl) zooms.
 * @returns a function that stops listening
 */
export function listenToGestures(canvas: HTMLElement, target: GestureTarget): () => void {
  const fingers = new Map<number, Pt>();
  let pressed: Pressed | null = null;
  let pinching = false;
  let space = false;
  let wheelMoves = false;
  let lastWheel = -Infinity;

  const place = (e: { clientX: number; clientY: number }): Pt => {
    const box = canvas.getBoundingClientRect();
    return [e.clientX - box.left, e.clientY - box.top];
  };

  const down = (e: PointerEvent): void => {
    const px = place(e);
    canvas.setPointerCapture?.(e.pointerId);
    if (e.pointerType === 'touch') fingers.set(e.pointerId, px);
    if (fingers.size === 2) {
      if (pressed?.hand) target.cancel();
      pressed = null;
      pinching = true;
      return;
    }
    if (pinching || pressed || (e.button !== 0 && e.button !== 1)) return;
    if (e.button === 1) e.preventDefault();
    const hand = e.button === 0 && !space && target.press(px, e);
    pressed = { id: e.pointerId, start: px, last: px, dragged: false, hand };
  };

  const pinch = (e: PointerEvent, px: Pt): void => {
    const before = [...fingers.values()];
    fingers.set(e.pointerId, px);
    const after = [...fingers.values()];
    if (before.length !== 2) return;
    const [m0, m1] = [middle(before[0]!, before[1]!), middle(after[0]!, after[1]!)];
    target.pan(m1[0] - m0[0], m1[1] - m0[1]);
    target.zoom(apart(after[0]!, after[1]!) / apart(before[0]!, before[1]!), m1);
  };

  const move = (e: PointerEvent): void => {
    const px = place(e);
    if (fingers.has(e.pointerId) && pinching) return pinch(e, px);
    if (fingers.has(e.pointerId)) fingers.set(e.pointerId, px);
    if (!pressed) return target.hover(px, e);
    if (pressed.id !== e.pointerId) return;
    const far = Math.hypot(px[0] - pressed.start[0], px[1] - pressed.start[1]);
    const from = e.pointerType === 'touch' ? DRAG_FROM.touch : DRAG_FROM.mouse;
    if (!pressed.dragged && far < from) return;
    pressed.dragged = true;
    if (pressed.hand) target.drag(px, e);
    else target.pan(px[0] - pressed.last[0], px[1] - pressed.last[1]);
    pressed.last = px;
  };

  const up = (e: PointerEvent): void => {
    fingers.delete(e.pointerId);
    if (pinching) {
      if (fingers.size === 0) pinching = false;
      return;
    }
    if (!pressed || pressed.id !== e.pointerId) return;
    const { dragged, hand } = pressed;
    pressed = null;
    if (hand || !dragged) target.release(place(e), e, dragged);
  };

  const lost = (e: PointerEvent): void => {
    fingers.delete(e.pointerId);
    if (fingers.size === 0) pinching = false;
    if (pressed?.id !== e.pointerId) return;
    if (pressed.hand) target.cancel();
    pressed = null;
  };

  const wheel = (e: WheelEvent): void => {
    e.preventDefault();
    if (e.timeStamp - lastWheel > WHEEL_PAUSE) {
      const notched =
        e.deltaMode !== 0 || (e.deltaX === 0 && Math.abs(e.deltaY) >= 40 && Number.isInteger(e.deltaY));
      wheelMoves = !notched;
    }
    lastWheel = e.timeStamp;
    const unit = e.deltaMode === 1 ? 32 : e.deltaMode === 2 ? 400 : 1;
    const [dx, dy] = [e.deltaX * unit, e.deltaY * unit];
    if (e.ctrlKey) return target.zoom(Math.exp(-dy * 0.01), place(e));
    if (wheelMoves || e.shiftKey)
      return target.pan(e.shiftKey && dx === 0 ? -dy : -dx, e.shiftKey && dx === 0 ? 0 : -dy);
    target.zoom(Math.exp(-dy * ZOOM_PER_PIXEL), place(e));
  };

  const spaceDown = (e: KeyboardEvent): void => {
    if (e.code !== 'Space' || isTyping(e.target)) return;
    if (document.activeElement === canvas) e.preventDefault();
    space = true;
  };
  const spaceUp = (e: KeyboardEvent): void => {
    if (e.code === 'Space') space = false;
  };
  const stopMenu = (e: Event): void => e.preventDefault();

  const on: [EventTarget, string, (e: never) => void][] = [
    [canvas, 'pointerdown', down],
    [canvas, 'pointermove', move],
    [canvas, 'pointerup', up],
    [canvas, 'pointercancel', lost],
    [canvas, 'pointerleave', () => !pressed && target.leave()],
    [canvas, 'contextmenu', stopMenu],
    [window, 'keydown', spaceDown],
    [window, 'keyup', spaceUp],
  ];
  for (const [where, name, listener] of on) where.addEventListener(name, listener as EventListener);
  canvas.addEventListener('wheel', wheel, { passive: false });
  return () => {
    for (const [where, name, listener] of on) where.removeEventListener(name, listener as EventListener);
    canvas.removeEventListener('wheel', wheel);
  };
}

/** Whether a key press belongs to a field rather than to the drawing. */
export function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable ||
      target instanceof HTMLTextAreaElement ||
      target instanceof HTMLSelectElement ||
      (target instanceof HTMLInputElement && !['checkbox', 'radio', 'button', 'color'].includes(target.type)))
  );
}
