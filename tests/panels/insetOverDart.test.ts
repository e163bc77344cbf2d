import { expect, test } from 'vitest';
import { checkGarment, deriveGarment } from '../../src/garment';
import type { PieceId } from '../../src/pattern';
import { design, panelLine } from '../making/designs';
import { bodice } from '../neighbours/garments';

test('an inset over a dart: what it takes of the wedge counts for it, not for the panel round it', () => {
  const front = bodice('front', { dart: { from: 90, intake: 20 } });
  const [left, top, right, bottom] = [118, 260, 190, 320];
  const inset = panelLine(
    [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
      [left, top],
    ],
    0,
    { piece: 'front' as PieceId, once: true },
  );
  const garment = deriveGarment(design([front], [inset]));
  expect(checkGarment(garment)).toEqual([]);
  const own = garment.panels.find((p) => p.holeRings.length === 0)!;
  // the dart is drawn from (240, 280) and (240, 300) to (110, 286): between its legs it is 20 mm wide times its share of 130 mm
  const wedge = ((right - 110) ** 2 - (left - 110) ** 2) * (20 / 130 / 2);
  expect(own.area).toBeCloseTo((right - left) * (bottom - top) - wedge, 6);
});
