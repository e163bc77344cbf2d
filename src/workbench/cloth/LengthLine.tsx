import type { ReactElement } from 'react';
import { formatLength, type Units } from '../../pattern';
import type { LayState } from '../handOut/layRoom';

const [WIDTH, HEIGHT] = [300, 40];
/** Time shown at least, s: so that the first moments are not a cliff. */
const LEAST_TIME = 2;

/** How the length came down while it was searched: a step for every better plan. */
export function LengthLine({ lay, units }: { lay: LayState; units: Units }): ReactElement | null {
  const { history, searched } = lay;
  const [first, last] = [history[0], history.at(-1)];
  if (!first || !last || history.length < 2) return null;
  const time = Math.max(LEAST_TIME, searched, last.seconds);
  const drop = Math.max(1, first.length - last.length);
  const x = (seconds: number): string => ((seconds / time) * WIDTH).toFixed(1);
  const y = (length: number): string => (4 + (1 - (length - last.length) / drop) * (HEIGHT - 8)).toFixed(1);
  const steps = history.slice(1).map(({ seconds, length }) => `H${x(seconds)}V${y(length)}`);
  return (
    <figure className="length-line">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
        <path d={`M${x(first.seconds)} ${y(first.length)}${steps.join('')}H${x(searched)}`} />
      </svg>
      <figcaption>
        {formatLength(first.length, units)} at first, {formatLength(last.length, units)} after{' '}
        {Math.max(1, Math.round(searched))} s
      </figcaption>
    </figure>
  );
}
