import type { Allowances, TracingKind } from './design';

/** Hems of a net tracing, mm. Common practice, no source. */
export const USUAL_HEM = 40;

/** Hems where nobody said anything: a cut tracing has there what it has elsewhere. */
export const usualHem = (tracing: TracingKind): number =>
  tracing.kind === 'cut' ? tracing.included : USUAL_HEM;

/**
 * Allowances with what a tracing is said to be. Its hems go along unless they have a depth of their own: those of a cut tracing have
 * what it has elsewhere, those of a net one the usual depth.
 */
export function takenAs(now: Allowances, tracing: TracingKind): Allowances {
  const isOwn = now.tracing.kind === 'net' ? tracing.kind === 'net' : now.hem !== now.tracing.included;
  return { ...now, tracing, hem: isOwn ? now.hem : usualHem(tracing) };
}
