import {
  LIES_ON,
  type Path,
  type Pt,
  add,
  crossStraight,
  endOf,
  lengthAt,
  nearestOnPath,
  pathLength,
  reversePath,
  scale,
} from '../geometry';
import type { LaidLine, PanelledPiece, SeamId } from '../panels';
import type { TrimCure } from '../pattern';
import { type SewnOrder, type TrimStrip, coversOf, shareOn } from '../sewing';

/** Where a strip would end if it ran on along its line, nearest first. */
function nodesAhead(
  line: LaidLine,
  strip: TrimStrip,
  end: 0 | 1,
  piece: PanelledPiece,
): { node: number; by: number; to: number }[] {
  const along = (p: Pt): number => lengthAt(line.path, nearestOnPath(line.path, p));
  const here = along(strip.ends[end].at);
  const nodes = new Set(
    piece.runs.filter((r) => r.line === line).flatMap((r) => r.stretches.flatMap((s) => [s.from, s.to])),
  );
  return [...nodes]
    .map((node) => ({ node, to: along(piece.nodePoints[node]!) }))
    .map(({ node, to }) => ({ node, to, by: end === 1 ? to - here : here - to }))
    .filter(({ by }) => by > LIES_ON)
    .sort((a, b) => a.by - b.by);
}

/** Run on along the line to the first place where the end is hidden. */
function alongLine(
  strip: TrimStrip,
  end: 0 | 1,
  all: readonly TrimStrip[],
  piece: PanelledPiece,
  order: SewnOrder,
): TrimCure | null {
  const { on } = strip.trim;
  const line = piece.lines.find((l) => l.line === strip.line && l.label === strip.label);
  if (!line || on.kind !== 'line') return null;
  for (const { node, by, to } of nodesAhead(line, strip, end, piece)) {
    const at = piece.nodePoints[node]!;
    const covers = coversOf(strip, { ...strip.ends[end], at, node, edges: [] }, all, piece, order);
    const isCaught = covers.seams.some((x) => strip.seams.every((own) => order.isBefore(own, x)));
    const until = piece.outlineNodes.has(node)
      ? 'edge'
      : isCaught
        ? 'seam'
        : covers.strips.some((t) => t.line !== strip.line)
          ? 'trim'
          : null;
    if (until === null) continue;
    const share = Math.min(1, Math.max(0, shareOn(line, pathLength(line.path), to)));
    const place = { ...on, from: Math.min(on.from, share), to: Math.max(on.to, share) };
    return { kind: 'extend', by, until, place };
  }
  return null;
}

const drawnOn = (path: Path, end: 0 | 1, by: number, out: Pt): Path => {
  const own = end === 1 ? path : reversePath(path);
  const tip = endOf(own);
  const longer: Path = [...own, [tip, add(tip, scale(out, by))]];
  return end === 1 ? longer : reversePath(longer);
};

/** Draw a path of its own straight on to the outline, or to a seam that may still be sewn after it. */
function straightOn(strip: TrimStrip, end: 0 | 1, piece: PanelledPiece, order: SewnOrder): TrimCure | null {
  const { on } = strip.trim;
  if (on.kind !== 'path') return null;
  const { at, out } = strip.ends[end];
  const isFree = (x: SeamId): boolean =>
    !strip.seams.includes(x) && strip.seams.every((own) => order.isBefore(own, x));
  const ahead = (path: Path): number =>
    Math.min(...crossStraight(path, at, out).map((c) => (c.along > LIES_ON ? c.along : Infinity)), Infinity);
  const edge = ahead(piece.whole.stitching);
  const seam = Math.min(...piece.seams.filter((s) => isFree(s.id)).map((s) => ahead(s.path)), Infinity);
  const by = Math.min(edge, seam);
  if (by === Infinity) return null;
  return {
    kind: 'extend',
    by,
    until: seam < edge ? 'seam' : 'edge',
    place: { ...on, path: drawnOn(on.path, end, by, out) },
  };
}

/** A line that runs across the end and carries no trim yet: one laid along it would cover the end. */
function byCover(strip: TrimStrip, end: 0 | 1, piece: PanelledPiece): TrimCure | null {
  const { node } = strip.ends[end];
  if (node === null) return null;
  const across = piece.runs.find(
    ({ line, stretches }) =>
      line.line !== strip.line && stretches.filter((s) => s.from === node || s.to === node).length > 1,
  );
  return across ? { kind: 'cover', line: across.line.line, label: across.line.label } : null;
}

/** The strip as it is drawn, where this is its mirror image: that is the one whose path can be changed. */
const asDrawn = (strip: TrimStrip, all: readonly TrimStrip[]): TrimStrip =>
  all.find((s) => s.key === strip.key.replace(' mirrored', '')) ?? strip;

/** The smallest change that hides a raw end: run on to the next seam, trim or edge, or lay a trim over the line it ends on. */
export function cureOf(
  strip: TrimStrip,
  end: 0 | 1,
  all: readonly TrimStrip[],
  piece: PanelledPiece,
  order: SewnOrder,
): TrimCure | null {
  return (
    alongLine(strip, end, all, piece, order) ??
    straightOn(asDrawn(strip, all), end, piece, order) ??
    byCover(strip, end, piece)
  );
}
