/** Where things of a drawing lie on the screen, worked out from the same tracing that the bench shows. */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { deriveGarment, type Garment } from '../../src/garment';
import type { Pt } from '../../src/geometry';
import { readFiles } from '../../src/workbench/bringIn/readFiles';
import { layOut } from '../../src/workbench/drawing/tableLayout';

export const DEMO = readFileSync(new URL('../../demo-data/sheath.svg', import.meta.url), 'utf8');

export function garmentFrom(svg: string): Garment {
  const read = readFiles([{ name: 'tracing.svg', data: svg }]);
  if (!read.ok) throw new Error('the test’s own tracing is unsound');
  return deriveGarment(read.value.design);
}

/** Screen places of points in the traced coordinates of a piece, as the view is now. */
export async function screenOf(page: Page, svg: string): Promise<(piece: string, at: Pt) => Pt> {
  const { pieces } = garmentFrom(svg);
  const { shift } = layOut(pieces);
  const { view, left, top, width, height } = await page.evaluate(() => {
    const canvas = document.querySelector('canvas')!;
    const box = canvas.getBoundingClientRect();
    return {
      view: canvas.dataset['view']!,
      left: box.left,
      top: box.top,
      width: box.width,
      height: box.height,
    };
  });
  const [zoom, cx, cy] = view.split(' ').map(Number) as [number, number, number];
  return (name, [x, y]) => {
    const piece = pieces.find(({ whole }) => whole.name === name);
    if (!piece) throw new Error(`no piece ${name}`);
    const [dx, dy] = shift.get(piece.whole.piece.id)!;
    return [left + width / 2 + (x + dx - cx) * zoom, top + height / 2 + (y + dy - cy) * zoom];
  };
}

/** Press, move in steps, let go. */
export async function dragMouse(page: Page, [x0, y0]: Pt, [x1, y1]: Pt): Promise<void> {
  await page.mouse.move(x0, y0);
  await page.mouse.down();
  await page.mouse.move((x0 + x1) / 2, (y0 + y1) / 2, { steps: 5 });
  await page.mouse.move(x1, y1, { steps: 5 });
  await page.mouse.up();
}

const station = (page: Page, place: string): Locator =>
  page.getByRole('navigation').getByRole('button', { name: new RegExp(`^${place}`) });

/** What the tape says a place holds, such as `9 lines`. */
export const fact = (page: Page, place: string): Promise<string> =>
  station(page, place).locator('.fact').innerText();

export const go = (page: Page, place: string): Promise<void> => station(page, place).click();
