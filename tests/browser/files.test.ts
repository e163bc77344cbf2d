import { afterAll, expect, inject, test } from 'vitest';
import { closeBrowser, openBench, prepareBench, takePicture, waitForDrawing } from './bench';
import { DEMO, dragMouse, fact, garmentFrom, go, screenOf } from './onTable';

afterAll(closeBrowser);

const OWN = `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="620mm" viewBox="0 0 420 620">
  <g id="piece panel skirt">
    <path id="outline" d="M20,20 C120,50 240,50 320,20 L380,600 L20,600 Z"/>
    <path id="fold" d="M20,20 V600"/>
    <path id="grain" d="M60,100 V500"/>
    <path id="level hip" d="M20,220 H340"/>
  </g>
</svg>`;

const file = (name: string, text: string): { name: string; mimeType: string; buffer: Buffer } => ({
  name,
  mimeType: 'image/svg+xml',
  buffer: Buffer.from(text),
});

test('somebody’s own tracing goes in by the button, gets a line, and a PDF comes out', async () => {
  // browsers without the system's own file windows give the plain file field, which a test can fill
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
  await chooser.setFiles([file('my skirt.svg', OWN)]);
  await expect.poll(() => fact(page, 'Pattern')).toBe('1 piece');
  expect(await page.getByLabel('Name of the design').inputValue()).toBe('my skirt');
  await takePicture(page, 'own-tracing');
  await go(page, 'Lines');
  const at = await screenOf(page, OWN);
  expect(garmentFrom(OWN).pieces[0]!.whole.unfolded).toBe(true);
  await dragMouse(page, at('panel skirt', [26, 300]), at('panel skirt', [346, 304]));
  await expect.poll(() => fact(page, 'Lines')).toBe('1 line');
  await go(page, 'Paper');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Cutting pieces' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('my-skirt-pieces.pdf');
  expect(bench.faults).toEqual([]);
  await bench.close();
});

/** Drop a file on the table as the system would. */
async function drop(page: import('playwright-core').Page, name: string, text: string): Promise<void> {
  const data = await page.evaluateHandle(
    ([n, t]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([t!], n!, { type: 'image/svg+xml' }));
      return transfer;
    },
    [name, text],
  );
  await page.dispatchEvent('.bench', 'dragover', { dataTransfer: data });
  await page.dispatchEvent('.bench', 'drop', { dataTransfer: data });
}

test.each([
  ['empty.svg', '', /is empty/],
  ['cut-off.svg', '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0', /cut-off\.svg/],
  [
    'bomb.svg',
    '<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><svg xmlns="http://www.w3.org/2000/svg">&b;</svg>',
    /bomb\.svg/,
  ],
  ['broken.json', '{"format":"panelwright design","version":1}', /broken\.json/],
])('%s is refused in a sentence and the work stays untouched', async (name, text, words) => {
  const { page, close, faults } = await openBench();
  await drop(page, name, text);
  await expect.poll(() => page.getByRole('alert').innerText()).toMatch(words);
  expect(await fact(page, 'Pattern')).toBe('3 pieces');
  expect(await fact(page, 'Lines')).toBe('9 lines');
  expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
  await takePicture(page, `refused-${name}`);
  await page.getByRole('button', { name: 'Put away' }).click();
  await expect.poll(() => page.getByRole('alert').count()).toBe(0);
  expect(faults).toEqual([]);
  await close();
});

test('a tracing without a size asks for one, in known lengths', async () => {
  const { page, close } = await openBench();
  await drop(page, 'no size.svg', OWN.replace('width="420mm" height="620mm" ', ''));
  const dialog = page.getByRole('dialog', { name: 'How large is it?' });
  await dialog.waitFor();
  await takePicture(page, 'how-large');
  await dialog.getByLabel('Length in the drawing, in its units').fill('580');
  await dialog.getByLabel('The same length on paper, mm').fill('580');
  await dialog.getByRole('button', { name: 'Read it at this scale' }).click();
  await expect.poll(() => fact(page, 'Pattern')).toBe('1 piece');
  await close();
});

test('what was drawn survives a closed tab', async () => {
  const { page, context, close, faults } = await openBench();
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('front', [40, 800]), at('front', [578, 800]));
  await expect.poll(() => page.locator('.kept').innerText()).toBe('kept in this browser');
  await page.close();
  const again = await context.newPage();
  await again.goto(inject('address'));
  await waitForDrawing(again);
  expect(await fact(again, 'Lines')).toBe('10 lines');
  expect(faults).toEqual([]);
  await close();
});

test('a browser that keeps nothing says so for good, and offers the design as a download', async () => {
  const bench = await prepareBench();
  const { page } = bench;
  await page.addInitScript(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('full', 'QuotaExceededError');
    };
  });
  await page.goto(inject('address'));
  await waitForDrawing(page);
  const at = await screenOf(page, DEMO);
  await dragMouse(page, at('front', [40, 800]), at('front', [578, 800]));
  const notice = page.getByRole('alert').filter({ hasText: 'not being kept' });
  await notice.waitFor();
  expect(await notice.innerText()).toContain('storage is full');
  await takePicture(page, 'not-kept');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    notice.getByRole('button', { name: 'Download the design' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('fenlight-sheath.json');
  await page.keyboard.press('Escape');
  expect(await notice.count()).toBe(1);
  await bench.close();
});
