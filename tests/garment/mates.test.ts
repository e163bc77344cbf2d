import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openDesign } from '../../src/files';
import {
  type Garment,
  deriveGarment,
  edgeSayings,
  mateWords,
  matesOf,
  seamsWithoutNotches,
} from '../../src/garment';
import type { Pt } from '../../src/geometry';
import type { Panel } from '../../src/panels';
import type { EdgeAnswer, PieceId } from '../../src/pattern';
import { design, panelLine, piece, rectangle } from '../making/designs';

const FRONT = 'front' as PieceId;
const BACK = 'back' as PieceId;

/** Two rectangles sewn side to side: front's right edge to back's left edge, cut at other heights. */
function twoPieces(frontCuts: readonly number[], backCuts: readonly number[]): Garment {
  const named = (x: number) => [
    {
      name: 'side seam',
      path: [
        [
          [x, 0],
          [x, 600],
        ],
      ] as const,
    },
  ];
  const across = (cuts: readonly number[], x: number, id: PieceId, from: number) =>
    cuts.map((y, i) =>
      panelLine(
        [
          [x, y],
          [x + 200, y],
        ] as readonly Pt[],
        from + i,
        { piece: id },
      ),
    );
  const answers: EdgeAnswer[] = [
    { piece: FRONT, edge: 'side seam', job: { kind: 'joins', piece: BACK, edge: 'side seam' } },
  ];
  return deriveGarment(
    design(
      [
        piece(rectangle(200, 600), { id: FRONT, name: 'front', edgeNames: named(200) }),
        piece(rectangle(200, 600, [400, 0]), { id: BACK, name: 'back', edgeNames: named(400) }),
      ],
      [...across(frontCuts, 0, FRONT, 0), ...across(backCuts, 400, BACK, frontCuts.length)],
      { edgeJobs: answers },
    ),
  );
}

/** The panel of a piece between two heights. */
const between = (garment: Garment, id: PieceId, y: number): Panel =>
  garment.panels.find((p) => p.piece === id && Math.abs(p.spot.at[1] - y) < 100 && hasAt(p, y))!;
const hasAt = ({ ring }: Panel, y: number): boolean => {
  const ys = ring.map((c) => c[0][1]);
  return Math.min(...ys) < y && Math.max(...ys) > y;
};

const acrossSide = (garment: Garment, panel: Panel) =>
  matesOf(garment, panel).find((m) => m.kind === 'joins')!.mates;

test('an outer edge names the panels that lie across the seam, in order along it', () => {
  const garment = twoPieces([200, 400], [300]);
  const [top, middle, bottom] = [100, 300, 500].map((y) => between(garment, FRONT, y));
  const [upper, lower] = [150, 450].map((y) => between(garment, BACK, y));
  expect(acrossSide(garment, top!)).toEqual([upper!.id]);
  expect(acrossSide(garment, middle!)).toEqual([upper!.id, lower!.id]);
  expect(acrossSide(garment, bottom!)).toEqual([lower!.id]);
  // the back's edge runs the other way in its ring
  expect(acrossSide(garment, upper!)).toEqual([middle!.id, top!.id]);
  const words = (p: Panel): string[] =>
    edgeSayings(garment, p, garment.cutPieces[garment.panels.indexOf(p)]!).map((s) => mateWords(s));
  const number = (p: Panel | undefined): number => garment.plan.numbers.get(p!.id)!;
  expect(words(middle!)).toContain(`side seam, to ${number(upper)} and ${number(lower)}`);
  expect(words(middle!)).toContain(`to ${number(top)}`);
});

test('lines that meet over a seam within a few millimetres make no mates of the panels they just miss', () => {
  const garment = twoPieces([300], [302]);
  const [top, bottom] = [150, 450].map((y) => between(garment, FRONT, y));
  const [upper, lower] = [150, 450].map((y) => between(garment, BACK, y));
  expect(acrossSide(garment, top!)).toEqual([upper!.id]);
  expect(acrossSide(garment, bottom!)).toEqual([lower!.id]);
});

test('a seam between pieces without a traced notch is told of', () => {
  const garment = twoPieces([300], [300]);
  expect(seamsWithoutNotches(garment)).toHaveLength(1);
});

const demo = (): Garment => {
  const file = new URL('../../demo-data/sheath.json', import.meta.url);
  const opened = openDesign(readFileSync(file, 'utf8'), 'sheath.json');
  if (!opened.ok) throw new Error('the demo opens');
  return deriveGarment(opened.value);
};

test('in the demo garment being mates is mutual, and every joined edge has some', () => {
  const garment = demo();
  let joined = 0;
  for (const panel of garment.panels)
    for (const mate of matesOf(garment, panel)) {
      if (mate.kind !== 'joins' && mate.kind !== 'seam') continue;
      joined += 1;
      expect(mate.mates.length).toBeGreaterThan(0);
      for (const id of [...mate.mates, ...mate.mirrored]) {
        const back = matesOf(garment, garment.panelById.get(id)!);
        expect(back.some((m) => [...m.mates, ...m.mirrored].includes(panel.id))).toBe(true);
      }
    }
  expect(joined).toBeGreaterThan(30);
});

test('a sleeve of a pair names the armhole panels of its own side, and its mirrored copy those of the other', () => {
  const garment = demo();
  const cap = garment.panels.find((p) =>
    matesOf(garment, p).some((m) => m.edgeName === 'sleeve cap' && m.kind === 'joins'),
  )!;
  const { mates, mirrored } = matesOf(garment, cap).find((m) => m.edgeName === 'sleeve cap')!;
  const names = (ids: typeof mates): string[] =>
    ids.map((id) => garment.pieceById.get(garment.panelById.get(id)!.piece)!.whole.name);
  expect(new Set(names(mates))).toEqual(new Set(['front', 'back']));
  expect(new Set(names(mirrored))).toEqual(new Set(['front', 'back']));
  // the front is not alike on both sides below the yoke
  expect(new Set(mates)).not.toEqual(new Set(mirrored));
});

test('mates are said in words: one, several, and what is another panel on the mirrored copy', () => {
  const say = (mates: number[], mirroredMates: number[] | null, edgeName: string | null = null): string =>
    mateWords({ mates, mirroredMates, isSeam: edgeName === null, edgeName });
  expect(say([7], null)).toBe('to 7');
  expect(say([9, 11], [11, 9])).toBe('to 9 and 11');
  expect(say([7], [8])).toBe('to 7, mirrored to 8');
  expect(say([8, 9, 5, 4], [8, 9, 5, 3], 'sleeve cap')).toBe(
    'sleeve cap, to 8, 9, 5 and 4 (mirrored: 3 for 4)',
  );
  expect(say([], null, 'hem')).toBe('hem');
});
