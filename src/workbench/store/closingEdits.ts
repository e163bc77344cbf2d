import { foldLineId, isFoldLine, liesOnFold, pathOnFold, tied } from '../../lines';
import { type Zip, ZIP_SLOT } from '../../neighbours';
import { withLines } from '../../panels';
import {
  type Closing,
  type ClosingId,
  type Design,
  type LineId,
  type PanelLine,
  type PieceId,
  openedPiece,
  withoutSteps,
} from '../../pattern';
import type { Edit } from './documentSlice';
import { deleteLine } from './lineEdits';

function freshClosingId({ closings }: Design): ClosingId {
  const taken = new Set<string>(closings.map(({ id }) => id));
  let n = closings.length + 1;
  while (taken.has(`zip-${n}`)) n += 1;
  return `zip-${n}` as ClosingId;
}

const hiddenZip = (design: Design, on: Closing['on']): Closing => ({
  id: freshClosingId(design),
  kind: 'hidden',
  on,
  length: null,
  allowance: null,
  slot: ZIP_SLOT,
});

/** What may be said of a zip. */
export type ZipWords = Partial<Pick<Closing, 'kind' | 'length' | 'allowance' | 'slot'>>;

/** Say something of a zip; one that is only proposed comes to stand in the design. */
export const sayZip =
  (zip: Zip, words: ZipWords): Edit =>
  (design) => {
    if (!zip.isOwn)
      return { ...design, closings: [...design.closings, { ...hiddenZip(design, zip.on), ...words }] };
    const own = design.closings.find((c) => c.id === zip.id);
    const keys = Object.keys(words) as (keyof ZipWords)[];
    if (!own || keys.every((key) => own[key] === words[key])) return design;
    return { ...design, closings: design.closings.map((c) => (c === own ? { ...c, ...words } : c)) };
  };

/** Put a hidden zip into the seam of a panel line; a line has one at most. */
export const zipInLine =
  (line: LineId): Edit =>
  (design) => {
    const has = design.closings.some(({ on }) => on.kind === 'line' && on.line === line);
    if (has || !design.lines.some((l) => l.id === line)) return design;
    return { ...design, closings: [...design.closings, hiddenZip(design, { kind: 'line', line })] };
  };

/**
 * Put a zip where a piece was to be cut on the fold: it gains a seam there, a panel line along the fold tied to it, with allowance on both
 * sides. A line that lies there already is taken.
 */
export const zipOnFold =
  (piece: PieceId): Edit =>
  (design) => {
    const traced = design.pieces.find((p) => p.id === piece);
    const whole = traced && openedPiece(traced, design).whole;
    const path = whole && pathOnFold(whole);
    if (!path) return design;
    const there = design.lines.find((l) => l.piece === piece && liesOnFold(whole, l.path));
    if (there) return zipInLine(there.id)(design);
    const id = foldLineId(design.lines);
    const line: PanelLine = { id, piece, path, once: true, overDarts: 'sewn', ties: null };
    return zipInLine(id)(withLines(design, [...design.lines, tied(design, line)]));
  };

/** Take a zip out. A seam that was put along the fold for it goes with it; an edge closed by it gets its proposed job again. */
export const takeZipOut =
  (zip: Zip): Edit =>
  (design) => {
    const { on } = zip;
    const sewing = withoutSteps(design.sewing, zip.id);
    if (on.kind === 'line') {
      const line = design.lines.find((l) => l.id === on.line);
      if (line && isFoldLine(line)) return deleteLine(line.id)(design);
      return { ...design, closings: design.closings.filter((c) => c.id !== zip.id), sewing };
    }
    const isOn = (piece: PieceId, edge: string): boolean => piece === on.piece && edge === on.edge;
    return {
      ...design,
      sewing,
      closings: design.closings.filter((c) => c.id !== zip.id),
      edgeJobs: design.edgeJobs.filter((a) => a.job.kind !== 'zip' || !isOn(a.piece, a.edge)),
    };
  };
