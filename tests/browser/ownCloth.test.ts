import { afterAll, expect, inject, test } from 'vitest';
import { closeBrowser, prepareBench, takePicture, waitForDrawing } from './bench';

afterAll(closeBrowser);

test('cloth one has is given as a rectangle, by corners and from a file, and is laid on first', async () => {
  // browsers without the system's own file windows give the plain file field, which a test can fill
  const bench = await prepareBench();
  const { page } = bench;
  await page.addInitScript(() => {
    delete (window as unknown as Record<string, unknown>)['showOpenFilePicker'];
  });
  await page.goto(inject('address'));
  await waitForDrawing(page);
  await page.getByRole('button', { name: /^Cloth/ }).click();
  await page.getByRole('button', { name: 'Add a rectangle' }).click();
  await page.getByLabel('Length, along the grain').fill('nothing');
  await page.getByLabel('Width', { exact: true }).fill('80');
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByText(/Give two lengths from/).waitFor();
  await page.getByLabel('Length, along the grain').fill('120');
  await page.getByRole('button', { name: 'Add it' }).click();
  const first = page.getByRole('listitem', { name: 'piece of cloth', exact: true });
  await first.getByText(/^Panels? .* Left over: /).waitFor({ timeout: 60_000 });

  await page.getByRole('button', { name: 'Draw its corners' }).click();
  const board = page.getByRole('button', { name: /^Board for the corners/ });
  await board.focus();
  for (const keys of ['Enter', 'Shift+ArrowRight Enter', 'Shift+ArrowDown Enter'])
    for (const key of keys.split(' ')) await page.keyboard.press(key);
  expect(await page.getByRole('textbox', { name: /^Corner 3/ }).count()).toBe(2);
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('listitem', { name: 'piece of cloth 2' }).waitFor();

  const drawing =
    '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300"><path d="M0 0H400V200L200 300H0Z"/></svg>';
  const [chooser] = await Promise.all([
    page.waitForEvent('filechooser'),
    page.getByRole('button', { name: 'From an SVG' }).click(),
  ]);
  await chooser.setFiles([
    { name: 'from the coat.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(drawing) },
  ]);
  await page.getByRole('listitem', { name: 'from the coat' }).waitFor();
  await takePicture(page, 'own-cloth');
  expect(bench.faults).toEqual([]);
  await bench.close();
});
