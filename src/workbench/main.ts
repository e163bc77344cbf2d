import './look/bench.css';
import type { Design } from '../pattern';
import { FIRST_EXAMPLE } from './bringIn/examples';
import { glimpseOf } from './glimpse/glimpse';
import { type FirstDesign, firstDesign } from './keep/firstDesign';
import { browserShelf, type Shelf } from './keep/shelf';

/** The first example. It is a file of ours that a test holds to opening unchanged, so what checks foreign files need not be loaded. */
async function example(): Promise<Design> {
  const { default: text } = await FIRST_EXAMPLE.load();
  return JSON.parse(text) as Design;
}

const openFirst = (shelf: Shelf): Promise<FirstDesign> =>
  firstDesign(shelf, async (text) => (await import('./bringIn/openKept')).openKept(text), example);

const nextFrame = (): Promise<unknown> => new Promise((done) => requestAnimationFrame(done));

/** Show the drawing at once, then fetch the bench; React puts it in the drawing's place. */
async function start(root: HTMLElement): Promise<void> {
  const shelf = browserShelf();
  const first = await openFirst(shelf);
  root.append(glimpseOf(first.design));
  // a hidden page has no frames: it must not wait for them
  if (!document.hidden) await nextFrame();
  performance.mark('first drawing');
  const { startBench } = await import('./startBench');
  startBench(root, shelf, first);
}

const root = document.getElementById('root');
if (!root) throw new Error('the page has no place for the bench');
start(root).catch((failure: unknown) => {
  root.textContent = `The bench could not be set up: ${failure instanceof Error ? failure.message : String(failure)} Reload the page.`;
});
