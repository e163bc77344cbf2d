import type { Pt } from '../../geometry';
import type { PanelledPiece } from '../../panels';

/** Where the hand is: in the traced coordinates of the piece it works on, mm. */
export interface HandAt {
  readonly piece: PanelledPiece | null;
  readonly p: Pt;
  /** How far off the piece, mm; 0 on it. */
  readonly away: number;
  /** mm per screen pixel now. */
  readonly perPixel: number;
  readonly touch: boolean;
  /** Held keys: any angle (Alt), no catching (Ctrl or ⌘), draw even on a selected line (Shift). */
  readonly alt: boolean;
  readonly ctrl: boolean;
  readonly shift: boolean;
  /** The same place in the coordinates of another piece. */
  inside(piece: PanelledPiece): Pt;
}

/** What the pointer does in a place of the job. Every press ends in exactly one of release and cancel. */
export interface Hand {
  hover(at: HandAt): void;
  /** @returns false to let the table be moved instead */
  press(at: HandAt): boolean;
  /** Only while pressed and past the drag threshold. */
  drag(at: HandAt): void;
  release(at: HandAt, dragged: boolean): void;
  cancel(): void;
  leave(): void;
  /** CSS cursor while hovering. */
  cursor(at: HandAt): string;
}

/** How near a line or handle must be to be taken hold of, pixels: finger pads are wide. */
const GRAB = { mouse: 9, touch: 22 } as const;
/** Within how many pixels ends catch. */
const CATCH = { mouse: 12, touch: 22 } as const;
/** Off a piece by more than this, pixels, the hand works on no piece. */
export const NEAR_PIECE = { mouse: 36, touch: 44 } as const;

export const grabReach = ({ touch, perPixel }: HandAt): number =>
  (touch ? GRAB.touch : GRAB.mouse) * perPixel;
export const catchReach = ({ touch, perPixel, ctrl }: HandAt, catching: boolean): number =>
  catching && !ctrl ? (touch ? CATCH.touch : CATCH.mouse) * perPixel : 0;
