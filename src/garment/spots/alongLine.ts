import {
  type Path,
  type Pt,
  distance,
  endOf,
  perpendicular,
  scale,
  startOf,
  subtract,
  unit,
} from '../../geometry';
import { movedPath, reshaped } from '../../lines';
import { type PanelledPiece, withLines } from '../../panels';
import { type Design, type LineId, type Problem, severityOf } from '../../pattern';
import { numbersMeanwhile } from '../../sewing';
import { deriveGarment } from '../deriveGarment';
import type { Garment } from '../garment';

/** What the ends of a line on a piece may hang on: the outline, the other lines, the fold. */
function holdersOf({ whole, lines }: PanelledPiece, without: LineId): readonly Path[] {
  const others = lines.flatMap(({ line, path }) => (line === without ? [] : [path]));
  return [whole.stitching, ...others, ...(whole.foldLine ? [[whole.foldLine]] : [])];
}

/**
 * The way a line is moved to change what is cut on either side of it: square to the straight from its start to its end, unit.
 * Null for one that ends where it begins.
 */
export function acrossLine(path: Path): Pt | null {
  if (path.length === 0) return null;
  const [a, b] = [startOf(path), endOf(path)];
  return distance(a, b) < 1 ? null : perpendicular(unit(subtract(b, a)));
}

/** Whether a drawing with such a problem is wrong. Lines that miss each other over a seam may be meant to. */
const isFault = (p: Problem): boolean =>
  p.code === 'tie-lost' || (severityOf(p) === 'error' && p.code !== 'lines-do-not-meet');

/** How often each fault is found. */
function faults(problems: readonly Problem[]): ReadonlyMap<Problem['code'], number> {
  const counts = new Map<Problem['code'], number>();
  for (const p of problems) if (isFault(p)) counts.set(p.code, (counts.get(p.code) ?? 0) + 1);
  return counts;
}

/** The colours of a piece's panels, each as often as there are panels of it. */
const coloursOf = ({ panels }: PanelledPiece): string =>
  panels
    .map(({ colour }) => colour)
    .sort()
    .join(' ');

/**
 * Whether a drawing has as many panels of each colour on every piece as before, and no fault that it did not have. A panel that
 * becomes small beside what its neighbour loses to it takes the neighbour's colour: that is not what a moved line is for.
 */
function isAsSound(before: Garment, after: Garment): boolean {
  const known = faults(before.problems);
  return (
    before.pieces.every((piece, i) => {
      const other = after.pieces[i];
      return other !== undefined && coloursOf(other) === coloursOf(piece);
    }) && [...faults(after.problems)].every(([code, count]) => count <= (known.get(code) ?? 0))
  );
}

/**
 * A design with one of its lines moved as a whole, as the hand moves it on the table: ends stay on what they hang on, the line is tied
 * anew where it comes to lie, tied lines follow, panels keep their colours and numbers.
 * @param direction unit vector in the traced coordinates of the line's piece (acrossLine gives the usual one)
 * @returns by an offset along it, mm: the design; null where the drawing would become wrong (panels that vanish, split, merge or change colour,
 * errors that were not there; lines that no longer meet over a seam are none) or where the design has no such line. Offset 0 is the very design
 */
export function alongLine(design: Design, line: LineId, direction: Pt): (offset: number) => Design | null {
  const drawn = design.lines.find(({ id }) => id === line);
  const before = deriveGarment(design);
  const piece = drawn && before.pieceById.get(drawn.piece);
  if (!drawn || !piece || drawn.path.length === 0) return () => null;
  const holders = holdersOf(piece, line);
  const move = (offset: number): Design | null => {
    const path = movedPath(drawn.path, holders, scale(direction, offset));
    const moved = reshaped(design, drawn, path);
    const lines = design.lines.map((l) => (l === drawn ? moved : l));
    const after = numbersMeanwhile(before, withLines(design, lines));
    return isAsSound(before, deriveGarment(after)) ? after : null;
  };
  const known = new Map<number, Design | null>([[0, design]]);
  return (offset) => {
    const found = known.get(offset);
    if (found !== undefined) return found;
    const after = move(offset);
    known.set(offset, after);
    return after;
  };
}
