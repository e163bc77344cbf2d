import { problem, type Outcome, type Problem, type ProblemCode, type ProblemFacts } from '../pattern';

/** Thrown inside this room when a file cannot be used; `refusable` turns it into an Outcome. Never leaves the room. */
export class Refusal extends Error {
  readonly problem: Problem;
  constructor(reason: Problem) {
    super(reason.code);
    this.problem = reason;
  }
}

/** Give up on the file, with the reason. @throws Refusal always */
export function refuse<C extends ProblemCode>(
  code: C,
  facts: ProblemFacts[C],
  piece: string | null = null,
): never {
  throw new Refusal(problem(code, facts, piece));
}

/** Run a reader; a Refusal becomes an Outcome that is not ok, any other error (ours) passes through. */
export function refusable<T>(read: () => Outcome<T>): Outcome<T> {
  try {
    return read();
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, problems: [error.problem] };
    throw error;
  }
}
