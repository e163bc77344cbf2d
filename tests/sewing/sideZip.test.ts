import { expect, test } from 'vitest';
import type { PieceId } from '../../src/pattern';
import { bodice, garmentDesign } from '../neighbours/garments';
import { BACK_AT, sewn, wanting } from './garments';

test.each(['flat', 'set in'] as const)(
  'without sleeves a zip in the side seam and the armholes do not wait for each other (%s)',
  (sleeves) => {
    const pieces = [bodice('front'), bodice('back', { at: BACK_AT })];
    const zip = { piece: 'back' as PieceId, edge: 'side seam', job: { kind: 'zip' } } as const;
    const { garment, faults } = sewn(wanting(garmentDesign(pieces, [], { edgeJobs: [zip] }), { sleeves }));
    expect(faults).toEqual([]);
    const keys = garment.plan.steps.map((s) => s.key);
    const [armhole, zipper] = [
      keys.findIndex((k) => k.endsWith('/armhole')),
      keys.indexOf('zip back/side seam'),
    ];
    expect(armhole < zipper).toBe(sleeves === 'flat');
  },
);
