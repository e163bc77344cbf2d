import { expect, test } from 'vitest';
import type { Closing, ClosingId, EdgeAnswer, LineId, Piece, PieceId } from '../../src/pattern';
import type { Path, Pt } from '../../src/geometry';
import { type Step, edgeKey } from '../../src/sewing';
import { lined, piece, rectangle, ringThrough } from '../making/designs';
import { garmentDesign, bodice, line, sleeve } from '../neighbours/garments';
import {
  BACK_AT,
  SLEEVE_AT,
  backLine,
  frontLine,
  handsOf,
  keysOf,
  sewn,
  shirt,
  sleeveLine,
  wanting,
} from './garments';

const LINED = [frontLine('line-1', 300), backLine('line-2', 300), sleeveLine('line-3', 200)];
const CENTRE = 'join back/centre back back/centre back';
const SHOULDERS = 'join front/shoulder back/shoulder';
const SLEEVES = 'join front/armhole sleeve/sleeve cap';
const SIDES = 'join front/side seam back/side seam';
const UNDERARMS = 'join sleeve/underarm seam sleeve/underarm seam';

// Order of a garment: common practice, no source.
test('with flat sleeves: centre seam, shoulders, neckline, sleeves, sides and underarms in one go, hems', () => {
  const { garment, faults } = sewn(shirt(LINED));
  expect(faults).toEqual([]);
  expect(garment.plan.steps.map((s) => s.key)).toEqual([
    'seam line-1',
    'seam line-2',
    'seam line-3',
    CENTRE,
    SHOULDERS,
    'edge front/neckline',
    SLEEVES,
    SIDES,
    'hem front/hem',
    'hem sleeve/hem',
  ]);
  expect(handsOf(garment, SHOULDERS)).toBe('1+2 | 3+4');
  expect(handsOf(garment, SLEEVES)).toBe('1+2+3+4 | 5+6');
  // the side and the underarm close a ring: the panels along either side
  expect(handsOf(garment, SIDES)).toBe('1+2+5+6 | 3+4+5+6');
});

test('sleeves set in wait for sides and underarms, which they go round', () => {
  const { garment, faults } = sewn(wanting(shirt(LINED), { sleeves: 'set in' }));
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  expect(keys.slice(6, 9)).toEqual([SIDES, UNDERARMS, SLEEVES]);
  const { needs } = garment.plan.steps.find((s) => s.key === SLEEVES)!;
  expect(needs.filter((n) => n.because.kind === 'goes round it').map((n) => n.key)).toEqual([
    SIDES,
    UNDERARMS,
  ]);
});

test('a panel seam that reaches an edge is needed by what is sewn along that edge, at the place where it is caught', () => {
  const { garment } = sewn(shirt(LINED));
  const { needs } = garment.plan.steps.find((s) => s.key === SIDES)!;
  const caught = needs.filter((n) => n.because.kind === 'end is caught' && n.key.startsWith('seam'));
  expect(caught.map((n) => n.key)).toEqual(['seam line-1', 'seam line-2', 'seam line-3']);
  expect(caught[0]!.because.at![1]).toBeCloseTo(300, 6);
});

test('every edge that is sewn knows its step; both body sides are one step', () => {
  const { garment } = sewn(shirt(LINED));
  const { steps, stepOfEdge } = garment.plan;
  for (const [piece, works] of garment.neighbours.jobs.edges)
    for (const { edge, job } of works) {
      const step = steps[(stepOfEdge.get(`${piece}/${edge}`) ?? 0) - 1];
      if (job.kind === 'joins') expect(step?.kind).toBe('join');
      if (job.kind === 'hem') expect(step?.kind).toBe('hem');
    }
  const sides = garment.neighbours.jobs.edges.get('front' as never)!.filter((e) => e.role === 'side seam');
  expect(sides).toHaveLength(2);
  expect(new Set(sides.map((e) => stepOfEdge.get(`front/${e.edge}`))).size).toBe(1);
});

// Hidden zips while both edges lie flat, shown ones into the sewn seam: common practice, no source.
test.each([
  ['hidden', ['zip closing-1', CENTRE]],
  ['shown', [CENTRE, 'zip closing-1']],
] as const)('a %s zip in the centre back comes beside its seam and before the neckline', (kind, both) => {
  const zip = {
    id: 'closing-1' as ClosingId,
    kind,
    length: null,
    allowance: null,
    slot: 0,
  } as const;
  const on = { kind: 'edge', piece: 'back' as never, edge: 'centre back', nth: 0 } as const;
  const { garment, faults } = sewn({ ...shirt([backLine('line-2', 300)]), closings: [{ ...zip, on }] });
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  expect(keys.slice(1, 5)).toEqual([...both, SHOULDERS, 'edge front/neckline']);
  const set = garment.plan.steps.find((s) => s.kind === 'zip')!;
  expect(set.text).toBe('Set the zip into the centre back: 1+2 to the other half.');
  const neck = garment.plan.steps.find((s) => s.key === 'edge front/neckline')!;
  expect(neck.needs.map((n) => n.key)).toContain('zip closing-1');
  const seam = garment.plan.steps.find((s) => s.key === CENTRE)!;
  expect(garment.plan.stepOfEdge.get(edgeKey(seam.edges[0]!))).toBe(seam.step);
});

test('an edge whose job is a zip gets the zip first, then the seam below it is sewn', () => {
  const job = { piece: 'back' as never, edge: 'centre back', job: { kind: 'zip' } } as const;
  const { garment, faults } = sewn({ ...shirt(), edgeJobs: [job] });
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  expect(keys.slice(0, 2)).toEqual(['zip back/centre back', CENTRE]);
});

test('a zip in a panel line follows its seam and comes before the edges it reaches', () => {
  const down = line('line-1', 'back', [
    [BACK_AT[0] + 60, -10],
    [BACK_AT[0] + 60, 600],
  ]);
  const on = { kind: 'line', line: 'line-1' as LineId } as const;
  const closing: Closing = {
    id: 'closing-1' as ClosingId,
    kind: 'shown',
    ...{ on, length: null, allowance: null, slot: 8 },
  };
  const { garment, faults } = sewn({ ...shirt([down]), closings: [closing] });
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  expect(keys.indexOf('zip closing-1')).toBe(keys.indexOf('seam line-1') + 1);
  const hem = garment.plan.steps.find((s) => s.key === 'hem front/hem')!;
  expect(hem.needs.map((n) => n.key)).toContain('zip closing-1');
});

test('without sleeves armholes are finished flat before the sides, or round after them', () => {
  const vest = garmentDesign([bodice('front'), bodice('back', { at: BACK_AT }, { onFold: false })]);
  const flat = keysOf(vest);
  const armhole = 'edge front/armhole';
  expect(flat.indexOf(armhole)).toBeLessThan(flat.indexOf(SIDES));
  const round = keysOf(wanting(vest, { sleeves: 'set in' }));
  expect(round.indexOf(armhole)).toBeGreaterThan(round.indexOf(SIDES));
  expect(sewn(vest).faults).toEqual([]);
  expect(sewn(wanting(vest, { sleeves: 'set in' })).faults).toEqual([]);
});

test('without a shoulder seam a sleeve is sewn to front and back in a step each', () => {
  const noShoulder = bodice('back', { at: BACK_AT }, { onFold: false });
  const back = {
    ...noShoulder,
    edgeNames: noShoulder.edgeNames.map((e) => (e.name === 'shoulder' ? { ...e, name: 'top' } : e)),
  };
  const { garment, faults } = sewn(garmentDesign([bodice('front'), back, sleeve(SLEEVE_AT)]));
  expect(faults).toEqual([]);
  expect(garment.plan.steps.filter((s) => s.key.endsWith('sleeve/sleeve cap'))).toHaveLength(2);
});

test('bands in the round: the seams they cross are sewn in parts above and below, then the band all round', () => {
  const bands = [frontLine('line-1', 500), backLine('line-2', 500), sleeveLine('line-3', 250)];
  const round = bands.map((l) => l.id);
  const { garment, faults } = sewn(wanting(shirt(bands), { inTheRound: round }));
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  expect(keys.slice(0, 2)).toEqual([CENTRE, `${CENTRE} #2`]);
  const at = (key: string): number => keys.indexOf(key);
  for (const part of [SIDES, `${SIDES} #2`, `${SIDES} #3`])
    expect(at('seam line-1')).toBeGreaterThan(at(part));
  expect(at('seam line-3')).toBeGreaterThan(at(`${SIDES} #3`));
  expect(at('hem front/hem')).toBeGreaterThan(at('seam line-1'));
  // front and back of the band are one seam
  const band = garment.plan.steps[at('seam line-1')]!;
  expect(band.seams).toHaveLength(2);
  expect(keys).not.toContain('seam line-2');
  expect(band.piece).toBeNull();
});

test('a line in the round that does not go on over the side seam is sewn flat', () => {
  const design = wanting(shirt([frontLine('line-1', 500)]), { inTheRound: ['line-1' as LineId] });
  const { garment, faults } = sewn(design);
  expect(faults).toEqual([]);
  expect(garment.plan.steps[0]!.key).toBe('seam line-1');
  expect(garment.problems.map((p) => p.code)).toContain('round-sewn-flat');
});

test('a band runs through where another line crosses it, so that it can be sewn in the round', () => {
  const crossing = line('line-0', 'front', [
    [120, 60],
    [120, 700],
  ]);
  const bands = [crossing, frontLine('line-1', 500), backLine('line-2', 500)];
  const design = wanting(shirt(bands), { inTheRound: ['line-1', 'line-2'] as LineId[] });
  const { garment, faults } = sewn(design);
  expect(faults).toEqual([]);
  const band = garment.plan.steps.find((s) => s.key === 'seam line-1')!;
  // three seams on the opened-out front, one on the back
  expect(band.seams).toHaveLength(4);
});

test('a piece in parts is made whole before its shoulders and sides', () => {
  const whole = bodice('front', { width: 240 }, { onFold: false });
  const parts = ['front', 'side front'].map((name, i) => ({
    ...whole,
    ...{ id: name as PieceId, name },
    edgeNames: whole.edgeNames.map((e) =>
      // the front has its centre and a long seam where the side front has its own: neither is a name of the trade
      e.name === (i === 0 ? 'side seam' : 'centre front') ? { ...e, name: 'long seam' } : e,
    ),
  }));
  const answers: EdgeAnswer[] = [
    {
      piece: 'front' as PieceId,
      edge: 'long seam',
      job: { kind: 'joins', piece: 'side front' as PieceId, edge: 'long seam' },
    },
  ];
  const { garment, faults } = sewn(
    garmentDesign([...parts, bodice('back', { at: BACK_AT }, { onFold: false })], [], { edgeJobs: answers }),
  );
  expect(faults).toEqual([]);
  const keys = garment.plan.steps.map((s) => s.key);
  const long = keys.indexOf('join front/long seam side front/long seam');
  expect(long).toBeGreaterThanOrEqual(0);
  for (const [i, key] of keys.entries())
    if (key.includes('shoulder') || key.includes('armhole') || key.includes('side seam'))
      expect(i).toBeGreaterThan(long);
});

test('a corner that has to be set in is told where it is, with the panel that is clipped', () => {
  const corner: Pt[] = [
    [0, 150],
    [150, 150],
    [150, 300],
  ];
  const { garment, faults } = sewn(lined(rectangle(300, 300), [corner]));
  expect(faults).toEqual([]);
  const [told] = garment.problems.filter((p) => p.code === 'corner-set-in');
  expect(told).toMatchObject({ at: [150, 150], piece: 'front', facts: { turn: 90 } });
  const [{ corners }] = garment.plan.steps as [Step];
  const clipped = garment.panelById.get(corners[0]!.clip)!;
  // the larger panel, into which the corner points
  expect(clipped.area).toBeCloseTo(300 * 300 - 150 * 150, 3);
});

/** Half a pair of trousers, front or back: waist, side, hem, inside leg, crotch. */
function trouserLeg(name: string, x: number): Piece {
  const corners: Pt[] = [
    [x, 0],
    [x + 220, 0],
    [x + 240, 1000],
    [x + 20, 1000],
    [x - 60, 280],
  ];
  const names = ['waist', 'side seam', 'hem', 'inside leg', 'crotch'];
  const edgeNames = names.map((edge, i) => ({
    name: edge,
    path: [[corners[i]!, corners[(i + 1) % corners.length]!]] as Path,
  }));
  return piece(ringThrough(corners), { id: name as PieceId, name, cutting: 'pair', edgeNames });
}

// Common practice, no source.
test('trousers: crotch seams, sides, inside legs in one go over the crotch, waist, hems', () => {
  const { garment, faults } = sewn(garmentDesign([trouserLeg('front', 0), trouserLeg('back', 500)]));
  expect(faults).toEqual([]);
  expect(garment.plan.steps.map((s) => s.text.split(':')[0])).toEqual([
    'Sew the crotch',
    'Sew the crotch',
    'Sew both side seams',
    'Sew both inside legs',
    'Finish the waist of 1+2.',
    'Turn up and sew the hem of 1+2.',
  ]);
});
