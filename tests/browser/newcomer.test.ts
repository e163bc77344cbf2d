import { readFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import { closeBrowser, openBench, takePicture } from './bench';
import { DEMO, dragMouse, fact, go, screenOf } from './onTable';

afterAll(closeBrowser);

test('a newcomer draws a line on the demo, colours a panel and gets the cutting pieces as a PDF', async () => {
  const { page, close, faults } = await openBench();
  const at = await screenOf(page, DEMO);
  expect(await fact(page, 'Lines')).toBe('9 lines');
  await dragMouse(page, at('front', [40, 800]), at('front', [578, 806]));
  await expect.poll(() => fact(page, 'Lines')).toBe('10 lines');
  expect(await page.getByText('across the grain, 11.5 cm below hip level').count()).toBe(1);
  expect(await fact(page, 'Paper')).toBe('13 panels');

  await go(page, 'Colours');
  await page.getByRole('button', { name: /^blue/ }).click();
  const panel = page.getByRole('combobox', { name: /Cloth of panel/ });
  const blueBefore = await panel.evaluateAll(
    (all) => all.filter((s) => (s as HTMLSelectElement).selectedOptions[0]?.text === 'blue').length,
  );
  const [x, y] = at('front', [180, 860]);
  await page.mouse.click(x, y);
  await expect
    .poll(() =>
      panel.evaluateAll(
        (all) => all.filter((s) => (s as HTMLSelectElement).selectedOptions[0]?.text === 'blue').length,
      ),
    )
    .toBe(blueBefore + 1);
  await takePicture(page, 'newcomer-coloured');

  await go(page, 'Paper');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Cutting pieces' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('fenlight-sheath-pieces.pdf');
  const bytes = readFileSync(await download.path());
  expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
  expect(bytes.length).toBeGreaterThan(20_000);
  expect(faults).toEqual([]);
  await close();
});

test('the handout comes with the cloth laid by the worker, the drawing and the design as files', async () => {
  const { page, close, faults } = await openBench();
  await go(page, 'Cloth');
  await expect.poll(() => page.locator('.buy').count(), { timeout: 30_000 }).toBe(3);
  expect(await page.locator('.buy').first().innerText()).toMatch(/^\d+\.\d m of 140 cm wide/);
  await takePicture(page, 'cloth');
  await go(page, 'Paper');
  for (const [button, name, start] of [
    ['Handout', 'fenlight-sheath-handout.pdf', '%PDF-'],
    ['Lay plans', 'fenlight-sheath-lay-plans.pdf', '%PDF-'],
    ['Pieces as a drawing', 'fenlight-sheath-pieces.svg', '<'],
    ['This design', 'fenlight-sheath.json', '{'],
  ] as const) {
    const [download] = await Promise.all([
      page.waitForEvent('download', { timeout: 45_000 }),
      page.getByRole('button', { name: button, exact: true }).click(),
    ]);
    expect(download.suggestedFilename()).toBe(name);
    expect(readFileSync(await download.path(), 'utf8').startsWith(start)).toBe(true);
  }
  expect(faults).toEqual([]);
  await close();
});
