import { expect, test } from 'vitest';
import { type Path, type Pt, endOf, nearestOnPath, startOf } from '../../src/geometry';
import { moveLevel, settle, settleLines } from '../../src/lines';
import {
  type Design,
  type Piece,
  type PieceId,
  openedPiece,
  sewnEdge,
  sewnLengthAt,
} from '../../src/pattern';
import { dart, design } from '../making/designs';
import { FRONT, USUAL, halfFront, line, pathOf } from './ground';
import { tied } from '../../src/lines';

const BACK = 'back' as PieceId;

/** A back like the front, beside it on the page. */
const back = (over: Partial<Piece> = {}): Piece => ({
  ...halfFront(USUAL, 1, [800, 0]),
  id: BACK,
  name: 'back',
  ...over,
});

/**
 * A square line on the front at the waist, and one on the back that goes on from where it arrives: the front's image does on the
 * side drawn alike, for a front and a back face each other when worn.
 */
function joined(front: Piece): Design {
  const at: Pt = [USUAL.waist, USUAL.waistAt];
  const path: Path = [[at, [0, USUAL.waistAt]]];
  const own = line(path, 1);
  const bare = design([front, back()], [own]);
  const beyond: Path = [
    [
      [800 + USUAL.waist, USUAL.waistAt],
      [800, USUAL.waistAt],
    ],
  ];
  const other = line(beyond, 2, {
    piece: BACK,
    ties: {
      nodes: [
        { kind: 'neighbour', name: 'side seam', nth: 0, line: own.id, end: 'start', mirrored: true },
        null,
      ],
      run: { kind: 'square', until: { kind: 'centre' } },
    },
  });
  return { ...bare, lines: [tied(bare, own), other] };
}

/** Sewn length of a point of the side seam from its upper end, mm. */
function downTheSide(d: Design, piece: PieceId, p: Pt): number {
  const { whole } = openedPiece(
    d.pieces.find((q) => q.id === piece)!,
    d,
  );
  const sewn = sewnEdge(
    whole,
    whole.edges.findIndex((e) => e.name === 'side seam'),
  );
  const near = nearestOnPath(sewn.path, p);
  expect(near.distance).toBeLessThan(1e-6);
  const s = sewnLengthAt(sewn, near);
  return startOf(sewn.path)[1] < endOf(sewn.path)[1] ? s : sewn.length - s;
}

test('a line tied over a seam moves with its neighbour’s: both meet it at the same sewn length', () => {
  const before = settle(joined(halfFront()));
  expect(before.problems).toEqual([]);
  const { design: after, problems } = settle(moveLevel(before.design, FRONT, 'waist', 35));
  expect(problems).toEqual([]);
  const [a, b] = [startOf(pathOf(after, 1)), startOf(pathOf(after, 2))];
  expect(a[1]).toBeCloseTo(USUAL.waistAt + 35, 6);
  expect(downTheSide(after, BACK, b)).toBeCloseTo(downTheSide(after, FRONT, a), 6);
  expect(endOf(pathOf(after, 2))).toEqual([800, b[1]]);
});

test('a dart in the seam above takes up no length: the neighbour’s line lies higher by as much as it takes in', () => {
  const y = 300;
  const plain = settleLines(joined(halfFront()));
  const side = pathOf(plain, 1);
  const whole = openedPiece(plain.pieces[0]!, plain).whole;
  const seam = sewnEdge(
    whole,
    whole.edges.findIndex((e) => e.name === 'side seam'),
  ).path;
  const mouth = [y, y + 20].map((h) => nearestOnPath(seam, [225, h]).point) as [Pt, Pt];
  const darted = joined(halfFront());
  const d: Design = {
    ...darted,
    pieces: [{ ...darted.pieces[0]!, darts: [dart(mouth[0], [120, y], mouth[1])] }, darted.pieces[1]!],
  };
  // Longer by the dart than the back, the front is walked in proportion; the ties follow that walk.
  const after = settle(d);
  expect(after.problems).toEqual([]);
  const [a, b] = [startOf(pathOf(after.design, 1)), startOf(pathOf(after.design, 2))];
  expect(a).toEqual(startOf(side));
  const shareOf = (piece: PieceId, p: Pt): number => {
    const own = openedPiece(
      after.design.pieces.find((q) => q.id === piece)!,
      after.design,
    ).whole;
    const edge = own.edges.findIndex((e) => e.name === 'side seam');
    return downTheSide(after.design, piece, p) / sewnEdge(own, edge).length;
  };
  expect(shareOf(BACK, b)).toBeCloseTo(shareOf(FRONT, a), 6);
  expect(b[1]).toBeLessThan(a[1]);
});

test('a line whose neighbour is gone stays, and says what it has lost', () => {
  const d = settleLines(joined(halfFront()));
  const without = { ...d, lines: d.lines.slice(1) };
  const { design: after, problems } = settle(without);
  expect(after).toBe(without);
  expect(problems).toMatchObject([
    { facts: { what: 'a line of the neighbour', why: 'gone' }, piece: 'back' },
  ]);
});
