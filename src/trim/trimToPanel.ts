import {
  type Path,
  type Pt,
  add,
  applyMatrix,
  crossStraight,
  directionAt,
  endOf,
  mirrorAcross,
  nearestOnPath,
  pathLength,
  pointAtLength,
  scale,
  startOf,
} from '../geometry';
import { tied } from '../lines';
import { type PanelledPiece, withLines } from '../panels';
import {
  type Colour,
  type Design,
  type LineId,
  type Outcome,
  type PanelLine,
  type PanelMark,
  type TrimId,
  problem,
  withPathEnds,
  withoutSteps,
} from '../pattern';
import { parallelPath } from './betweenLines';
import { ENDS_ON, followed } from './panelToTrim';

/** How far along its own direction an end is looked for on what it must end on, as a multiple of the width. */
const LOOK_AHEAD = 4;

/** What an end of a line lies on, as paths: the outline, the fold, other lines. */
const groundsOf = ({ whole, lines }: PanelledPiece, not: LineId): Path[] => [
  whole.stitching,
  ...(whole.foldLine ? [[whole.foldLine]] : []),
  ...lines.filter((l) => l.line !== not && l.path.length > 0).map((l) => l.path),
];

/** A parallel whose ends are drawn on, or cut back, to what the line itself ends on. */
function grounded(beside: Path, line: PanelLine, piece: PanelledPiece, width: number): Path {
  const grounds = groundsOf(piece, line.id);
  const put = (p: Pt, out: Pt, tip: Pt): Pt => {
    const hits = grounds
      .filter((g) => nearestOnPath(g, tip).distance <= ENDS_ON)
      .flatMap((g) => crossStraight(g, p, out))
      .filter((c) => Math.abs(c.along) <= LOOK_AHEAD * width)
      .sort((x, y) => Math.abs(x.along) - Math.abs(y.along));
    return hits[0] ? add(p, scale(out, hits[0].along)) : p;
  };
  const [s, e] = [startOf(beside), endOf(beside)];
  const back = scale(directionAt(beside[0]!, 0), -1);
  const ahead = directionAt(beside.at(-1)!, 1);
  return withPathEnds(beside, put(s, back, startOf(line.path)), put(e, ahead, endOf(line.path)));
}

/** A cloth in a fill: the design's own, or one more like its first. */
function clothFor(design: Design, fill: string, name: string): { colours: readonly Colour[]; cloth: Colour } {
  const known = design.colours.find((c) => c.fill === fill);
  if (known) return { colours: design.colours, cloth: known };
  const ids = new Set<string>(design.colours.map((c) => c.id));
  let n = design.colours.length + 1;
  while (ids.has(`colour-${n}`)) n += 1;
  const first = design.colours[0]!;
  const cloth: Colour = { ...first, id: `colour-${n}` as Colour['id'], name, fill, price: null };
  return { colours: [...design.colours, cloth], cloth };
}

/**
 * Turn a trim into a narrow panel: its line becomes two, half its width to either side, and what lies between is cut from cloth in its
 * colour. Both are tied where they lie if the line was tied. Lines that ended on it end on the one on their side.
 * @param id of the new line; the other one keeps the trim's line's
 * @returns refused with the reason where the trim covers only a part of its line, or bends too tightly for two
 */
export function trimToPanel(
  design: Design,
  pieces: readonly PanelledPiece[],
  trimId: TrimId,
  id: LineId,
): Outcome<Design> {
  const trim = design.trims.find((t) => t.id === trimId);
  const on = trim?.on;
  const line = on?.kind === 'line' ? design.lines.find((l) => l.id === on.line) : undefined;
  const piece = line && pieces.find((p) => p.whole.piece.id === line.piece);
  const refuse = (why: 'part' | 'bends'): Outcome<Design> => ({
    ok: false,
    problems: [problem('trim-is-no-panel', { trim: trim?.name ?? '', why }, piece?.whole.name ?? null)],
  });
  if (!trim || !line || !piece || on?.kind !== 'line' || on.from > 0 || on.to < 1) return refuse('part');
  const half = trim.width / 2;
  const sides = [parallelPath(line.path, half), parallelPath(line.path, -half)];
  if (!sides[0] || !sides[1]) return refuse('bends');
  const [left, right] = sides.map((s) => grounded(s!, line, piece, trim.width)) as [Path, Path];
  const without: Design = {
    ...design,
    trims: design.trims.filter((t) => t !== trim),
    sewing: withoutSteps(design.sewing, trimId),
  };
  const hold = (l: PanelLine, rest: readonly PanelLine[]): PanelLine =>
    line.ties ? tied({ ...without, lines: rest }, { ...l, ties: null }) : { ...l, ties: null };
  const others = design.lines
    .filter((l) => l !== line)
    .map((l) => followed(endsOnLine(l, line) ? { ...l, ties: null } : l, [line.path], [left, right]));
  const lines = design.lines.flatMap((l) => {
    if (l !== line) return [others.find((o) => o.id === l.id)!];
    return [hold({ ...line, path: left }, others), hold({ ...line, id, path: right }, others)];
  });
  const hung = new Set(design.lines.filter((l) => endsOnLine(l, line)).map((l) => l.id));
  const held = lines.map((l) => (hung.has(l.id) ? tied({ ...without, lines }, l) : l));
  const { colours, cloth } = clothFor(design, trim.fill, trim.name);
  const sliced = withLines({ ...without, colours }, held);
  const marks = marksBetween(line, piece, cloth.id);
  return { ok: true, value: { ...sliced, marks: [...marks, ...sliced.marks] }, problems: [] };
}

/** Whether a line is tied to another by one of its ends. */
const endsOnLine = ({ ties }: PanelLine, line: PanelLine): boolean =>
  ties?.nodes.some((t) => t?.kind === 'line' && t.line === line.id) ?? false;

/** Marks in the middle of the new panel and of its mirror image; they come first, so they count. */
function marksBetween(line: PanelLine, { whole }: PanelledPiece, colour: Colour['id']): PanelMark[] {
  const at = pointAtLength(line.path, pathLength(line.path) / 2).point;
  const mark = (p: Pt): PanelMark => ({ piece: line.piece, at: p, colour });
  return whole.foldLine && !line.once
    ? [mark(at), mark(applyMatrix(mirrorAcross(whole.foldLine), at))]
    : [mark(at)];
}
