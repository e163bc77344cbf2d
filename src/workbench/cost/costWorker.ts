import { answerCost } from './answerCost';
import type { FromCost, ToCost } from './contract';

/** The worker script: hands messages to answerCost, which does the work in slices. */
const pause = (ms: number): Promise<void> =>
  new Promise((resolve) => {
    setTimeout(resolve, ms);
  });
const answer = answerCost((message: FromCost) => postMessage(message), pause);
addEventListener('message', (event: MessageEvent<ToCost>) => void answer(event.data));
