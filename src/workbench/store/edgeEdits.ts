import { renameEdge } from '../../lines';
import { type Continuation, type EdgeWork, continuedLine } from '../../neighbours';
import { withLines } from '../../panels';
import type { EdgeAnswer, EdgeJob, LineId, MeantOff, PieceId } from '../../pattern';
import type { Edit } from './documentSlice';

/** Say what becomes of the edges of a name; null goes back to what is proposed. */
export const answerEdge =
  (piece: PieceId, edge: string, job: EdgeJob | null): Edit =>
  (design) => {
    const others = design.edgeJobs.filter((a) => a.piece !== piece || a.edge !== edge);
    if (job === null && others.length === design.edgeJobs.length) return design;
    return { ...design, edgeJobs: job === null ? others : [...others, { piece, edge, job }] };
  };

/** Take all that is proposed for edges nobody is sure of as answers. */
export const agreeTo =
  (works: readonly EdgeWork[]): Edit =>
  (design) => {
    const open = works.filter((w) => !w.isSure);
    const answers = new Map(
      open.map(
        (w) => [`${w.piece} ${w.plainName}`, { piece: w.piece, edge: w.plainName, job: w.job }] as const,
      ),
    );
    const kept = design.edgeJobs.filter((a) => !answers.has(`${a.piece} ${a.edge}`));
    const all: readonly EdgeAnswer[] = [...kept, ...answers.values()];
    return answers.size === 0 ? design : { ...design, edgeJobs: all };
  };

/** Name an edge by hand; what is kept under its old name goes along. */
export const callEdge =
  (piece: PieceId, edge: string, name: string): Edit =>
  (design) =>
    renameEdge(design, piece, edge, name);

/** Say that line ends are meant to miss over a seam, or are not. */
export const meanOff =
  (ends: readonly MeantOff[], meant: boolean): Edit =>
  (design) => {
    const isOf = (m: MeantOff): boolean => ends.some((e) => e.line === m.line && e.end === m.end);
    const others = design.meantOff.filter((m) => !isOf(m));
    if (!meant && others.length === design.meantOff.length) return design;
    return { ...design, meantOff: meant ? [...others, ...ends] : others };
  };

/** Add the line that a continuation stands for, tied from then on. Colours stay with their panels. */
export const continueLine =
  (continuation: Continuation, id: LineId): Edit =>
  (design) =>
    withLines(design, [...design.lines, continuedLine(continuation, id)]);
