import { type Path, endOf, startOf } from '../geometry';
import type { Base, Design, LineId, LineTies, PanelLine, Tie } from '../pattern';
import { measuredFrom, reachesOf } from './changeTie';
import { hangsOnLine } from './dependence';
import { retie } from './retie';
import { tieGround } from './settle';
import { tiesFor } from './tiesFor';
import type { TieGround } from './tiePoint';

/** What a line of a design is tied on: its piece, and the lines it may be tied to. */
export interface LineGround {
  readonly ground: TieGround;
  readonly others: readonly PanelLine[];
}

/** The ground of a line; null when its piece is gone. The line itself need not be in the design yet. */
export function groundFor(design: Design, line: Pick<PanelLine, 'id' | 'piece'>): LineGround | null {
  const ground = tieGround(design, line.piece);
  if (!ground) return null;
  const others = design.lines.filter(
    (l) => l.piece === line.piece && l.id !== line.id && !hangsOnLine(design.lines, l.id, line.id),
  );
  return { ground, others };
}

/** Ties measured from a base that was asked for, where they can be: a height from a level, a place across from the centre. */
function measuredFromBase({ whole }: TieGround, ties: LineTies, path: Path, base: Base): LineTies {
  const nodes = ties.nodes.map((tie, i) => {
    if (!tie || (tie.kind === 'edge' && tie.along === 'edge')) return tie;
    const at = i === 0 ? startOf(path) : endOf(path);
    return reachesOf(tie).reduce<Tie>(
      (now, { part }) => measuredFrom(whole, now, part, [base], at) ?? now,
      tie,
    );
  });
  return { ...ties, nodes };
}

/**
 * A line tied where it lies, to whatever is sensible there. Its path is not touched: settleLines does that.
 * @param base measured from this where it can be
 */
export function tied(design: Design, line: PanelLine, base: Base | null = null): PanelLine {
  const on = groundFor(design, line);
  const ties = on && tiesFor(on.ground, on.others, line.path);
  if (!ties) return line;
  return { ...line, ties: base ? measuredFromBase(on.ground, ties, line.path, base) : ties };
}

/** A line with another path: a tied one is tied anew there, with the same kind of bases. */
export function reshaped(design: Design, line: PanelLine, path: Path): PanelLine {
  if (line.path === path) return line;
  if (!line.ties) return { ...line, path };
  const on = groundFor(design, line);
  return { ...line, path, ties: on ? retie(on.ground, on.others, line.ties, path) : null };
}

/** Lines in drawing order with one changed. */
export const withTies = (design: Design, id: LineId, ties: LineTies | null): readonly PanelLine[] =>
  design.lines.map((l) => (l.id === id && l.ties !== ties ? { ...l, ties } : l));

/**
 * Lines of a design with some of them tied where they lie, in drawing order, each knowing the ties given before it: so no
 * circle comes about.
 */
export function tieLines(design: Design, ids: ReadonlySet<LineId>): readonly PanelLine[] {
  return design.lines.reduce<Design>((now, line) => {
    if (!ids.has(line.id) || line.ties) return now;
    const next = tied(now, line);
    return next === line ? now : { ...now, lines: now.lines.map((l) => (l === line ? next : l)) };
  }, design).lines;
}
