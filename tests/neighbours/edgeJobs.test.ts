import { expect, test } from 'vitest';
import type { Curve } from '../../src/geometry';
import { type EdgeJobs, edgeJobs } from '../../src/neighbours';
import type { EdgeAnswer, EdgeJob, PieceId, WholePiece } from '../../src/pattern';
import { piece, rectangle } from '../making/designs';
import { bezier, bodice, notch, opened, sleeve } from './garments';

const said = (whole: WholePiece, jobs: EdgeJobs): string[] =>
  jobs.edges.get(whole.piece.id)!.map((w) => {
    const to = w.joined.map((j) => `${j.piece}`).join('+');
    return `${w.name}: ${w.job.kind}${to ? ` ${to}` : ''}${w.isSure ? '' : '?'}`;
  });

const answer = (on: string, edge: string, job: EdgeJob): EdgeAnswer => ({ piece: on as PieceId, edge, job });
const joinNames = (wholes: readonly WholePiece[], jobs: EdgeJobs): string[] =>
  jobs.joins.map(({ a, b }) =>
    [a, b]
      .map((s) => `${s.piece}/${wholes.find((w) => w.piece.id === s.piece)!.edges[s.edge]!.name}`)
      .join(' ~ '),
  );

const front = opened(bodice('front'));
const back = opened(bodice('back', { width: 230, at: [900, 0] }, { onFold: false }));
const arm = opened(sleeve([2000, 200]));

test('front, back and sleeve are joined as a garment is', () => {
  const jobs = edgeJobs([front, back, arm], []);
  expect(said(front, jobs).toSorted()).toEqual(
    [
      'armhole, mirrored: joins sleeve',
      'armhole: joins sleeve',
      'hem: hem',
      'neckline: left',
      'shoulder, mirrored: joins back',
      'shoulder: joins back',
      'side seam, mirrored: joins back',
      'side seam: joins back',
    ].toSorted(),
  );
  expect(said(back, jobs)).toContain('side seam: joins front+front');
  expect(said(back, jobs)).toContain('centre back: joins back');
  expect(said(arm, jobs)).toContain('sleeve cap: joins front+front+back');
  expect(said(arm, jobs).filter((s) => s.startsWith('underarm'))).toEqual([
    'underarm seam: joins sleeve',
    'underarm seam: joins sleeve',
  ]);
});

test('two pieces on the fold are joined on the same side of the body: a front’s left edge lies right on the drawing', () => {
  const onFold = opened(bodice('back', { at: [900, 0] }));
  expect(joinNames([front, onFold], edgeJobs([front, onFold], []))).toContain(
    'front/side seam ~ back/side seam, mirrored',
  );
  // Traced from the other half, the back's drawn edge is the wearer's left.
  const other = opened(bodice('back', { at: [900, 0], isRight: false }));
  expect(joinNames([front, other], edgeJobs([front, other], []))).toContain(
    'front/side seam ~ back/side seam',
  );
});

test('a cap is divided at its shoulder notch, and the double notch is the back’s', () => {
  const plainSleeve = sleeve([2000, 200]);
  const [left, right] = plainSleeve.edgeNames[0]!.path as [Curve, Curve];
  const marks = [bezier(left, 1), bezier(left, 0.5), bezier(left, 0.53), bezier(right, 0.5)];
  const marked = opened({ ...plainSleeve, notches: marks.map(notch) });
  const { joins } = edgeJobs([front, back, marked], []);
  const caps = joins.filter((j) => j.role === 'armhole');
  const frontCap = caps.find((j) => j.a.piece === front.piece.id)!;
  const backCap = caps.find((j) => j.a.piece === back.piece.id)!;
  // The front is the side without the double notch: the drawing's right, later in ring order than the left half.
  expect(frontCap.b.from).toBeCloseTo(backCap.b.to, 6);
  expect(backCap.b.from).toBe(0);
  const mirror = opened({ ...plainSleeve, notches: [bezier(left, 1), bezier(left, 0.5)].map(notch) });
  expect(edgeJobs([front, back, mirror], []).joins.filter((x) => x.role === 'armhole')).toHaveLength(3);
});

test('an answer wins on both sides, and an edge it leaves alone gets its other default', () => {
  const jobs = edgeJobs([front, back], [answer('front', 'side seam', { kind: 'bound' })]);
  expect(said(front, jobs)).toContain('side seam: bound');
  expect(said(back, jobs)).toContain('side seam: left');
  expect(jobs.edges.get(front.piece.id)!.find((w) => w.name === 'side seam')!.isAnswered).toBe(true);
});

test('an edge closed by a zip is still sewn to its like, below the stop', () => {
  const plain = edgeJobs([front, back], []);
  const side = edgeJobs([front, back], [answer('front', 'side seam', { kind: 'zip' })]);
  expect(said(front, side)).toContain('side seam: zip back');
  expect(said(back, side)).toContain('side seam: joins front+front');
  expect(side.joins).toEqual(plain.joins);
  const centre = edgeJobs([front, back], [answer('back', 'centre back', { kind: 'zip' })]);
  expect(said(back, centre)).toContain('centre back: zip back');
  expect(centre.joins).toHaveLength(plain.joins.length);
});

test('an edge named as a zip’s joins its like on its piece, or its other copy', () => {
  const named = piece(rectangle(200, 300), {
    name: 'back',
    cutting: 'pair',
    edgeNames: [{ name: 'zip', path: [rectangle(200, 300)[3]!] }],
  });
  const whole = opened(named);
  expect(said(whole, edgeJobs([whole], []))).toContain('zip: zip back');
  const once = opened({ ...named, cutting: 'once' });
  expect(said(once, edgeJobs([once], []))).toContain('zip: zip');
});

test('an answer can join edges whose names say nothing', () => {
  const a = opened(piece(rectangle(200, 300), { name: 'panel', id: 'panel' as PieceId }));
  const b = opened(piece(rectangle(100, 300, [400, 0]), { name: 'gusset', id: 'gusset' as PieceId }));
  expect(edgeJobs([a, b], []).joins).toEqual([]);
  const jobs = edgeJobs(
    [a, b],
    [answer('panel', 'edge 2', { kind: 'joins', piece: 'gusset' as PieceId, edge: 'edge 4' })],
  );
  expect(joinNames([a, b], jobs)).toEqual(['panel/edge 2 ~ gusset/edge 4']);
  expect(said(b, jobs)).toEqual(['edge 1: left?', 'edge 2: left?', 'edge 3: left?', 'edge 4: joins panel']);
});

test('an answer that names an edge which is gone leaves a question, not a seam', () => {
  const jobs = edgeJobs(
    [front, back],
    [answer('front', 'neckline', { kind: 'joins', piece: 'collar' as PieceId, edge: 'stand' })],
  );
  const neckline = jobs.edges.get(front.piece.id)!.find((w) => w.name === 'neckline')!;
  expect([neckline.isAnswered, neckline.isSure, neckline.job.kind]).toEqual([false, false, 'left']);
});

test('lining goes with lining', () => {
  const pieces = ['front', 'back', 'lining front', 'lining back'].map((n, i) =>
    opened(bodice(n, { at: [i * 900, 0] })),
  );
  const names = joinNames(pieces, edgeJobs(pieces, []));
  expect(names.filter((n) => n.includes('side seam'))).toHaveLength(4);
  expect(
    names.every((n) => n.split(' ~ ')[0]!.includes('lining') === n.split(' ~ ')[1]!.includes('lining')),
  ).toBe(true);
});

test('edges nobody named are named by shape when the whole piece fits, and only then', () => {
  const bare = opened(bodice('front', { dart: { from: 70, intake: 24 } }, { named: false }));
  expect([...new Set(bare.edges.map((e) => e.plainName))].toSorted()).toEqual(
    ['armhole', 'hem', 'neckline', 'shoulder', 'side seam'].toSorted(),
  );
  expect(bare.edges.every((e) => e.naming === 'proposed')).toBe(true);
  const half = opened(bodice('back', {}, { named: false, onFold: false }));
  expect(half.edges.map((e) => e.plainName)).toContain('centre back');
  const bareSleeve = opened(sleeve([0, 0], { named: false }));
  expect(bareSleeve.edges.map((e) => e.plainName).toSorted()).toEqual(
    ['hem', 'sleeve cap', 'underarm seam', 'underarm seam'].toSorted(),
  );
  const box = opened(piece(rectangle(200, 300)));
  expect(box.edges.map((e) => [e.plainName, e.naming])).toEqual(
    [1, 2, 3, 4].map((n) => [`edge ${n}`, 'numbered']),
  );
});

test('proposed names and traced ones can stand side by side', () => {
  const whole = bodice('front');
  const some = opened({ ...whole, edgeNames: whole.edgeNames.filter((e) => e.name !== 'shoulder') });
  expect(some.edges.find((e) => e.name === 'shoulder')!.naming).toBe('proposed');
  expect(some.edges.find((e) => e.name === 'armhole')!.naming).toBe('traced');
});

test('a side seam whose dart makes corners at its mouth is one edge all the same', () => {
  const numbers = { dart: { from: 70, intake: 30 } };
  const plain = bodice('front', numbers, { named: false });
  // The mouth as it is cut for a dart folded downwards: out to a tip, and back.
  const mouth = plain.darts[0]!.kind === 'single' ? plain.darts[0]!.mouth : null;
  const outline = plain.outline.flatMap((c): Curve[] => {
    const isMouth =
      c.length === 2 && Math.abs(c[0][1] - mouth![0][1]) + Math.abs(c[1][1] - mouth![1][1]) < 1e-6;
    const tip = [mouth![0][0] + 9, mouth![0][1] + 11] as const;
    return isMouth
      ? [
          [c[0], tip],
          [tip, c[1]],
        ]
      : [c];
  });
  const cornered = opened({ ...plain, outline });
  const straight = opened(plain);
  expect(cornered.edges.map((e) => e.name)).toEqual(straight.edges.map((e) => e.name));
  const lengthOf = (w: WholePiece): number => w.edges.find((e) => e.name === 'side seam')!.length;
  expect(Math.abs(lengthOf(cornered) - lengthOf(straight))).toBeLessThan(0.01);
});
