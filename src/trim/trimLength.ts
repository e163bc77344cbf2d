import { type PanelledPiece, sewnLength } from '../panels';
import { pathLength } from '../geometry';
import type { Trim } from '../pattern';
import type { TrimStrip } from '../sewing';
import type { Bend } from './trimBend';
import type { Hidden } from './trimRun';

/** Turned under at a raw end that nothing covers, mm (12–25 mm; common practice, no source). */
export const TURN_UNDER = 15;

/** Sharper corners than this, radians, are folded back on themselves, not mitred. */
const SHARPEST_MITRE = (5 / 6) * Math.PI;

/** Length along which a strip lies once its seams are sewn, mm: what lies in darts is left out, as it is in the seams. */
export function lyingLength(piece: PanelledPiece, { path, seams, line }: TrimStrip): number {
  const whole = pathLength(path);
  const own = piece.seams.filter((s) => line !== null && seams.includes(s.id));
  const flat = own.reduce((sum, s) => sum + pathLength(s.path), 0);
  if (own.length > 0 && Math.abs(flat - whole) < 0.01) return own.reduce((sum, s) => sum + s.lengthA, 0);
  return sewnLength(
    path,
    piece.whole.darts.filter((d) => d.close === null),
  );
}

/**
 * What an end needs beyond the line, mm. In a seam: its allowance. Under a trim only: to that trim's other edge at most. Turned under:
 * TURN_UNDER.
 * @param widthOver of the trim that lies over the end
 */
export function endAllowance(hidden: Hidden, newSeam: number, widthOver: number): number {
  if (hidden.by === 'edge' || hidden.by === 'seam') return newSeam;
  return hidden.by === 'trim' || hidden.by === 'tuck' ? Math.min(newSeam, widthOver / 2) : TURN_UNDER;
}

/**
 * What the corners take beyond the length of the middle line, mm: a strip folded into a mitre is as long as its outer edge, so each takes
 * width · tan(turn / 2) more (90°: one width; from the geometry of the fold).
 */
export const mitresOf = ({ turns }: Pick<Bend, 'turns'>, width: number): number =>
  turns.reduce((sum, t) => sum + width * Math.tan(Math.min(Math.abs(t), SHARPEST_MITRE) / 2), 0);

/**
 * Diagonal joins in a length of ribbon that is sold in shorter ones: square-cut ends joined on the diagonal lose one strip width at each
 * join, so each further length gives its own less the width.
 */
export function joinsIn(length: number, trim: Pick<Trim, 'soldIn' | 'width' | 'shrinkage'>): number {
  const usable = usableLength(trim);
  if (length <= usable) return 0;
  return Math.ceil((length - usable) / Math.max(1, usable - trim.width) - 1e-9);
}

/** What one piece of ribbon as sold gives once it is washed, mm; Infinity from the roll. */
export const usableLength = ({ soldIn, shrinkage }: Pick<Trim, 'soldIn' | 'shrinkage'>): number =>
  soldIn === null ? Infinity : soldIn * (1 - shrinkage / 100);
