import { expect, test } from 'vitest';
import { deriveGarment } from '../../src/garment';
import { pathLength } from '../../src/geometry';
import { panelOnPaper } from '../../src/paper/panelOnPaper';
import type { PieceId, Trim } from '../../src/pattern';
import { designOf, line, straight, trim } from '../trim/trimmedDesign';

const free: Trim = {
  ...trim('braid', 'none'),
  on: { kind: 'path', piece: 'front' as PieceId, path: straight([120, 0], [220, 600]), once: true },
};
const cut = line('hip', straight([0, 300], [400, 300]));

test('the middle of a trim without a seam is printed on every panel it runs over, and nowhere twice', () => {
  for (const turned of [false, true]) {
    const garment = deriveGarment(designOf([cut], [free]));
    const printed = garment.panels.map((_, i) => panelOnPaper(garment, i, turned).trims);
    expect(printed.map((t) => t.map((one) => one.name))).toEqual([['middle of braid'], ['middle of braid']]);
    const length = printed
      .flat(2)
      .reduce((sum, t) => sum + t.paths.reduce((l, p) => l + pathLength(p), 0), 0);
    expect(length).toBeCloseTo(Math.hypot(100, 600), 3);
  }
});

test('a trim on a panel line is not printed: the seam shows where it lies', () => {
  const garment = deriveGarment(designOf([cut], [trim('braid', 'hip')]));
  expect(panelOnPaper(garment, 0, false).trims).toEqual([]);
});
