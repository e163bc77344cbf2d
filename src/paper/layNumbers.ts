import {
  add,
  applyMatrix,
  distance,
  dot,
  flattenRing,
  mix,
  scale,
  subtract,
  transformPath,
  unit,
} from '../geometry';
import type { Box, Line, Matrix, Path, Polyline, Pt } from '../geometry';
import { arrowHead } from './arrowHead';
import { stack } from './block';
import type { Block } from './block';
import { INK, SOFT } from './ink';
import { entersBox, longLine, partsInside, sidesEnterBox, holdsPoint } from './inside';
import type { Rings } from './inside';
import type { PieceOnCloth } from './layOnPaper';
import { CAPITALS, boxOf, circle, filled, grown, line, movedMarks, overlaps, stroked, text } from './marks';
import type { Lettering, Mark, Stroke } from './marks';
import { Room } from './room';

/** A piece on the page, mm: its rings, what of them is shown, its lettering so far. */
export interface PieceOnPage {
  readonly piece: PieceOnCloth;
  readonly paths: readonly Path[];
  readonly rings: Rings;
  /** The same without what lies beyond the ends of what is shown; empty where nothing is left. */
  readonly shown: Rings;
  readonly label: { readonly at: Pt; readonly radius: number };
  readonly along: Pt;
  readonly anchor: Pt | null;
}

/** Numbers are at least this large, mm (2.2 mm is 6 pt); beside a piece they have this size. */
const SMALLEST = 2.2;
const BESIDE = 2.6;
const LARGEST = 7;
const NAME = 2.5;
const ARROW: Stroke = { width: 0.3, colour: INK };
const LEADER: Stroke = { width: 0.15, colour: INK };
const LONGEST_ARROW = 28;
const SHORTEST_ARROW = 4.5;
const ARROW_HEAD = 1.7;
/** Farthest that a number stands beside its piece, mm; without its leader crossing another piece. */
const FARTHEST = 70;
const NEAR = 24;
/** Nearest, and how much farther each next row of numbers stands where one row does not hold them. */
const NEAREST = 3;
const ROW_APART = 6;
const MOST_ROWS = 4;
const DIRECTIONS = 32;

/** What of a ring lies on one side of an upright or level line. */
function cutRing(ring: Polyline, axis: 0 | 1, at: number, keep: 1 | -1): Pt[] {
  return ring.flatMap((p, i): Pt[] => {
    const q = ring[(i + 1) % ring.length]!;
    const [s, t] = [(p[axis] - at) * keep, (q[axis] - at) * keep];
    const kept: Pt[] = s >= 0 ? [p] : [];
    return s * t >= 0 ? kept : [...kept, mix(p, q, s / (s - t))];
  });
}

/** What of a ring lies in a box. */
const withinBox = (ring: Polyline, { minX, minY, maxX, maxY }: Box): Pt[] =>
  cutRing(cutRing(cutRing(cutRing(ring, 0, minX, 1), 0, maxX, -1), 1, minY, 1), 1, maxY, -1);

/** Bring a piece to the page. @param within what of the page shows cloth */
export function pieceOnPage(piece: PieceOnCloth, m: Matrix, within: Box): PieceOnPage {
  const paths = piece.rings.map((ring) => transformPath(ring, m));
  const rings = paths.map((ring) => flattenRing(ring));
  const isWhole = (rings[0] ?? []).every(
    ([x, y]) => x >= within.minX && x <= within.maxX && y >= within.minY && y <= within.maxY,
  );
  return {
    piece,
    paths,
    rings,
    shown: isWhole ? rings : rings.map((r) => withinBox(r, within)).filter((r) => r.length > 2),
    label: { at: applyMatrix(m, piece.label.at), radius: piece.label.radius * Math.hypot(m[0], m[1]) },
    along: grainOnPage(piece, m),
    anchor: piece.anchor && applyMatrix(m, piece.anchor),
  };
}

function grainOnPage({ grain }: PieceOnCloth, m: Matrix): Pt {
  const [a, b] = [applyMatrix(m, grain[0]), applyMatrix(m, grain[1])];
  return distance(a, b) > 0 ? unit(subtract(b, a)) : unit([m[0], m[1]]);
}

/** The number, with a bar over it where the printed piece lies face down. */
function numberBlock(lettering: Lettering, { piece }: PieceOnPage, size: number): Block {
  const bar = piece.faceDown ? size * 0.26 : 0;
  const mark = text(lettering, `${piece.laid.number}`, [0, bar + size * (CAPITALS + 0.03)], {
    size,
    bold: true,
  });
  const marks: Mark[] = [mark];
  if (piece.faceDown)
    marks.push(
      line([0, bar * 0.4], [mark.width, bar * 0.4], { width: Math.max(0.25, size * 0.07), colour: INK }),
    );
  return { width: mark.width, height: bar + size * (CAPITALS + 0.1), marks };
}

function centredBelow(top: Block, words: readonly Block[], gap: number): Block {
  const all = [top, ...words];
  const width = Math.max(...all.map((b) => b.width));
  return stack(
    all.map((b) => ({ ...b, width, marks: movedMarks(b.marks, [(width - b.width) / 2, 0]) })),
    gap,
  );
}

const oneLine = (lettering: Lettering, words: string): Block => {
  const mark = text(lettering, words, [0, NAME * (CAPITALS + 0.05)], { size: NAME, colour: INK });
  return { width: mark.width, height: NAME * (CAPITALS + 0.27), marks: [mark] };
};

/** The number as large as it fits inside, its words below it where there is room; null where it does not fit. */
export function numberInside(
  lettering: Lettering,
  on: PieceOnPage,
  words: readonly string[],
  taken: readonly Box[],
): { readonly marks: Mark[]; readonly box: Box } | null {
  if (on.shown.length === 0) return null;
  const room = new Room(on.shown, []);
  for (const box of taken) room.take(box);
  const largest = Math.min(LARGEST, Math.max(SMALLEST, on.label.radius * 1.1));
  const tries: Block[] = [];
  if (words.length > 0 && on.label.radius > 5) {
    const said = words.map((w) => oneLine(lettering, w));
    tries.push(centredBelow(numberBlock(lettering, on, Math.min(largest, 6)), said, 0.8));
  }
  for (let size = largest; size > SMALLEST; size *= 0.85) tries.push(numberBlock(lettering, on, size));
  tries.push(numberBlock(lettering, on, SMALLEST));
  for (const block of tries) {
    const marks = room.placeNear(block, on.label.at, 0.45, false);
    if (marks) return { marks, box: boxOf(marks) };
  }
  return null;
}

/** How far arrows keep off the outline to either side, mm. */
const ARROW_CLEAR = 1;

/** Stretches along a direction through a place that lie inside with room to either side. */
function roomyParts(rings: Rings, at: Pt, along: Pt): Line[] {
  const across: Pt = [-along[1], along[0]];
  const [own, left, right] = [0, ARROW_CLEAR, -ARROW_CLEAR].map((aside) =>
    partsInside(rings, longLine(add(at, scale(across, aside)), along, 1000)).map(
      ([a, b]) => [dot(subtract(a, at), along), dot(subtract(b, at), along)] as const,
    ),
  );
  const meet = (
    p: readonly (readonly [number, number])[],
    q: readonly (readonly [number, number])[],
  ): (readonly [number, number])[] =>
    p.flatMap(([a, b]) =>
      q.flatMap(([c, d]) =>
        Math.min(b, d) > Math.max(a, c) ? [[Math.max(a, c), Math.min(b, d)] as const] : [],
      ),
    );
  return meet(meet(own!, left!), right!).map(([s, t]): Line => [
    add(at, scale(along, s)),
    add(at, scale(along, t)),
  ]);
}

/** Arrow along the grain beside the number: one head on one-way cloth, else two. Nothing where there is no room for it. */
export function grainOn(on: PieceOnPage, taken: readonly Box[], nap: boolean): Mark[] {
  const across: Pt = [-on.along[1], on.along[0]];
  let best: { arrow: Line; score: number } | null = null;
  const reach = Math.max(6, on.label.radius * 1.5);
  for (let aside = 0; aside <= reach; aside += 0.8) {
    for (const side of aside === 0 ? [1] : [1, -1]) {
      const at = add(on.label.at, scale(across, side * aside));
      const parts = roomyParts(on.shown, at, on.along).flatMap((part) => clearParts(part, taken));
      for (const part of parts) {
        const found = arrowIn(part, on, at, aside);
        if (found && (!best || found.score > best.score)) best = found;
      }
    }
  }
  if (!best) return [];
  const [tail, tip] = best.arrow;
  return [
    line(tail, tip, ARROW),
    arrowHead(tip, on.along, ARROW_HEAD),
    ...(nap ? [] : [arrowHead(tail, scale(on.along, -1), ARROW_HEAD)]),
  ];
}

/** The arrow in a stretch, near the number rather than at the far end of a long piece; null where it would be too short. */
function arrowIn(
  [a, b]: Line,
  on: PieceOnPage,
  at: Pt,
  aside: number,
): { arrow: Line; score: number } | null {
  const room = distance(a, b);
  const length = Math.min(room * 0.8, LONGEST_ARROW);
  if (length < SHORTEST_ARROW) return null;
  const wished = dot(subtract(on.label.at, a), on.along);
  const middle = add(a, scale(on.along, Math.min(room - length / 2, Math.max(length / 2, wished))));
  const half = scale(on.along, length / 2);
  return {
    arrow: [subtract(middle, half), add(middle, half)],
    score: length - aside * 0.5 - distance(middle, at) * 0.2,
  };
}

/** A stretch without what lies in or near the boxes. */
function clearParts(part: Line, taken: readonly Box[]): Line[] {
  let parts = [part];
  for (const box of taken.map((b) => grown(b, 0.8))) {
    const ring: Polyline = [
      [box.minX, box.minY],
      [box.maxX, box.minY],
      [box.maxX, box.maxY],
      [box.minX, box.maxY],
    ];
    parts = parts.flatMap((p) => {
      if (!entersBox(p[0], p[1], box)) return [p];
      const covered = partsInside([ring], p)[0];
      return covered ? [[p[0], covered[0]] as const, [covered[1], p[1]] as const] : [p];
    });
  }
  return parts;
}

/** Small ring at the point that lies on the repeat. */
export function anchorMark({ anchor, shown }: PieceOnPage): Mark[] {
  if (!anchor || !holdsPoint(shown, anchor)) return [];
  return [stroked([circle(anchor, 0.8)], { width: 0.2, colour: INK }, true)];
}

/** What numbers beside their pieces keep clear of. */
export interface Around {
  /** Where they may stand. */
  readonly within: Box;
  readonly taken: Box[];
  readonly pieces: readonly PieceOnPage[];
  /** Drawn lines that lettering may not cover; leaders are added. */
  readonly lines: Line[];
}

/** The number beside a piece too small for it, with a leader from inside the piece; it stands on bare cloth or beside the cloth. */
function numberBeside(lettering: Lettering, on: PieceOnPage, around: Around, nearest: number): Mark[] {
  const block = numberBlock(lettering, on, BESIDE);
  const start = on.label.at;
  // Rather a little farther off than with a leader across another piece.
  const place =
    placeBeside(block, on, around, [nearest, NEAR], true) ??
    placeBeside(block, on, around, [nearest, FARTHEST], false);
  if (!place) return [];
  const { box, end } = place;
  around.taken.push(grown(box, 0.3));
  around.lines.push([start, end]);
  return [
    line(start, end, LEADER),
    filled([circle(start, 0.4)], SOFT),
    ...movedMarks(block.marks, [box.minX, box.minY]),
  ];
}

function placeBeside(
  block: Block,
  on: PieceOnPage,
  around: Around,
  [nearest, farthest]: readonly [number, number],
  isClear: boolean,
): { readonly box: Box; readonly end: Pt } | null {
  const start = on.label.at;
  const half = Math.hypot(block.width, block.height) / 2 + 0.4;
  for (let r = nearest; r <= farthest; r += 0.9) {
    for (let turn = 0; turn < DIRECTIONS; turn += 1) {
      const a = (turn / DIRECTIONS) * 2 * Math.PI;
      const at: Pt = [start[0] + r * Math.cos(a), start[1] + r * Math.sin(a)];
      const box: Box = {
        minX: at[0] - block.width / 2,
        minY: at[1] - block.height / 2,
        maxX: at[0] + block.width / 2,
        maxY: at[1] + block.height / 2,
      };
      const end = mix(at, start, Math.min(1, half / r));
      if (!isFreeFor(grown(box, 0.5), [start, end], around)) continue;
      if (isClear && around.pieces.some((p) => p !== on && partsInside(p.shown, [start, end]).length > 0))
        continue;
      return { box, end };
    }
  }
  return null;
}

/**
 * The numbers of pieces too small for theirs. Where one row of numbers beside crowded pieces does not hold them all, they stand in
 * several, the farthest set first so that its leaders stay free.
 */
export function numbersBeside(lettering: Lettering, small: readonly PieceOnPage[], around: Around): Mark[] {
  let best: { marks: Mark[]; count: number } = { marks: [], count: -1 };
  for (let rows = 1; rows <= MOST_ROWS && best.count < small.length; rows += 1) {
    const here: Around = { ...around, taken: [...around.taken], lines: [...around.lines] };
    const order = small.map((on, i) => ({ on, row: i % rows })).sort((a, b) => b.row - a.row);
    const placed = order.map(({ on, row }) => numberBeside(lettering, on, here, NEAREST + row * ROW_APART));
    const count = placed.filter((marks) => marks.length > 0).length;
    if (count > best.count) best = { marks: placed.flat(), count };
  }
  return best.marks;
}

function isFreeFor(box: Box, leader: Line, { within, taken, pieces, lines }: Around): boolean {
  const middle: Pt = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  return (
    box.minX >= within.minX &&
    box.maxX <= within.maxX &&
    box.minY >= within.minY &&
    box.maxY <= within.maxY &&
    !taken.some((t) => overlaps(t, box) || entersBox(leader[0], leader[1], t)) &&
    !lines.some(([a, b]) => entersBox(a, b, box)) &&
    !pieces.some(({ shown }) => sidesEnterBox(shown, box) || holdsPoint(shown, middle))
  );
}
