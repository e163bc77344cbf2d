import { afterAll, expect, inject, test } from 'vitest';
import { closeBrowser, prepareBench, takePicture, waitForDrawing } from './bench';
import { fact, go } from './onTable';

afterAll(closeBrowser);

/** A half front drawn in mm by somebody whose drawing program wrote its size in pixels. */
const IN_PIXELS = `<svg xmlns="http://www.w3.org/2000/svg" width="420" height="620">
  <g id="piece front">
    <path id="outline" d="M20,20 C120,50 240,50 320,20 L380,600 L20,600 Z"/>
    <path id="fold" d="M20,20 V600"/>
    <path id="grain" d="M60,100 V500"/>
  </g>
</svg>`;

test('a tracing of the wrong size is looked over, put right by the keyboard, and said to be a cutting line', async () => {
  const bench = await prepareBench();
  const { page } = bench;
  await page.addInitScript(() => {
    for (const name of ['showOpenFilePicker', 'showSaveFilePicker'])
      delete (window as unknown as Record<string, unknown>)[name];
  });
  await page.goto(inject('address'));
  await waitForDrawing(page);
  await go(page, 'Pattern');
  const [chooser] = await Promise.all([
    page.waitForEvent('filechooser'),
    page.getByRole('button', { name: 'Choose a tracing' }).click(),
  ]);
  await chooser.setFiles([{ name: 'front.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(IN_PIXELS) }]);
  await expect.poll(() => fact(page, 'Pattern')).toBe('1 piece');
  await expect.poll(() => page.getByRole('note').textContent()).toContain('pixels');
  expect(await page.getByRole('cell').allTextContents()).toEqual(['9.5 cm', '15.3 cm']);
  await page.getByLabel('True length across').focus();
  await page.keyboard.type('36');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.type('58');
  expect(await page.getByRole('status').filter({ hasText: 'millimetres' }).count()).toBe(1);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  expect(await page.getByRole('cell').allTextContents()).toEqual(['36 cm', '58 cm']);
  expect(await page.getByRole('note').count()).toBe(0);
  await page.getByRole('radio', { name: 'the stitching line' }).focus();
  await page.keyboard.press('ArrowRight');
  expect(await page.getByLabel('Inside it at hems').inputValue()).toBe('1.5');
  await takePicture(page, 'looked-over');
  await page.getByRole('button', { name: 'All is right' }).click();
  expect(await page.getByText('Give one length you know').count()).toBe(0);
  expect(bench.faults).toEqual([]);
  await bench.close();
});
