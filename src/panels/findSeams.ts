import { type HalfEdge, type Path, type Subdivision, reversePath } from '../geometry';
import type { LineId, WholePiece } from '../pattern';
import { sewnLength } from './darts/seamSides';
import { type LaidLine, type LineRun, type Seam, type SeamId, type Stretch, panelIdOf } from './panel';

export interface SeamOfEdge {
  readonly seam: SeamId;
  readonly line: LineId;
  readonly forward: boolean;
}

export interface SeamsFound {
  readonly seams: readonly Seam[];
  readonly runs: readonly LineRun[];
  /** The seam each subdivision edge belongs to, and whether the edge's own direction is the seam's. */
  readonly seamOfEdge: ReadonlyMap<number, SeamOfEdge>;
}

/** One subdivision edge as a line runs along it. */
interface Passage {
  readonly half: HalfEdge;
  readonly from: number;
  readonly to: number;
  readonly a: number;
  readonly b: number;
  readonly path: Path;
  readonly length: number;
}

/** A line's passages inside the piece; edges on the outline, and those an earlier line owns already, are left out. */
function passagesOf(sub: Subdivision, line: number): readonly Passage[] {
  return sub.lineEdges[line]!.flatMap((half): Passage[] => {
    const edge = sub.edges[half.edge]!;
    const owner = edge.sources[0]!.path;
    if (owner.kind !== 'line' || owner.line !== line) return [];
    const { forwardFace, backwardFace, length } = edge;
    if (forwardFace === null || backwardFace === null) return [];
    if (half.forward)
      return [
        { half, from: edge.from, to: edge.to, a: forwardFace, b: backwardFace, path: edge.curves, length },
      ];
    return [
      {
        half,
        from: edge.to,
        to: edge.from,
        a: backwardFace,
        b: forwardFace,
        path: reversePath(edge.curves),
        length,
      },
    ];
  });
}

/** Part passages where they are not connected. A ring line starts where its panel pair changes, so no seam is torn. */
function connectedRuns(passages: readonly Passage[]): readonly (readonly Passage[])[] {
  const runs: Passage[][] = [];
  for (const p of passages) {
    const last = runs.at(-1);
    if (last && last.at(-1)!.to === p.from) last.push(p);
    else runs.push([p]);
  }
  return runs.map((run) => {
    if (run[0]!.from !== run.at(-1)!.to) return run;
    const change = run.findIndex((p, i) => !samePair(run.at(i - 1)!, p));
    return change <= 0 ? run : [...run.slice(change), ...run.slice(0, change)];
  });
}

const samePair = (p: Passage, q: Passage): boolean => p.a === q.a && p.b === q.b;

/** Passages of one connected run, parted into longest groups with one panel pair. */
function seamGroups(run: readonly Passage[]): readonly (readonly Passage[])[] {
  const groups: Passage[][] = [];
  for (const p of run) {
    const last = groups.at(-1);
    if (last && samePair(last[0]!, p)) last.push(p);
    else groups.push([p]);
  }
  return groups;
}

/** Gather each line's passages into seams: longest stretches with one panel pair. */
export function findSeams(sub: Subdivision, whole: WholePiece, lines: readonly LaidLine[]): SeamsFound {
  const seamOfEdge = new Map<number, SeamOfEdge>();
  const piece = whole.piece.id;
  const seamFrom = (line: LaidLine, running: number, group: readonly Passage[]): Seam => {
    const id = `${piece}/${line.label}.${running}` as SeamId;
    for (const { half } of group) seamOfEdge.set(half.edge, { seam: id, line: line.line, forward: half.forward });
    const path = group.flatMap((p) => p.path);
    const [a, b] = [panelIdOf(piece, group[0]!.a), panelIdOf(piece, group[0]!.b)];
    const length = sewnLength(
      path,
      whole.darts.filter((d) => d.close === null),
    );
    return { id, piece, line, a, b, path, lengthA: length, lengthB: length, eased: [] };
  };
  const seams: Seam[] = [];
  const runs = lines.flatMap((line, index): LineRun[] => {
    let running = 0;
    return connectedRuns(passagesOf(sub, index)).map((run): LineRun => {
      const stretches = seamGroups(run).flatMap((group): Stretch[] => {
        running += 1;
        const seam = seamFrom(line, running, group);
        seams.push(seam);
        const { id, a, b } = seam;
        return group.map(({ from, to, path }) => ({ seam: id, a, b, from, to, path }));
      });
      return { line, stretches };
    });
  });
  return { seams, runs, seamOfEdge };
}
