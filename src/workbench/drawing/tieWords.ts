import { type Bases, type ReachPart, findEdge, sayBase, sayEdge, sayLevel } from '../../lines';
import { endOf, dot, startOf, subtract } from '../../geometry';
import {
  type Base,
  type Design,
  formatLength,
  type LineId,
  type LineTies,
  type PanelLine,
  type Reach,
  type Run,
  sewnEdge,
  type Tie,
  type Units,
  type WholePiece,
  grainFrame,
} from '../../pattern';

/** What the words about ties are said with. */
export interface Saying {
  readonly design: Pick<Design, 'lines' | 'pieces'>;
  readonly whole: WholePiece;
  readonly units: Units;
}

/** Below this, mm, a point is said to lie on its base. */
const ON_IT = 0.05;

const SHARES: readonly (readonly [number, string])[] = [
  [1 / 4, 'a quarter'],
  [1 / 3, 'a third'],
  [1 / 2, 'half'],
  [2 / 3, 'two thirds'],
  [3 / 4, 'three quarters'],
];

/** A share in words: `a third`, `half`, else `38 %`. */
function sayShare(share: number): string {
  const plain = SHARES.find(([s]) => Math.abs(s - share) < 5e-4);
  return plain ? plain[1] : `${(Math.round(share * 1000) / 10).toString().replace('-', '−')} %`;
}

/** `line 3`, by its place in the list. */
export const sayLine = ({ lines }: Saying['design'], id: LineId): string => {
  const index = lines.findIndex((l) => l.id === id);
  return index < 0 ? 'a line that is gone' : `line ${index + 1}`;
};

/** Which way the end of an edge lies on the drawing: told by the edge it touches, else by up, down, left, right. */
function sayEnd(whole: WholePiece, base: Base & { kind: 'edge end' }): string {
  const edge = findEdge(whole, base);
  if (edge === null) return `an end of ${sayEdge(base.name)}`;
  const { path } = sewnEdge(whole, edge);
  const { along, across } = grainFrame(whole);
  const way = subtract(endOf(path), startOf(path));
  const [down, right] = [dot(way, along), dot(way, across)];
  const last = base.end === 'last';
  const word =
    Math.abs(down) >= Math.abs(right)
      ? down > 0 === last
        ? 'lower'
        : 'upper'
      : right > 0 === last
        ? 'right'
        : 'left';
  return `the ${word} end of ${sayEdge(base.name)}`;
}

/** A base in words. On an edge's own ends the edge need not be named again. */
const sayBaseOn = (whole: WholePiece, base: Base): string =>
  base.kind === 'edge end' ? sayEnd(whole, base) : sayBase(base);

/** What two bases a share lies between are called: `the waist and the hip level` is long, `waist to hip` is not. */
function sayBetween(whole: WholePiece, [a, b]: readonly [Base, Base]): string {
  if (a.kind === 'edge end' && b.kind === 'edge end' && a.name === b.name && a.nth === b.nth)
    return `along ${sayEdge(a.name)}, from ${sayEnd(whole, a).replace(` of ${sayEdge(a.name)}`, '')}`;
  const short = (base: Base): string =>
    base.kind === 'level' ? sayLevel(base.name).replace(/^the | level$/g, '') : sayBaseOn(whole, base);
  return `of the way from ${short(a)} to ${short(b)}`;
}

/** Which way a distance is read: by height, across, or along an edge. */
export function wayOf(tie: Tie, part: ReachPart, base: Base, by: number): string {
  const kind = part === 'edge' && tie.kind === 'edge' ? tie.along : part === 'down' ? 'grain' : 'across';
  const levelled = base.kind === 'level' || kind === 'grain';
  if (kind === 'edge' && base.kind !== 'level') return 'from';
  if (levelled) return by < 0 ? 'above' : 'below';
  return base.kind === 'centre' ? 'from' : by < 0 ? 'left of' : 'right of';
}

/** A reach in words: `4.5 cm below the waist level`, `a third of the way from bust to waist`, `on the hip level`. */
function sayReach({ whole, units }: Saying, tie: Tie, part: ReachPart, reach: Reach): string {
  if (reach.kind === 'between') return `${sayShare(reach.share)} ${sayBetween(whole, reach.bases)}`;
  const base = sayBaseOn(whole, reach.base);
  if (Math.abs(reach.by) < ON_IT) return `${reach.base.kind === 'edge end' ? 'at' : 'on'} ${base}`;
  return `${formatLength(Math.abs(reach.by), units)} ${wayOf(tie, part, reach.base, reach.by)} ${base}`;
}

/** The edge that a tie lies on: `the side seam`, said once. */
const edgeWord = (tie: Tie & { kind: 'edge' }, said: string): string =>
  said.includes(tie.name) ? '' : `${tie.along === 'edge' ? ', along' : ' on'} ${sayEdge(tie.name)}`;

/** What holds a point, in words. */
export function sayTie(saying: Saying, tie: Tie): string {
  switch (tie.kind) {
    case 'edge': {
      const said = sayReach(saying, tie, 'edge', tie.reach);
      return `${said}${edgeWord(tie, said)}`;
    }
    case 'inside':
      return `${sayReach(saying, tie, 'down', tie.down)}, ${sayReach(saying, tie, 'over', tie.over)}`;
    case 'line':
      if (tie.place.kind === 'share')
        return `${sayShare(tie.place.share)} along ${sayLine(saying.design, tie.line)}`;
      return `${sayReach(saying, tie, tie.place.kind, tie.place.reach)} on ${sayLine(saying.design, tie.line)}`;
    case 'dart':
      return 'at the dart’s point';
    case 'neighbour': {
      const line = saying.design.lines.find((l) => l.id === tie.line);
      const piece = line && saying.design.pieces.find((p) => p.id === line.piece);
      return `where ${sayLine(saying.design, tie.line)}${piece ? ` of ${piece.name}` : ''} arrives on ${sayEdge(tie.name)}`;
    }
  }
}

/** A direction in words. */
function sayRun(run: Run): string {
  if (run.kind === 'square') return 'square to the grain';
  if (run.kind === 'with') return 'with the grain';
  return `at ${Math.round(run.degrees * 10) / 10}° to the cross grain`;
}

function sayUntil({ design }: Saying, { until }: Run): string {
  if (until.kind === 'outline') return '';
  return until.kind === 'centre' ? ', to the centre' : `, to ${sayLine(design, until.line)}`;
}

/** A line's definition: `square to the grain, 4.5 cm below the waist level on the side seam`. */
export function sayTies(saying: Saying, { nodes, run }: LineTies, { path }: Pick<PanelLine, 'path'>): string {
  const held = nodes.filter((tie): tie is Tie => tie !== null);
  if (run && held[0]) return `${sayRun(run)}, ${sayTie(saying, held[0])}${sayUntil(saying, run)}`;
  const curved = path.length > 1 || path.some((c) => c.length === 4);
  const manner = curved ? 'curved, ' : '';
  return `${manner}${held.map((tie, i) => `${i === 0 ? 'from' : 'to'} ${sayTie(saying, tie)}`).join('; ')}`;
}

/** What can be chosen to measure from: one base, or a share between two. */
export function sayChoice(whole: WholePiece, bases: Bases): string {
  if (bases.length === 1) return sayBaseOn(whole, bases[0]);
  return sayBetween(whole, bases).replace(/^of the way /, '');
}
