import { answerLay } from './answerLay';
import type { FromLay, ToLay } from './contract';

/** The worker script: hands messages to answerLay, which does the work in slices. */
const pause = (): Promise<void> =>
  new Promise((resolve) => {
    setTimeout(resolve, 0);
  });
const answer = answerLay((message: FromLay) => postMessage(message), pause);
addEventListener('message', (event: MessageEvent<ToLay>) => void answer(event.data));
