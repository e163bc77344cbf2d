import { afterAll, expect, test } from 'vitest';
import { LAPTOP, TABLET, closeBrowser, openBench, takePicture } from './bench';
import { DEMO, dragMouse, fact, screenOf } from './onTable';

afterAll(closeBrowser);

test('two clicks draw a line; a typed distance places it exactly; undo and redo follow', async () => {
  const { page, close, faults } = await openBench(LAPTOP);
  const at = await screenOf(page, DEMO);
  const [x0, y0] = at('front', [42, 760]);
  const [x1, y1] = at('front', [576, 765]);
  await page.mouse.click(x0, y0);
  await page.mouse.move(x1, y1, { steps: 5 });
  await page.mouse.click(x1, y1);
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  await page.keyboard.type('12.3');
  await page.keyboard.press('Enter');
  await expect.poll(() => page.getByText('across the grain, 12.3 cm below hip level').count()).toBe(1);
  await page.keyboard.press('Escape');
  await page.locator('canvas').focus();
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await expect.poll(() => fact(page, 'Lines')).toBe('9 lines');
  await page.keyboard.press('Control+Shift+z');
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(() => page.getByText('across the grain, 12.3 cm below hip level').count()).toBe(1);
  expect(faults).toEqual([]);
  await close();
});

test('while drawing, the tip names what it catches and how far it is from the nearest level', async () => {
  const { page, close } = await openBench(LAPTOP);
  const at = await screenOf(page, DEMO);
  await page.mouse.move(...at('front', [44, 800]));
  await page.mouse.down();
  await page.mouse.move(...at('front', [300, 800]), { steps: 4 });
  await expect.poll(() => page.locator('.tip').innerText()).toContain('11.5 cm below hip level');
  await page.mouse.move(...at('front', [577, 803]), { steps: 4 });
  await expect.poll(() => page.locator('.tip').innerText()).toContain('edge');
  await takePicture(page, 'drawing');
  await page.keyboard.press('Escape');
  await page.mouse.up();
  expect(await fact(page, 'Lines')).toBe('9 lines');
  await close();
});

test('a line ending in the open is a problem with a cure of one click', async () => {
  const { page, close } = await openBench(LAPTOP);
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('sleeve', [1150, 330]), at('sleeve', [1190, 520]));
  await expect.poll(() => fact(page, 'Lines')).toMatch(/10 lines, \d to mend/);
  const cure = page.locator('.cure button');
  while ((await cure.count()) > 0) await cure.first().click();
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  await close();
});

test('a chosen line is bent by its middle, straightened again, and deleted by key', async () => {
  const { page, close } = await openBench(LAPTOP);
  const at = await screenOf(page, DEMO);
  await page.mouse.click(...at('back', garmentMiddle));
  await expect.poll(() => page.locator('.stroke-slip').count()).toBe(1);
  await dragMouse(page, at('back', garmentMiddle), at('back', [garmentMiddle[0], garmentMiddle[1] + 60]));
  await expect.poll(() => page.getByText(/^curved/).count()).toBeGreaterThan(0);
  await takePicture(page, 'bent');
  await page.getByRole('button', { name: 'Straighten' }).click();
  await expect.poll(() => page.getByText(/^curved/).count()).toBe(0);
  await page.locator('canvas').focus();
  await page.keyboard.press('Delete');
  await expect.poll(() => fact(page, 'Lines')).toBe('8 lines');
  await close();
});

/** On the hip line of the back, in its middle. */
const garmentMiddle: readonly [number, number] = [771, 685];

test('with keys only a line is drawn by measure, nudged and taken back', async () => {
  const { page, close, faults } = await openBench(LAPTOP);
  await page.keyboard.press('l');
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('SELECT');
  await page.keyboard.press('Tab'); // runs: across the grain
  await page.keyboard.press('Tab'); // lies
  await page.keyboard.type('9');
  await page.keyboard.press('Tab'); // below
  await page.keyboard.press('Tab'); // from
  await page.keyboard.type('hip');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  await expect.poll(() => page.getByText('across the grain, 9 cm below hip level').count()).toBe(1);
  await page.locator('canvas').focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Shift+ArrowDown');
  await expect.poll(() => page.getByText('across the grain, 10.1 cm below hip level').count()).toBe(1);
  for (let i = 0; i < 3; i += 1) await page.keyboard.press('Control+z');
  await expect.poll(() => fact(page, 'Lines')).toBe('9 lines');
  expect(faults).toEqual([]);
  await close();
});

test('a finger draws a line, two fingers pinch and move the table without drawing', async () => {
  const { page, context, close, faults } = await openBench(TABLET);
  const client = await context.newCDPSession(page);
  const touch = (
    type: 'touchStart' | 'touchMove' | 'touchEnd',
    ...points: (readonly [number, number])[]
  ): Promise<unknown> =>
    client.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: points.map(([x, y], id) => ({ x, y, id })),
    });
  const at = await screenOf(page, DEMO);
  const [[x0, y0], [x1, y1]] = [at('front', [46, 800]), at('front', [572, 806])];
  await touch('touchStart', [x0, y0]);
  for (let i = 1; i <= 8; i += 1)
    await touch('touchMove', [x0 + ((x1 - x0) * i) / 8, y0 + ((y1 - y0) * i) / 8]);
  await touch('touchEnd');
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  await takePicture(page, 'touched');

  const view = (): Promise<number[]> =>
    page.evaluate(() => document.querySelector('canvas')!.dataset['view']!.split(' ').map(Number));
  const [before] = await view();
  const [mx, my] = [x0 + (x1 - x0) / 2, y0 - 120];
  await touch('touchStart', [mx - 40, my]);
  await touch('touchStart', [mx - 40, my], [mx + 40, my]);
  for (let i = 1; i <= 6; i += 1) await touch('touchMove', [mx - 40 - 10 * i, my], [mx + 40 + 10 * i, my]);
  await touch('touchEnd');
  await expect.poll(async () => (await view())[0]! / before!).toBeCloseTo(2.5, 1);
  expect(await fact(page, 'Lines')).toBe('10 lines');
  expect(faults).toEqual([]);
  await close();
});

test('a wheel zooms about the pointer, a trackpad moves, a held space bar drags the table', async () => {
  const { page, close } = await openBench(LAPTOP);
  const at = await screenOf(page, DEMO);
  const spot: readonly [number, number] = [300, 700];
  const before = at('front', spot);
  await page.mouse.move(...before);
  await page.mouse.wheel(0, -240);
  const near = (await screenOf(page, DEMO))('front', spot);
  expect(Math.hypot(near[0] - before[0], near[1] - before[1])).toBeLessThan(1);
  await page.keyboard.down('Space');
  await dragMouse(page, near, [near[0] + 80, near[1] - 50]);
  await page.keyboard.up('Space');
  const moved = (await screenOf(page, DEMO))('front', spot);
  expect(moved[0] - near[0]).toBeCloseTo(80, 0);
  expect(moved[1] - near[1]).toBeCloseTo(-50, 0);
  expect(await fact(page, 'Lines')).toBe('9 lines');
  await close();
});
