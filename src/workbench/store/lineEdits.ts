import type { Path } from '../../geometry';
import { reshaped, tied, tieLines } from '../../lines';
import { withLines } from '../../panels';
import {
  type Base,
  type Design,
  type LineId,
  type LineTies,
  type PanelLine,
  type PieceId,
  withoutWhatIsOn,
} from '../../pattern';
import type { Edit } from './documentSlice';

/** The first free line ids of a design. */
export function freshLineIds(design: Design, count: number): readonly LineId[] {
  const taken = new Set<string>(design.lines.map(({ id }) => id));
  const fresh: LineId[] = [];
  for (let n = design.lines.length + 1; fresh.length < count; n += 1)
    if (!taken.has(`line-${n}`)) fresh.push(`line-${n}` as LineId);
  return fresh;
}

/** The first free line id of a design. */
export const freshLineId = (design: Design): LineId => freshLineIds(design, 1)[0]!;

export const lineOf = (design: Design, id: LineId): PanelLine | null =>
  design.lines.find((line) => line.id === id) ?? null;

const mapLine =
  (id: LineId, change: (line: PanelLine) => PanelLine): Edit =>
  (design) => {
    const line = lineOf(design, id);
    if (!line) return design;
    const changed = change(line);
    return changed === line
      ? design
      : withLines(
          design,
          design.lines.map((l) => (l === line ? changed : l)),
        );
  };

/** Add a line after all others. Colours stay with their panels. */
export const addLine =
  (id: LineId, piece: PieceId, path: Path, once: boolean): Edit =>
  (design) =>
    withLines(design, [...design.lines, { id, piece, path, once, overDarts: 'sewn', ties: null }]);

/**
 * Draw a line at the bench: it is tied where it lies, to what it lies on, and measured from `base` where it was placed by that.
 * Colours stay with their panels.
 */
export const drawLine =
  (id: LineId, piece: PieceId, path: Path, once: boolean, base: Base | null = null): Edit =>
  (design) => {
    const line: PanelLine = { id, piece, path, once, overDarts: 'sewn', ties: null };
    return withLines(design, [...design.lines, tied(design, line, base)]);
  };

/** Give a line another path; a tied one is tied anew where it comes to lie, measured from the same things. */
export const reshapeLine =
  (id: LineId, path: Path): Edit =>
  (design) =>
    mapLine(id, (line) => reshaped(design, line, path))(design);

/** Tie lines where they lie; those that are tied already stay as they are. */
export const tieLinesHere =
  (ids: readonly LineId[]): Edit =>
  (design) => {
    const lines = tieLines(design, new Set(ids));
    return lines.some((l, i) => l !== design.lines[i]) ? withLines(design, lines) : design;
  };

/** Say anew what holds a line; null lets it lie where it is. */
export const holdLine = (id: LineId, ties: LineTies | null): Edit =>
  mapLine(id, (line) => (line.ties === ties ? line : { ...line, ties }));

/** Whether a line is laid over darts as it will be sewn, or as drawn on the flat paper. */
export const layOverDarts = (id: LineId, overDarts: PanelLine['overDarts']): Edit =>
  mapLine(id, (line) => (line.overDarts === overDarts ? line : { ...line, overDarts }));

/** Whether a line on an opened-out piece stays on its side or is mirrored. */
export const keepToOneSide = (id: LineId, once: boolean): Edit =>
  mapLine(id, (line) => (line.once === once ? line : { ...line, once }));

/** Take a line away, with all that is on it. */
export const deleteLine =
  (id: LineId): Edit =>
  (design) =>
    lineOf(design, id)
      ? withoutWhatIsOn(
          withLines(
            design,
            design.lines.filter((line) => line.id !== id),
          ),
          id,
        )
      : design;

/** Move a line one place earlier (-1) or later (1) in drawing order: the earlier one runs through at a crossing. */
export const reorderLine =
  (id: LineId, by: -1 | 1): Edit =>
  (design) => {
    const from = design.lines.findIndex((line) => line.id === id);
    const to = from + by;
    if (from < 0 || to < 0 || to >= design.lines.length) return design;
    const lines = [...design.lines];
    [lines[from], lines[to]] = [lines[to]!, lines[from]!];
    return withLines(design, lines);
  };
