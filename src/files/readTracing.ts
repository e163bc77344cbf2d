import type { Outcome, Problem } from '../pattern';
import { problem } from '../pattern';
import { decodeFile } from './decodeFile';
import type { DrawnShape, Drawing } from './drawnShape';
import { LIMITS } from './limits';
import { readDrawing } from './readDrawing';
import { largestClosed, readPiece } from './readPiece';
import { readXml, type XmlElement } from './readXml';
import { Refusal, refusable, refuse } from './refusal';
import { shownName, uniqueNames } from './roles';
import type { Tracing, TracedPiece, UnclaimedShape } from './tracing';

export interface TracingOptions {
  /** Millimetres per user unit, used where the file does not say how large it is. */
  readonly scale?: number;
}

/** `drawings/front half.svg` is the piece `front half`. */
const pieceNameFrom = (file: string): string =>
  shownName(
    file
      .slice(-400)
      .replace(/^.*[\\/]/s, '')
      .replace(/\.svgz?$/i, ''),
  ) || 'piece';

/** The drawing's own `title`, up to its first comma (further words describe it); else the file's name. */
function titleOf(root: XmlElement, file: string): string {
  const title = root.children.find((c) => c.tag === 'title')?.text ?? '';
  return shownName(title.slice(0, 400).split(',')[0]!.trim()) || pieceNameFrom(file);
}

/** The shapes of one piece, those that are not understood apart. */
interface Sorted {
  readonly claimed: readonly DrawnShape[];
  readonly unclaimed: readonly DrawnShape[];
}

/** With no roles at all the largest closed path is the outline. */
function sortShapes(shapes: readonly DrawnShape[]): Sorted {
  if (shapes.some((s) => s.role !== null)) {
    return {
      claimed: shapes.filter((s) => s.role !== null),
      unclaimed: shapes.filter((s) => s.role === null),
    };
  }
  const broken = shapes.find((s) => s.fault !== null);
  if (broken?.fault) throw new Refusal(broken.fault);
  const outline = largestClosed(shapes) ?? (shapes.length === 1 ? shapes[0]! : null);
  if (!outline) return { claimed: [], unclaimed: shapes };
  return {
    claimed: [{ ...outline, role: { kind: 'outline' } }],
    unclaimed: shapes.filter((s) => s !== outline),
  };
}

interface PieceShapes extends Sorted {
  readonly name: string;
}

/**
 * Part the drawing into pieces. Named shapes outside the only piece group belong to it (lines are often drawn on a layer
 * of their own); outside several, nobody can say to which, and they are left over.
 */
function partPieces(
  drawing: Drawing,
  file: string,
): { pieces: PieceShapes[]; outside: readonly DrawnShape[] } {
  if (drawing.pieces.length === 0)
    return { pieces: [{ name: pieceNameFrom(file), ...sortShapes(drawing.shapes) }], outside: [] };
  const byPiece = drawing.pieces.map((): DrawnShape[] => []);
  const filled = new Set(drawing.shapes.map((s) => s.piece));
  const only = filled.size - Number(filled.has(null)) === 1 ? [...filled].find((i) => i !== null)! : null;
  const outside: DrawnShape[] = [];
  for (const shape of drawing.shapes) {
    const piece = shape.piece ?? (shape.role === null ? null : only);
    (piece === null ? outside : byPiece[piece]!).push(shape);
  }
  const names = uniqueNames(drawing.pieces);
  // A piece group with nothing drawn in it is an empty layer.
  const pieces = byPiece.flatMap((shapes, i) =>
    shapes.length === 0 ? [] : [{ name: names[i]!, ...sortShapes(shapes) }],
  );
  return { pieces, outside };
}

const unclaimedFrom = (shape: DrawnShape, piece: string | null): UnclaimedShape[] =>
  shape.paths.map(({ path, closed }) => ({ name: shape.label, piece, path, closed }));

/** Read all pieces; every piece that cannot be used says why. */
function readPieces(
  parted: readonly PieceShapes[],
  file: string,
): { pieces: TracedPiece[]; problems: Problem[]; faults: Problem[]; leftOut: DrawnShape[] } {
  const all = {
    pieces: [] as TracedPiece[],
    problems: [] as Problem[],
    faults: [] as Problem[],
    leftOut: [] as DrawnShape[],
  };
  for (const { name, claimed } of parted) {
    const read = refusable(() => ({ ok: true, value: readPiece(claimed, file, name), problems: [] }));
    if (!read.ok) {
      all.faults.push(...read.problems);
      continue;
    }
    all.pieces.push(read.value.piece);
    all.problems.push(...read.value.problems);
    all.leftOut.push(...read.value.leftOut);
  }
  return all;
}

/**
 * Read a traced SVG: pieces in mm with their outlines and marks. The same in the browser and in Node; runs no script and
 * loads nothing. Work and memory are bounded by limits.ts.
 * @param data bytes of the file, or its text
 * @param file name for messages; a drawing without piece groups is one piece named after it
 * @returns not ok, with one problem per fault, for anything that cannot be used; never throws on a file's content
 */
export function readTracing(
  data: Uint8Array | string,
  file: string,
  options: TracingOptions = {},
): Outcome<Tracing> {
  return refusable<Tracing>(() => {
    const root = readXml(decodeFile(data, file), file);
    const drawing = readDrawing(root, file, options.scale ?? null);
    const parted = partPieces(drawing, file);
    const { pieces, problems, faults, leftOut } = readPieces(parted.pieces, file);
    const [first, ...others] = faults;
    if (first) return { ok: false, problems: [first, ...others] };
    if (parted.pieces.length > LIMITS.pieces)
      refuse('file-too-large', { file, size: parted.pieces.length, most: LIMITS.pieces });
    if (pieces.length === 0) refuse('no-outline', { file, piece: pieceNameFrom(file) });
    const unclaimed = parted.pieces.flatMap((p) => p.unclaimed.flatMap((s) => unclaimedFrom(s, p.name)));
    const strays = parted.outside.flatMap((s) => unclaimedFrom(s, null));
    const notUsed = new Set<DrawnShape>([
      ...parted.pieces.flatMap((p) => p.unclaimed),
      ...parted.outside,
      ...leftOut,
    ]);
    const named = drawing.shapes.filter((s) => notUsed.has(s)).map((s) => s.label);
    const ignored = [...new Set([...drawing.ignored, ...named])];
    const told = ignored.length > 0 ? [problem('left-out', { names: ignored })] : [];
    return {
      ok: true,
      value: {
        file,
        title: titleOf(root, file),
        sizedBy: drawing.sizedBy,
        pieces,
        unclaimed: [...unclaimed, ...strays],
        ignored,
      },
      problems: [...drawing.problems, ...problems, ...told],
    };
  });
}
