import type { Design, LineId } from '../../pattern';
import { COST_CONTRACT, type FromCost, type ToCost } from './contract';
import { changesOf } from './designChanges';

/** What is to be compared: designs as they were and are, and the line in hand, if one is. */
export interface Sight {
  readonly before: Design;
  readonly now: Design;
  readonly line: LineId | null;
}

/** The part of a Worker that is used here. */
export interface CostWorkerLike {
  postMessage(message: ToCost): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromCost>) => unknown) | null;
  onerror: ((event: ErrorEvent) => unknown) | null;
}

const newCostWorker = (): CostWorkerLike =>
  new Worker(new URL('./costWorker.ts', import.meta.url), { type: 'module' });

/** Call back in the next frame. */
export const nextFrame = (then: () => void): void => void requestAnimationFrame(then);

/** An answer, and what it is an answer to. */
export type CostListener = (message: FromCost, sight: Sight) => void;

/**
 * Asks the worker what designs come to: at most once a frame, and the next only when the quick plans of the one before are there; what
 * came in between is never sent. Answers to anything but what was asked last are dropped. A worker that dies is started anew with
 * the next question, once; after that nothing is asked any more.
 */
export class CostClient {
  private worker: CostWorkerLike | null = null;
  private turn = 0;
  private sent: Sight | null = null;
  private wanted: Sight | null = null;
  private isOpen = true;
  private isWaiting = false;
  private restarts = 1;
  private readonly listener: CostListener;
  private readonly makeWorker: () => CostWorkerLike;
  private readonly later: (then: () => void) => void;

  /** @param later calls back in the next frame */
  constructor(listener: CostListener, makeWorker = newCostWorker, later = nextFrame) {
    this.listener = listener;
    this.makeWorker = makeWorker;
    this.later = later;
  }

  /** Ask about this, unless something newer comes before it can be sent. */
  look(sight: Sight): void {
    this.wanted = sight;
    if (this.isWaiting) return;
    this.isWaiting = true;
    this.later(() => {
      this.isWaiting = false;
      this.send();
    });
  }

  /** Ask nothing more; what is under way ends. */
  stop(): void {
    this.wanted = null;
    if (!this.sent) return;
    this.sent = null;
    this.isOpen = true;
    this.post({ kind: 'stop', turn: this.nextTurn() });
  }

  private nextTurn(): number {
    this.turn += 1;
    return this.turn;
  }

  private post(message: ToCost): void {
    if (!this.worker) {
      this.worker = this.makeWorker();
      this.worker.onmessage = ({ data }) => this.hear(data);
      this.worker.onerror = () => this.lose();
    }
    this.worker.postMessage(message);
  }

  private send(): void {
    const { wanted, sent } = this;
    if (!wanted || this.restarts < 0) return;
    const isSame = sent?.now === wanted.now && sent.before === wanted.before && sent.line === wanted.line;
    const isOther = sent?.before !== wanted.before;
    if (isSame || (!isOther && !this.isOpen)) return;
    if (isOther)
      this.post({ kind: 'before', contract: COST_CONTRACT, turn: this.nextTurn(), design: wanted.before });
    this.sent = wanted;
    this.isOpen = false;
    const changes = changesOf(wanted.before, wanted.now);
    this.post({ kind: 'now', turn: this.nextTurn(), changes, line: wanted.line });
  }

  private hear(message: FromCost): void {
    if (!this.sent || message.turn !== this.turn) {
      // an old worker answers the turn of the design it was given, not that of the question
      if (message.kind === 'wrong-contract') this.lose(0);
      return;
    }
    if (message.kind !== 'touched' && message.kind !== 'cloth') this.isOpen = true;
    this.listener(message, this.sent);
    if (message.kind === 'open') this.send();
  }

  private lose(restarts = this.restarts): void {
    this.restarts = restarts - 1;
    this.worker?.terminate();
    this.worker = null;
    const { sent, turn } = this;
    this.sent = null;
    this.isOpen = true;
    if (sent) this.listener({ kind: 'failed', turn, message: 'The lay planner stopped working.' }, sent);
  }
}
