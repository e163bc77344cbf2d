import './look/bench.css';
import { startBench } from './startBench';

const root = document.getElementById('root');
if (!root) throw new Error('the page has no place for the bench');
startBench(root).catch((failure: unknown) => {
  root.textContent = `The bench could not be set up: ${failure instanceof Error ? failure.message : String(failure)} Reload the page.`;
});
