import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { edgeJobs, wordsOfPiece } from '../../src/neighbours';
import type { Design, EdgeAnswer, EdgeAllowance } from '../../src/pattern';
import { bodice, garmentDesign, opened, sleeve } from './garments';

const bare = bodice('front', {}, { named: false });
const named = bodice('front');

/** Allowance printed at each edge of the only panel, by name. */
function widths(
  piece: typeof bare,
  edges: readonly Omit<EdgeAllowance, 'piece'>[] = [],
  jobs: readonly Omit<EdgeAnswer, 'piece'>[] = [],
): Record<string, number> {
  const start = garmentDesign([piece]);
  const design: Design = {
    ...start,
    allowances: { ...start.allowances, edges: edges.map((e) => ({ ...e, piece: piece.id })) },
    edgeJobs: jobs.map((j) => ({ ...j, piece: piece.id })),
  };
  const [cut] = deriveGarment(design).cutPieces;
  return Object.fromEntries(cut!.edgeLabels.map((l) => [l.edgeName!, l.allowance]));
}

test('a hem named by its shape gets the hem’s width, other edges the outer one', () => {
  for (const piece of [bare, named]) {
    const found = widths(piece);
    expect(found['hem']).toBe(40);
    expect(found['side seam, mirrored']).toBe(15);
    expect(found['neckline']).toBe(15);
  }
});

test('jobs give widths: nothing where cloth is bound or folded, a zip’s own at a zip, the hem’s at a hem', () => {
  const found = widths(
    named,
    [],
    [
      { edge: 'neckline', job: { kind: 'bound' } },
      { edge: 'shoulder', job: { kind: 'zip' } },
      { edge: 'armhole', job: { kind: 'hem' } },
      { edge: 'hem', job: { kind: 'left' } },
    ],
  );
  expect(found['neckline']).toBe(0);
  expect(found['shoulder']).toBe(20);
  expect(found['armhole, mirrored']).toBe(40);
  expect(found['hem']).toBe(15);
});

test('a width by hand wins over the job', () => {
  const bound = [{ edge: 'neckline', job: { kind: 'bound' } }] as const;
  expect(widths(named, [{ edge: 'neckline', width: 6 }], bound)['neckline']).toBe(6);
});

test('a width kept under the number an edge had before it was named still counts', () => {
  const hem = opened(bare).edges.find((e) => e.plainName === 'hem')!;
  expect(hem.numbered).toMatch(/^edge \d$/);
  expect(widths(bare, [{ edge: hem.numbered!, width: 33 }])['hem']).toBe(33);
});

test('an answer kept under a number still counts too', () => {
  const whole = opened(bare);
  const neckline = whole.edges.find((e) => e.plainName === 'neckline')!;
  const { edges } = edgeJobs([whole], [{ piece: bare.id, edge: neckline.numbered!, job: { kind: 'bound' } }]);
  expect(edges.get(bare.id)!.find((w) => w.plainName === 'neckline')!.job.kind).toBe('bound');
});

test('names of pieces are read with their counters and punctuation', () => {
  expect(wordsOfPiece('Front_2')).toEqual({ part: 'front', side: null, rest: '' });
  expect(wordsOfPiece('lining: left back')).toEqual({ part: 'back', side: 'left', rest: 'lining' });
  expect(wordsOfPiece('gusset')).toEqual({ part: null, side: null, rest: 'gusset' });
});

test('a cap finds its armholes when only one of the two pieces is called by its place', () => {
  const pieces = [
    opened(bodice('main part')),
    opened(bodice('back', { at: [900, 0] })),
    opened(sleeve([2000, 200])),
  ];
  const caps = edgeJobs(pieces, []).joins.filter((j) => j.role === 'armhole');
  expect(caps.map((j) => j.a.piece).toSorted()).toEqual(['back', 'back', 'main part', 'main part']);
});
