import { type Path, type Pt, distance, endOf, nearestOnPath, pathLength, startOf } from '../geometry';
import { tied } from '../lines';
import { type LaidLine, type Panel, type PanelledPiece, withLines } from '../panels';
import {
  type Closing,
  type Design,
  type LineId,
  type Outcome,
  type PanelLine,
  type Tie,
  type Trim,
  type TrimId,
  problem,
  withPathEnds,
  withoutWhatIsOn,
} from '../pattern';
import { betweenLines } from './betweenLines';
import { bendOf } from './trimBend';
import { MOST_STRAIN } from './trimStrain';

/** An end this near to a line or edge ends on it, mm. */
export const ENDS_ON = 0.6;

/** The two panel lines along a panel's long sides; or why there are no two. */
function sidesOf(panel: Panel, piece: PanelledPiece): readonly [LaidLine, LaidLine] | 'outline' | 'mirrored' {
  const along = new Map<LaidLine | number, number>();
  for (const { path, origin } of [...panel.boundary, ...panel.holes.flat()]) {
    const on = origin.kind === 'seam' ? piece.seams.find((s) => s.id === origin.seam)!.line : origin.edge;
    along.set(on, (along.get(on) ?? 0) + pathLength(path));
  }
  const [a, b] = [...along].sort((p, q) => q[1] - p[1]).map(([on]) => on);
  if (typeof a !== 'object' || typeof b !== 'object') return 'outline';
  return a.line === b.line || a.mirrored !== b.mirrored ? 'mirrored' : [a, b];
}

/** What both of two ends lie on, as a path: the outline, or another line. */
function commonGround(ends: readonly [Pt, Pt], piece: PanelledPiece, not: readonly LineId[]): Path | null {
  const grounds = [
    piece.whole.stitching,
    ...piece.lines.filter((l) => !not.includes(l.line)).map((l) => l.path),
  ];
  const isOn = (path: Path, p: Pt): boolean => path.length > 0 && nearestOnPath(path, p).distance <= ENDS_ON;
  return grounds.find((g) => ends.every((e) => isOn(g, e))) ?? null;
}

/** A path whose ends are put exactly on what the two lines it stands for end on. */
function grounded(middle: Path, a: Path, b: Path, piece: PanelledPiece, not: readonly LineId[]): Path {
  const put = (p: Pt): Pt => {
    const tip = (path: Path): Pt =>
      distance(startOf(path), p) < distance(endOf(path), p) ? startOf(path) : endOf(path);
    const ground = commonGround([tip(a), tip(b)], piece, not);
    return ground ? nearestOnPath(ground, p).point : p;
  };
  return withPathEnds(middle, put(startOf(middle)), put(endOf(middle)));
}

/** A line's ties with one line taken for another. */
function retied(line: PanelLine, from: LineId, to: LineId): PanelLine {
  if (!line.ties) return line;
  const swap = (tie: Tie | null): Tie | null =>
    tie && (tie.kind === 'line' || tie.kind === 'neighbour') && tie.line === from
      ? { ...tie, line: to }
      : tie;
  const { nodes, run } = line.ties;
  const until =
    run?.until.kind === 'line' && run.until.line === from ? { ...run.until, line: to } : run?.until;
  return { ...line, ties: { nodes: nodes.map(swap), run: run && until ? { ...run, until } : run } };
}

/** A line that is held by nothing and ended on what is no longer there: its end goes along. */
export function followed(line: PanelLine, was: readonly Path[], now: readonly Path[]): PanelLine {
  if (line.ties || line.path.length === 0) return line;
  const isOn = (p: Pt): boolean => was.some((w) => nearestOnPath(w, p).distance <= ENDS_ON);
  const put = (p: Pt, from: Pt): Pt => {
    if (!isOn(p)) return p;
    const best = now
      .map((path) => ({ path, away: nearestOnPath(path, from).distance }))
      .sort((x, y) => x.away - y.away)[0]!.path;
    return nearestOnPath(best, p).point;
  };
  const [s, e] = [startOf(line.path), endOf(line.path)];
  const [a, b] = [put(s, e), put(e, s)];
  return a === s && b === e ? line : { ...line, path: withPathEnds(line.path, a, b) };
}

const round = (mm: number): number => Math.round(mm * 1000) / 1000;

/** Trims, the zip and the allowance of a line go to the one that takes its place, where that has none of its own; all else is forgotten. */
function handedOver(design: Design, from: LineId, to: LineId): Design {
  const { allowances } = design;
  const moved = <T extends Trim | Closing>(all: readonly T[]): T[] =>
    all.map((t) => (t.on.kind === 'line' && t.on.line === from ? { ...t, on: { ...t.on, line: to } } : t));
  const hasZip = design.closings.some(({ on }) => on.kind === 'line' && on.line === to);
  const hasWidth = allowances.lines.some((l) => l.line === to);
  const widths = hasWidth
    ? allowances.lines
    : allowances.lines.map((l) => (l.line === from ? { ...l, line: to } : l));
  const handed = {
    ...design,
    trims: moved(design.trims),
    closings: hasZip ? design.closings : moved(design.closings),
    allowances: { ...allowances, lines: widths },
  };
  return withoutWhatIsOn(handed, from);
}

/**
 * Take a narrow panel away and lay a trim instead: the two lines beside it become one halfway between them, with a trim as wide as the
 * panel, in its colour. The line that was drawn first stays and is moved; it is tied anew where both were tied, else free. Lines that
 * ended on either end on it. Exact for parallel straight lines.
 * @returns refused with the reason where the panel is not a strip between two lines that run side by side
 */
export function panelToTrim(design: Design, piece: PanelledPiece, panel: Panel, id: TrimId): Outcome<Design> {
  const refuse = (why: 'outline' | 'mirrored' | 'run apart' | 'not side by side'): Outcome<Design> => ({
    ok: false,
    problems: [problem('panel-is-no-strip', { why }, piece.whole.name, panel.spot.at)],
  });
  const sides = sidesOf(panel, piece);
  if (typeof sides === 'string') return refuse(sides);
  const drawn = sides.map((s) => design.lines.find((l) => l.id === s.line)!);
  const [a, b] = drawn.sort((p, q) => design.lines.indexOf(p) - design.lines.indexOf(q)) as [
    PanelLine,
    PanelLine,
  ];
  if (a.once !== b.once) return refuse('mirrored');
  const between = betweenLines(a.path, b.path);
  if (typeof between === 'string') return refuse(between);
  const path = grounded(between.middle, a.path, b.path, piece, [a.id, b.id]);
  const rest = design.lines.filter((l) => l !== b);
  const bare = { ...a, path, ties: null };
  const one = a.ties && b.ties ? tied({ ...design, lines: rest }, bare) : bare;
  const lines = rest.map((l) => (l === a ? one : followed(retied(l, b.id, a.id), [a.path, b.path], [path])));
  const colour = design.colours.find((c) => c.id === panel.colour) ?? design.colours[0]!;
  const strain = between.width / (2 * bendOf(path, false).tightest.radius);
  const trim: Trim = {
    id,
    name: `${colour.name} ribbon`.slice(0, 80),
    on: { kind: 'line', line: a.id, from: 0, to: 1 },
    kind: strain > MOST_STRAIN.straight ? 'bias' : 'straight',
    width: round(between.width),
    fill: colour.fill,
    rows: 2,
    shrinkage: 0,
    soldIn: null,
  };
  const handed = handedOver(withLines(design, lines), b.id, a.id);
  return { ok: true, value: { ...handed, trims: [...handed.trims, trim] }, problems: [] };
}
