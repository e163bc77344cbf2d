/** Pieces on the table for the workbench's tests: a plain rectangle and a half piece, both invented. */
import { deriveGarment, type Garment } from '../../src/garment';
import type { Pt } from '../../src/geometry';
import type { PanelledPiece } from '../../src/panels';
import type { Design, LineId, PanelLine, Piece, PieceId } from '../../src/pattern';
import { design, piece, rectangle } from '../making/designs';

/** 200 wide, 400 high, grain straight down, waist at 100, a notch on the left edge at 250. */
export const WHOLE: Piece = piece(rectangle(200, 400), {
  levels: [
    {
      name: 'waist',
      line: [
        [0, 100],
        [200, 100],
      ],
    },
  ],
  notches: [{ at: [0, 250], inner: [5, 250] }],
});

/** The right half of a piece 200 wide, on the fold at x = 0. */
export const HALF: Piece = piece(rectangle(100, 400), {
  fold: [
    [0, 400],
    [0, 0],
  ],
  levels: [
    {
      name: 'waist',
      line: [
        [0, 100],
        [100, 100],
      ],
    },
  ],
});

export const straight = (id: string, a: Pt, b: Pt, once = false): PanelLine => ({
  id: id as LineId,
  piece: 'front' as PieceId,
  path: [[a, b]],
  overDarts: 'flat',
  ties: null,
  once,
});

export const designOf = (p: Piece, ...lines: PanelLine[]): Design => design([p], lines);
export const garmentOf = (p: Piece, ...lines: PanelLine[]): Garment => deriveGarment(designOf(p, ...lines));
export const panelled = (p: Piece, ...lines: PanelLine[]): PanelledPiece => garmentOf(p, ...lines).pieces[0]!;
