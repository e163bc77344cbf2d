import { expect, test } from 'vitest';
import { type Pt, boxOfPoints, flattenPath, flattenRing, isInRing } from '../../src/geometry';
import { dartLegs } from '../../src/pattern';
import { drawPanel } from '../../src/paper/drawPanel';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { GRAIN_LINE } from '../../src/paper/ink';
import { openPen } from '../../src/paper/pen';
import { DEMO, garmentFrom } from '../browser/onTable';

const demo = garmentFrom(DEMO);

test('no grain arrow stands in a dart, where it would look like the dart’s middle', async () => {
  const { lettering } = await openPen(await fontsFromDisk(), 'test');
  let darts = 0;
  demo.panels.forEach((panel, index) => {
    const drawn = drawPanel(demo, index, false, lettering);
    const arrow = drawn.marks.find(
      (m) =>
        m.kind === 'path' &&
        m.stroke?.width === GRAIN_LINE.width &&
        m.stroke.colour === GRAIN_LINE.colour &&
        m.stroke.dash === undefined &&
        m.paths.length === 1 &&
        m.paths[0]!.length === 1,
    );
    if (arrow?.kind !== 'path') throw new Error(`panel ${index + 1} has no grain arrow`);
    const [a, b] = arrow.paths[0]![0] as readonly [Pt, Pt];
    const box = boxOfPoints(flattenRing(demo.cutPieces[index]!.cutting));
    for (const dart of panel.darts) {
      darts += 1;
      // the drawing has its corner at the cutting line's
      const ring = flattenPath(dartLegs(dart), 0.1).points.map(([x, y]): Pt => [x - box.minX, y - box.minY]);
      for (const t of [0.1, 0.3, 0.5, 0.7, 0.9])
        expect(isInRing([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t], ring)).toBe(false);
    }
  });
  expect(darts).toBeGreaterThan(3);
});
