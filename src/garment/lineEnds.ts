import { type Pt, applyMatrix, distance, endOf, mirrorAcross, startOf } from '../geometry';
import type { LineEnd } from '../neighbours';
import type { LaidLine, LineRun, PanelledPiece } from '../panels';
import { type Design, type PanelLine, type WholePiece, remember } from '../pattern';

/** Which end of the drawn line a place is, or which one's mirror image: the nearest. */
function drawnEnd(at: Pt, { path }: PanelLine, { foldLine }: WholePiece): Pick<LineEnd, 'end' | 'mirrored'> {
  const ends = [
    { end: 'start', mirrored: false, p: startOf(path) },
    { end: 'end', mirrored: false, p: endOf(path) },
  ] as const;
  const m = foldLine && mirrorAcross(foldLine);
  const images = m ? ends.map((e) => ({ ...e, mirrored: true, p: applyMatrix(m, e.p) })) : [];
  const [{ end, mirrored }] = [...ends, ...images].sort((a, b) => distance(a.p, at) - distance(b.p, at)) as [
    (typeof ends)[number],
  ];
  return { end, mirrored };
}

/** Where a connected stretch of a line begins and ends on the outline. */
function placesOf({ stretches }: LineRun, outlineNodes: ReadonlySet<number>): Pt[] {
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (!first || !last) return [];
  return [
    ...(outlineNodes.has(first.from) ? [startOf(first.path)] : []),
    ...(outlineNodes.has(last.to) ? [endOf(last.path)] : []),
  ];
}

/** The same end while it stays where it is: what is worked out from it is kept while other lines move. */
const endAt = remember(
  (line: PanelLine, whole: WholePiece, isImage: boolean, label: string, x: number, y: number): LineEnd => {
    const at: Pt = [x, y];
    const drawn = drawnEnd(at, line, whole);
    const mirrored = isImage || drawn.mirrored;
    return { line: line.id, label, ...drawn, mirrored, piece: whole.piece.id, at };
  },
);

const endsOnce = remember((sliced: PanelledPiece, lines: readonly PanelLine[]): readonly LineEnd[] =>
  sliced.runs.flatMap((run) => {
    const { label, line: id, mirrored }: LaidLine = run.line;
    const line = lines.find((l) => l.id === id);
    if (!line || line.path.length === 0) return [];
    return placesOf(run, sliced.outlineNodes).map(([x, y]) =>
      endAt(line, sliced.whole, mirrored, label, x, y),
    );
  }),
);

/** Every place where a panel line reaches the outline of its piece. One that leaves the piece and comes back has more than two. */
export const lineEndsOf = (sliced: PanelledPiece, { lines }: Pick<Design, 'lines'>): readonly LineEnd[] =>
  endsOnce(
    sliced,
    lines.filter((l) => l.piece === sliced.whole.piece.id),
  );
