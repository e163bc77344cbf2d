import { bandAround, bandAtDepth, bandLines } from '../../lines';
import type { EdgeRef } from '../../neighbours';
import { withLines } from '../../panels';
import type { Design, LineId } from '../../pattern';
import type { Edit } from './documentSlice';
import { freshLineIds, lineOf } from './lineEdits';

const fresh =
  (design: Design) =>
  (count: number): readonly LineId[] =>
    freshLineIds(design, count);

/**
 * Lay a band that goes round along a hem at a depth, mm, on every piece the hem goes on to. The same design where it does not fit.
 * Colours stay with their panels.
 */
export const addBand =
  (hem: EdgeRef, depth: number, inTheRound: boolean): Edit =>
  (design) => {
    const lines = bandLines(design, hem, depth, fresh(design));
    if (!lines) return design;
    const laid = withLines(design, [...design.lines, ...lines]);
    return inTheRound
      ? sewRound(
          lines.map((l) => l.id),
          true,
        )(laid)
      : laid;
  };

/** Lay a whole band at another depth, mm, on all the pieces it goes round. The same design where it does not fit. */
export const bandDepth =
  (id: LineId, depth: number): Edit =>
  (design) => {
    const line = lineOf(design, id);
    const lines = line && bandAtDepth(design, line, depth, fresh(design));
    return lines ? withLines(design, lines) : design;
  };

/** Whether lines are sewn flat, before the seams that close what they go round, or in the round after them. */
const sewRound =
  (ids: readonly LineId[], inTheRound: boolean): Edit =>
  (design) => {
    const { sewing } = design;
    const others = sewing.inTheRound.filter((id) => !ids.includes(id));
    const next = inTheRound ? [...others, ...ids] : others;
    const isSame =
      next.length === sewing.inTheRound.length && next.every((id) => sewing.inTheRound.includes(id));
    return isSame ? design : { ...design, sewing: { ...sewing, inTheRound: next } };
  };

/** The same for the whole band that a line belongs to. */
export const sewBandRound =
  (id: LineId, inTheRound: boolean): Edit =>
  (design) => {
    const line = lineOf(design, id);
    const band = line ? bandAround(design, line) : [];
    return sewRound(
      band.map((b) => b.line),
      inTheRound,
    )(design);
  };
