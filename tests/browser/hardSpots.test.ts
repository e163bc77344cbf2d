/** Lines drawn in a ring round a panel: the spot that cannot be sewn whole is shown while drawing, and its button mends it. */
import { afterAll, expect, test } from 'vitest';
import { closeBrowser, openBench } from './bench';
import { DEMO, dragMouse, fact, screenOf } from './onTable';

afterAll(closeBrowser);

test('four lines round a panel: the last one is told to leave a seam open, and is extended at a press', async () => {
  const { page, faults, close } = await openBench();
  await page.getByLabel('Mirror new lines').uncheck();
  const at = await screenOf(page, DEMO);
  // In the front between hip and hem line: each line ends on the next one. The demo's front is 1:1 in mm, hip at 685, line at 920.
  const strokes = [
    [40, 880, 420, 880],
    [240, 685, 240, 880],
    [580, 760, 240, 760],
    [420, 920, 420, 760],
  ] as const;
  const slip = page.locator('.cure-slip');
  for (const [x0, y0, x1, y1] of strokes) {
    expect(await slip.filter({ hasText: 'left partly open' }).count()).toBe(0);
    await dragMouse(page, at('front', [x0, y0]), at('front', [x1, y1]));
    await page.keyboard.press('Escape');
  }
  await slip.getByText('A seam has to be left partly open here and finished later').waitFor();
  expect(await fact(page, 'Paper')).toBe('16 panels');
  await slip
    .getByRole('button', { name: /^Extend/ })
    .first()
    .click();
  await slip.waitFor({ state: 'detached' });
  expect(await fact(page, 'Lines')).toBe('13 lines');
  expect(await fact(page, 'Paper')).toBe('17 panels');
  await page.getByRole('button', { name: 'Undo' }).click();
  await slip.getByText('A seam has to be left partly open here and finished later').waitFor();
  expect(faults).toEqual([]);
  await close();
}, 60_000);
