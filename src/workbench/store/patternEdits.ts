import { withGeneral } from '../../allowance';
import type {
  Allowances,
  Cutting,
  Design,
  LineId,
  PaperSize,
  PieceId,
  TracingKind,
  Units,
} from '../../pattern';
import { takenAs } from '../../pattern';
import type { Edit } from './documentSlice';

const set =
  <K extends keyof Design>(key: K, value: Design[K]): Edit =>
  (design) =>
    JSON.stringify(design[key]) === JSON.stringify(value) ? design : { ...design, [key]: value };

export const renameDesign = (name: string): Edit =>
  name.trim() === '' ? (d) => d : set('name', name.trim());
export const showUnits = (units: Units): Edit => set('units', units);
export const choosePaper = (size: PaperSize): Edit => set('paper', { size });

const allow =
  (patch: Partial<Allowances>): Edit =>
  (design) =>
    set('allowances', { ...design.allowances, ...patch })(design);

/** What the traced outline is: the stitching line, or the cutting line with an allowance inside it. */
export const takeTracingAs =
  (tracing: TracingKind): Edit =>
  (design) =>
    set('allowances', takenAs(design.allowances, tracing))(design);
/** Both sides of every new seam, mm. */
export const allowNewSeams = (newSeam: number): Edit => allow({ newSeam });
/** One general width for all seams, mm; hems and widths given to single edges and lines stay. */
export const allowAll =
  (width: number): Edit =>
  (design) =>
    set('allowances', withGeneral(design.allowances, width))(design);
/** Forget the widths given to single edges and lines. */
export const allowNoneOfTheirOwn: Edit = allow({ edges: [], lines: [] });
/** Edges named hem, mm. */
export const allowHems = (hem: number): Edit => allow({ hem });

/** Symmetric panels of a half-traced piece are cut whole, or on the folded cloth. */
export const cutSymmetric =
  (piece: PieceId, foldPanels: boolean): Edit =>
  (design) =>
    design.pieces.some((p) => p.id === piece && p.foldPanels !== foldPanels)
      ? { ...design, pieces: design.pieces.map((p) => (p.id === piece ? { ...p, foldPanels } : p)) }
      : design;

/** Allowance of one named edge, mm; null goes back to the general rule. */
export const allowEdge =
  (piece: PieceId, edge: string, width: number | null): Edit =>
  (design) => {
    const others = design.allowances.edges.filter((e) => e.piece !== piece || e.edge !== edge);
    return allow({ edges: width === null ? others : [...others, { piece, edge, width }] })(design);
  };

/** Allowance on both sides of one panel line, mm; null goes back to the general one. */
export const allowLine =
  (line: LineId, width: number | null): Edit =>
  (design) => {
    const others = design.allowances.lines.filter((l) => l.line !== line);
    return allow({ lines: width === null ? others : [...others, { line, width }] })(design);
  };

export const cutPieceAs =
  (piece: PieceId, cutting: Cutting): Edit =>
  (design) =>
    design.pieces.some((p) => p.id === piece && p.cutting !== cutting)
      ? { ...design, pieces: design.pieces.map((p) => (p.id === piece ? { ...p, cutting } : p)) }
      : design;

export const renamePiece =
  (piece: PieceId, name: string): Edit =>
  (design) =>
    name.trim() !== '' && design.pieces.some((p) => p.id === piece && p.name !== name.trim())
      ? { ...design, pieces: design.pieces.map((p) => (p.id === piece ? { ...p, name: name.trim() } : p)) }
      : design;
