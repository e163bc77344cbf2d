import { type PanelledPiece } from '../panels';
import { chainNodes } from './chains';
import { joinOrder, type Join } from './joinOrder';
import type { Need, StepKey } from './plan';
import type { SeamRun } from './seamRun';

const nameOf = ({ chain }: Join): string => {
  const first = chain.lines.reduce((best, l) => (l.order < best.order ? l : best));
  return `seam ${first.line}${first.mirrored ? ' mirrored' : ''}`;
};

/** The joins of a piece as runs, in their order. */
export function runsFromJoins(piece: PanelledPiece): readonly SeamRun[] {
  const joins = joinOrder(piece);
  const counts = new Map<string, number>();
  const keys = joins.map((j): StepKey => {
    const name = nameOf(j);
    const n = (counts.get(name) ?? 0) + 1;
    counts.set(name, n);
    return n === 1 ? name : `${name} #${n}`;
  });
  const nodes = joins.map(
    (j) => new Set(j.chain.stretches.filter((s) => j.seams.includes(s.seam)).flatMap((s) => [s.from, s.to])),
  );
  return joins.map((join, i): SeamRun => {
    const needs = joins.slice(0, i).flatMap((other, k): Need[] => {
      const node = [...nodes[k]!].find((n) => nodes[i]!.has(n) && !piece.outlineNodes.has(n));
      if (node === undefined || (other.chain === join.chain && other.kind === 'seam')) return [];
      const ends = [chainNodes(other.chain)[0], chainNodes(other.chain).at(-1)].includes(node);
      const at = piece.nodePoints[node]!;
      const because = other.chain === join.chain ? 'begun there' : ends ? 'ends on it' : 'is crossed';
      return [{ key: keys[k]!, because: { kind: because, at } }];
    });
    const begun = joins.findIndex((o) => o !== join && o.chain === join.chain && o.openAt !== null);
    const { lines, stretches, isClosed } = join.chain;
    return {
      key: keys[i]!,
      kind: join.kind,
      lines,
      order: Math.min(...lines.map((l) => l.order)),
      stretches: stretches.filter((s) => join.seams.includes(s.seam)),
      seams: join.seams,
      isClosed,
      corners: [],
      openAt: join.openAt,
      finishes: join.finishes && begun >= 0 ? keys[begun]! : null,
      needs,
    };
  });
}
