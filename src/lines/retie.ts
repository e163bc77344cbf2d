import { LIES_ON, type Path, type Pt, UNMOVED, distance, endOf, startOf } from '../geometry';
import type { LineTies, PanelLine, Run, Tie } from '../pattern';
import { findEdge } from './edgeOnPiece';
import { type Landing, landingOf } from './landing';
import { isLost } from './lost';
import { type Bases, basesOf, measureReach } from './reach';
import { runEnd } from './runLine';
import { nodesOf } from './settle';
import { type Lie, edgeTie, insideTie, lieOf, proposeTie, tiesFor, untilOf } from './tiesFor';
import { type TieGround, tiePoint } from './tiePoint';

/** The same kind of tie at a new place; null where it cannot be had there. */
function sameKind(ground: TieGround, tie: Tie, landing: Landing): Tie | null {
  const { at } = landing;
  if (tie.kind === 'edge' && landing.kind === 'edge') {
    if (findEdge(ground.whole, tie) !== landing.edge) return null;
    return edgeTie(ground, landing.edge, tie.along, basesOf(tie.reach), at);
  }
  if (tie.kind === 'inside' && (landing.kind === 'inside' || landing.kind === 'centre')) {
    const measured = (kind: 'down' | 'over', bases: Bases) =>
      measureReach(ground.whole, { kind, at }, bases, at);
    const [down, over] = [measured('down', basesOf(tie.down)), measured('over', basesOf(tie.over))];
    return isLost(down) || isLost(over) ? insideTie(ground, at) : { kind: 'inside', down, over };
  }
  if (tie.kind === 'line' && landing.kind === 'line') {
    if (tie.place.kind === 'share') return landing.tie;
    const { kind, reach } = tie.place;
    const measured = measureReach(ground.whole, { kind, at }, basesOf(reach), at);
    return isLost(measured) ? landing.tie : { ...landing.tie, place: { kind, reach: measured } };
  }
  return null;
}

/** A tie at a new place: the very one where it still gives that place, else one of its kind, else the one proposed there. */
function tieAnew(ground: TieGround, others: readonly PanelLine[], tie: Tie, p: Pt, lie: Lie): Tie | null {
  const now = tiePoint(ground, tie, p);
  if (!isLost(now) && distance(now, p) <= UNMOVED * 10) return tie;
  const landing = landingOf(ground, others, p);
  const same = sameKind(ground, tie, landing);
  if (same) {
    const back = tiePoint(ground, same, p);
    if (!isLost(back) && distance(back, p) <= LIES_ON) return same;
  }
  return proposeTie(ground, landing, lie);
}

const LIE: Readonly<Record<Run['kind'], Lie>> = { square: 'across', with: 'with', angle: 'any' };

/** A line that keeps its direction, at a new place; null where it no longer runs so. */
function runAnew(
  ground: TieGround,
  others: readonly PanelLine[],
  ties: LineTies,
  path: Path,
): LineTies | null {
  const { run, nodes } = ties;
  if (!run || path.length !== 1) return null;
  const atStart = nodes[0] !== null;
  const [held, other] = atStart ? [startOf(path), endOf(path)] : [endOf(path), startOf(path)];
  const tie = tieAnew(ground, others, (atStart ? nodes[0] : nodes[1])!, held, LIE[run.kind]);
  if (!tie) return null;
  const until = untilOf(landingOf(ground, others, other)) ?? run.until;
  const kept: Run = { ...run, until };
  const end = runEnd(ground, kept, held, other);
  if (isLost(end) || distance(end, other) > LIES_ON) return null;
  return { nodes: atStart ? [tie, null] : [null, tie], run: kept };
}

/**
 * Ties of a line that was moved or reshaped by hand: each point is measured anew from what it was measured from, so far as it
 * can be; what has come to lie on something else is tied to that. A line that no longer keeps its direction is tied at both
 * ends.
 * @param others lines of the piece that it may be tied to: none that hang on it
 */
export function retie(
  ground: TieGround,
  others: readonly PanelLine[],
  ties: LineTies,
  path: Path,
): LineTies | null {
  if (path.length === 0) return null;
  const run = runAnew(ground, others, ties, path);
  if (run) return run;
  const sameNodes = ties.nodes.length === path.length + 1;
  if (ties.run || !sameNodes) return tiesFor(ground, others, path);
  const lie = lieOf(ground, path);
  const nodes = nodesOf(path).map((p, i) => {
    const tie = ties.nodes[i]!;
    return tie ? tieAnew(ground, others, tie, p, lie) : null;
  });
  return nodes.every((n) => n === null) ? null : { nodes, run: null };
}
