import { expect, test } from 'vitest';
import { checkGarment, deriveGarment } from '../../src/garment';
import { renameEdge } from '../../src/lines';
import type { Design, PieceId } from '../../src/pattern';
import { HALF } from '../workbench/pieces';
import { bodice, garmentDesign, line, opened } from './garments';

test('the edge that is called by a number gets the name, not another one', () => {
  const before = opened(HALF);
  for (const edge of before.edges.filter((e) => !e.mirrored)) {
    const design = renameEdge(garmentDesign([HALF]), HALF.id, edge.plainName, 'frill');
    const after = opened(design.pieces[0]!);
    const named = after.edges.filter((e) => e.plainName === 'frill');
    expect(named.reduce((sum, e) => sum + e.length, 0)).toBeCloseTo(
      before.edges.filter((e) => e.plainName === edge.plainName).reduce((sum, e) => sum + e.length, 0),
      6,
    );
    expect(named[0]!.naming).toBe('traced');
  }
});

test('ties and jobs follow a renamed edge; lines do not move', () => {
  const front = bodice('front');
  const back = bodice('back', { at: [900, 0] }, { onFold: false });
  const tied = line(
    'line-1',
    'front',
    [
      [0, 400],
      [235, 400],
    ],
    {
      ties: {
        nodes: [
          null,
          {
            kind: 'edge',
            name: 'side seam',
            nth: 0,
            along: 'edge',
            reach: {
              kind: 'from',
              base: { kind: 'edge end', name: 'side seam', nth: 0, end: 'first' },
              by: 210,
            },
          },
        ],
        run: { kind: 'square', until: { kind: 'centre' } },
      },
    },
  );
  const design: Design = {
    ...garmentDesign([front, back], [tied]),
    edgeJobs: [
      { piece: back.id, edge: 'side seam', job: { kind: 'joins', piece: front.id, edge: 'side seam' } },
    ],
  };
  const renamed = renameEdge(design, front.id, 'side seam', 'flank');
  expect(JSON.stringify(renamed.lines[0]!.ties)).not.toContain('side seam');
  expect(renamed.edgeJobs[0]!.job).toEqual({ kind: 'joins', piece: front.id, edge: 'flank' });
  const garment = deriveGarment(renamed);
  expect(garment.neighbours.seams.map((s) => s.a)).toContain('front/flank');
  expect(garment.problems.map((p) => p.code)).not.toContain('tie-lost');
});

test('a name that is empty, the same, or for no edge changes nothing', () => {
  const design = garmentDesign([bodice('front')]);
  for (const [edge, name] of [
    ['hem', ' '],
    ['hem', 'hem'],
    ['collar', 'hem'],
  ] as const)
    expect(renameEdge(design, 'front' as PieceId, edge, name)).toBe(design);
});

test('what is wanted of the sewing order goes along with a renamed edge', () => {
  const back = bodice('back', { at: [900, 0] }, { onFold: false });
  const order = [
    { earlier: 'join front/side seam back/side seam #2', later: 'join front/shoulder back/shoulder' },
    { earlier: 'hem front/hem', later: 'zip front/side seam' },
    { earlier: 'hem back/hem', later: 'seam line-1 #2' },
  ];
  const start = garmentDesign([bodice('front'), back]);
  const design: Design = { ...start, sewing: { ...start.sewing, order } };
  const renamed = renameEdge(design, 'front' as PieceId, 'side seam', 'side');
  expect(renamed.sewing.order).toEqual([
    { earlier: 'join front/side back/side seam #2', later: 'join front/shoulder back/shoulder' },
    { earlier: 'hem front/hem', later: 'zip front/side' },
    { earlier: 'hem back/hem', later: 'seam line-1 #2' },
  ]);
  expect(renameEdge(renamed, 'front' as PieceId, 'side', 'side seam').sewing.order).toEqual(order);
});

test('an edge given the name of another has one width, one facing and one job with it', () => {
  const start = garmentDesign([bodice('front')]);
  const front = 'front' as PieceId;
  const edges = ['neckline', 'armhole'] as const;
  const design: Design = {
    ...start,
    allowances: { ...start.allowances, edges: edges.map((edge) => ({ piece: front, edge, width: 8 })) },
    facings: edges.map((edge) => ({
      piece: front,
      edge,
      depth: 50,
      colour: start.colours[0]!.id,
      interfacing: null,
    })),
    edgeJobs: edges.map((edge) => ({ piece: front, edge, job: { kind: 'bound' } })),
  };
  const renamed = renameEdge(design, front, 'armhole', 'neckline');
  expect(renamed.allowances.edges).toHaveLength(1);
  expect(renamed.facings).toHaveLength(1);
  expect(renamed.edgeJobs).toHaveLength(1);
  expect(checkGarment(deriveGarment(renamed))).toEqual([]);
});
