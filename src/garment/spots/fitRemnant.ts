import { type LayJob, type ClothPiece, fitsAlone, layJobs, ownCloths, unfittingPanels } from '../../fabric';
import {
  LIES_ON,
  type Path,
  type Pt,
  endOf,
  nearestOnPath,
  signedAreaOfPoints,
  startOf,
} from '../../geometry';
import { tieLines } from '../../lines';
import type { Design, LineId, RemnantId } from '../../pattern';
import { deriveGarment } from '../deriveGarment';
import { acrossLine, alongLine } from './alongLine';

/** A panel line moved just so far that a panel fits a piece of one's own cloth, which it would have to itself. */
export interface LineFit {
  /** Number of the panel, before and after. */
  readonly number: number;
  readonly line: LineId;
  /** The line's name for people: `L3`. */
  readonly label: string;
  /** How far the line is moved, mm, more than 0. */
  readonly by: number;
  readonly remnant: RemnantId;
  readonly remnantName: string;
  /** The design with the line there: its cutting piece passed the exact check on the remnant. */
  readonly design: Design;
}

/** A line is moved no farther than this, mm: farther would be another design. */
export const FARTHEST_MOVE = 40;
/** Distances tried before the least one is looked for, mm. */
const LOOKS = [5, 10, 20, FARTHEST_MOVE] as const;

/** The lay job of a panel and one of its cloth pieces, by its number. */
function pieceOf(design: Design, number: number): { job: LayJob; piece: ClothPiece } | null {
  for (const job of layJobs(deriveGarment(design), { seconds: 0 })) {
    const piece = job.pieces.find((p) => p.number === number);
    if (piece) return { job, piece };
  }
  return null;
}

const areaOf = ({ cutting }: ClothPiece): number => Math.abs(signedAreaOfPoints(cutting));

/** The first of one's own cloths that a panel fits in a design; null where it fits none. */
function remnantFor(design: Design, number: number): RemnantId | null {
  const found = pieceOf(design, number);
  if (!found) return null;
  const { job, piece } = found;
  const cloths = ownCloths(design.remnants, job.colour).filter(({ copy }) => copy === 1);
  return cloths.find((cloth) => fitsAlone(job, piece, cloth))?.remnant ?? null;
}

/**
 * The design with those lines tied that end on a line and are held by nothing: else they would end in the open once it is moved.
 * The very same design where there are none.
 */
function withFollowers(design: Design, line: LineId): Design {
  const moved = design.lines.find(({ id }) => id === line);
  const laid = moved && deriveGarment(design).pieceById.get(moved.piece)?.lines;
  // the line and its mirror image
  const held = laid?.filter((l) => l.line === line).map(({ path }) => path) ?? [];
  const liesOn = (end: Pt): boolean => held.some((path) => nearestOnPath(path, end).distance <= LIES_ON);
  const onIt = design.lines.filter(
    ({ id, piece, path, ties }) =>
      id !== line &&
      piece === moved?.piece &&
      !ties &&
      path.length > 0 &&
      (liesOn(startOf(path)) || liesOn(endOf(path))),
  );
  if (onIt.length === 0) return design;
  return { ...design, lines: tieLines(design, new Set(onIt.map(({ id }) => id))) };
}

/** Where a line is tried. */
interface Ground {
  readonly design: Design;
  readonly number: number;
  readonly at: (offset: number) => Design | null;
}

/** The least whole number of mm, in the direction of the sign, by which the line has to be moved; null where no move will do. */
function* leastMove(
  { design, number, at }: Ground,
  sign: 1 | -1,
): Generator<undefined, { by: number; design: Design; remnant: RemnantId } | null> {
  const before = areaOf(pieceOf(design, number)!.piece);
  const tried = (by: number): { by: number; design: Design; remnant: RemnantId } | null => {
    const moved = at(sign * by);
    const remnant = moved && remnantFor(moved, number);
    return remnant ? { by, design: moved, remnant } : null;
  };
  let no = 0;
  for (const look of LOOKS) {
    yield;
    const moved = at(sign * look);
    if (!moved) return null;
    const piece = pieceOf(moved, number)?.piece;
    // the other side of the line: this way the panel grows
    if (!piece || areaOf(piece) >= before) return null;
    let found = tried(look);
    if (!found) {
      no = look;
      continue;
    }
    while (found.by - no > 1) {
      yield;
      const middle = Math.floor((no + found.by) / 2);
      const nearer = tried(middle);
      if (nearer) found = nearer;
      else no = middle;
    }
    return found;
  }
  return null;
}

/** The lines that bound a panel, by its number, each once, with their names. */
function linesOf(design: Design, number: number): { line: LineId; label: string; path: Path }[] {
  const { panels, plan, seams } = deriveGarment(design);
  const panel = panels.find(({ id }) => plan.numbers.get(id) === number);
  const out = new Map<LineId, { line: LineId; label: string; path: Path }>();
  for (const { a, b, line } of seams) {
    const drawn = design.lines.find(({ id }) => id === line.line);
    if (!panel || !drawn || (a !== panel.id && b !== panel.id) || out.has(line.line)) continue;
    out.set(line.line, { line: line.line, label: line.label.replace(/ mirrored$/, ''), path: drawn.path });
  }
  return [...out.values()];
}

/**
 * For a panel that fits none of one's own cloths: each panel line that bounds it, moved across itself by the least whole number of
 * mm, up to FARTHEST_MOVE, after which the panel's cutting piece fits one of them. Checked exactly at that very place. Lines that end
 * on the moved one and are held by nothing are tied to it, so that they follow.
 * @param number of the panel
 * @returns the least move first; yields between looks, so that it can be left off
 */
export function* fitByLine(design: Design, number: number): Generator<undefined, readonly LineFit[]> {
  const fits: LineFit[] = [];
  if (!pieceOf(design, number) || remnantFor(design, number)) return fits;
  for (const { line, label, path } of linesOf(design, number)) {
    const direction = acrossLine(path);
    if (!direction) continue;
    const at = alongLine(withFollowers(design, line), line, direction);
    for (const sign of [1, -1] as const) {
      const found = yield* leastMove({ design, number, at }, sign);
      if (!found) continue;
      const { by, remnant, design: moved } = found;
      const remnantName = design.remnants.find(({ id }) => id === remnant)!.name;
      fits.push({ number, line, label, by, remnant, remnantName, design: moved });
    }
  }
  return fits.sort((a, b) => a.by - b.by || (a.label < b.label ? -1 : 1));
}

/** Numbers of the panels that fail to fit any of one's own cloths by so little that moving a line may help, in order. */
export function nearlyFitting(design: Design): number[] {
  const nearly = layJobs(deriveGarment(design), { seconds: 0 })
    .flatMap((job) => unfittingPanels(job, design.remnants))
    .filter(({ along, across }) => along <= 2 * FARTHEST_MOVE && across <= 2 * FARTHEST_MOVE);
  // a facing's number stands for its interfacing too
  return [...new Set(nearly.map(({ number }) => number))].sort((a, b) => a - b);
}
