import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, expect, test } from 'vitest';
import { openDesign } from '../../src/files';
import { checkGarment, deriveGarment, type Garment } from '../../src/garment';
import { LAPTOP, TABLET, closeBrowser, openBench, takePicture } from './bench';
import { DEMO, dragMouse, fact, go, screenOf } from './onTable';

afterAll(closeBrowser);

/** The traced bust dart's point on the demo front, and a vertical line ten millimetres beside it. */
const POINT = [427.38, 306.187] as const;
const BESIDE = POINT[0] + 10;

/** The design on the table, worked out anew from the file that the bench gives. */
async function saved(page: Page): Promise<Garment> {
  await go(page, 'Paper');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'This design' }).click(),
  ]);
  const opened = openDesign(readFileSync(await download.path()), 'saved.json');
  if (!opened.ok) throw new Error('the bench gave an unsound design');
  return deriveGarment(opened.value);
}

/** The dart is gone on both sides, its seams curve and agree, and the grain runs as on the piece. */
function expectCured(garment: Garment): void {
  expect(checkGarment(garment)).toEqual([]);
  const front = garment.pieces.find(({ whole }) => whole.name === 'front')!;
  expect(front.panels.flatMap((p) => p.darts.filter((d) => d.traced === 0))).toEqual([]);
  const closed = front.panels.filter((p) => p.closings.some((c) => c.how === 'closed'));
  expect(closed).toHaveLength(2);
  const newest = garment.design.lines.at(-1)!.id;
  const seams = front.seams.filter((s) => s.line.line === newest);
  expect(seams.length).toBeGreaterThanOrEqual(2);
  for (const seam of seams) expect(seam.lengthA).toBeCloseTo(seam.lengthB, 4);
  expect(seams.some((s) => s.path.some((c) => c.length === 4))).toBe(true);
  for (const panel of closed) {
    const cut = garment.cutPieces.find((c) => c.panel === panel.id)!;
    expect(Math.abs(cut.grainAngle)).toBeCloseTo(90, 6);
  }
}

const cure = (page: Page) => page.getByRole('button', { name: 'Take the dart into the line' });

test('by mouse: a line drawn beside the bust point takes the dart into its seam', async () => {
  const { page, close, faults } = await openBench(LAPTOP);
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('front', [BESIDE, 60]), at('front', [BESIDE, 1051]));
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  await takePicture(page, 'dart-offer');
  await cure(page).click();
  await expect.poll(() => cure(page).count()).toBe(0);
  await takePicture(page, 'dart-taken');
  expectCured(await saved(page));
  expect(faults).toEqual([]);
  await close();
});

test('by touch: two taps draw the line, a third takes the dart', async () => {
  const { page, close, faults } = await openBench(TABLET);
  const at = await screenOf(page, DEMO);
  await page.touchscreen.tap(...at('front', [BESIDE, 60]));
  await page.touchscreen.tap(...at('front', [BESIDE, 1051]));
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  await cure(page).tap();
  await expect.poll(() => cure(page).count()).toBe(0);
  expectCured(await saved(page));
  expect(faults).toEqual([]);
  await close();
});

test('by keys alone: the line is drawn by measure, and the dart goes into it', async () => {
  const { page, close, faults } = await openBench(LAPTOP);
  await page.locator('canvas').focus();
  await page.keyboard.press('l');
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('SELECT');
  await page.keyboard.press('Tab');
  await page.keyboard.type('with');
  await page.keyboard.press('Tab');
  await page.keyboard.type('13.7');
  await page.keyboard.press('Enter');
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  const isReached = (): Promise<boolean> =>
    cure(page).evaluateAll((all) => all.some((button) => button === document.activeElement));
  for (let tabs = 0; tabs < 120 && !(await isReached()); tabs += 1) await page.keyboard.press('Tab');
  expect(await isReached()).toBe(true);
  await page.keyboard.press('Enter');
  await expect.poll(() => cure(page).count()).toBe(0);
  expectCured(await saved(page));
  expect(faults).toEqual([]);
  await close();
});

test('the list of darts shows each choice on the table before it is done, by keys alone', async () => {
  const { page, close, faults } = await openBench(LAPTOP);
  await page.locator('#darts').scrollIntoViewIfNeeded();
  const row = page.locator('#darts .row-button').first();
  await row.focus();
  await page.keyboard.press('Enter');
  const keep = page.getByRole('radio', { name: /Keep it as a dart/ });
  await keep.focus();
  expect(await keep.isChecked()).toBe(true);
  await page.keyboard.press('ArrowDown');
  const swing = page.getByRole('radio', { name: /Swing it to the/ });
  await expect.poll(() => swing.isChecked()).toBe(true);
  await takePicture(page, 'dart-preview');
  expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
  await page.getByRole('button', { name: 'Do this' }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(false);
  const garment = await saved(page);
  expect(checkGarment(garment)).toEqual([]);
  expect(garment.design.pieces[0]!.darts[0]!.treatment.kind).toBe('swing');
  expect(faults).toEqual([]);
  await close();
});

test('a line drawn over a dart shown folded shut meets both its legs equally far from the point', async () => {
  const { page, close, faults } = await openBench(LAPTOP);
  await page.locator('#darts').scrollIntoViewIfNeeded();
  await page.locator('#darts .row-button').first().click();
  await page.getByLabel('Show it folded shut').check();
  await takePicture(page, 'dart-shut');
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('front', [500, 300]), at('front', [500, 684]));
  await expect.poll(() => fact(page, 'Lines')).toMatch(/^10 lines/);
  await takePicture(page, 'dart-shut-line');
  const garment = await saved(page);
  const line = garment.design.lines.at(-1)!;
  const { whole } = garment.pieces[0]!;
  const dart = whole.darts.find((d) => d.traced === 0 && !d.mirrored)!;
  const away = line.path
    .flatMap((c) => [c[0], c.at(-1)!])
    .filter(([x, y]) => dart.kind === 'single' && onLeg(dart, [x, y]))
    .map(([x, y]) => Math.hypot(x - POINT[0], y - POINT[1]));
  expect(away.length).toBeGreaterThanOrEqual(2);
  for (const r of away) expect(r).toBeCloseTo(away[0]!, 3);
  expect(faults).toEqual([]);
  await close();
});

/** Whether a point lies on one of a dart's straight legs. */
function onLeg(
  { mouth, point }: { mouth: readonly (readonly [number, number])[]; point: readonly [number, number] },
  [x, y]: readonly [number, number],
): boolean {
  return mouth.some(([mx, my]) => {
    const [ux, uy] = [mx - point[0], my - point[1]];
    const t = ((x - point[0]) * ux + (y - point[1]) * uy) / (ux * ux + uy * uy);
    return t > 0.01 && t <= 1 && Math.hypot(point[0] + t * ux - x, point[1] + t * uy - y) < 0.01;
  });
}
