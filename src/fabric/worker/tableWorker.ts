import { answerTable } from './answerTable';
import type { FromTable, ToTable } from './tableContract';

/** The worker script: hands messages to answerTable, which does the work in slices. */
const pause = (): Promise<void> =>
  new Promise((resolve) => {
    setTimeout(resolve, 0);
  });
const answer = answerTable((message: FromTable) => postMessage(message), pause);
addEventListener('message', (event: MessageEvent<ToTable>) => void answer(event.data));
