export type Severity = 'error' | 'warning' | 'hint';

/** How a length is written in the user's units. */
export type SayLength = (length: number) => string;

/** Severity and sentence of every code of a topic. A code without a sentence does not compile. Each sentence says what, and what to do. */
export type WordingOf<F> = {
  readonly [C in keyof F]: readonly [Severity, (facts: F[C], mm: SayLength) => string];
};
