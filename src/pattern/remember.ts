/** How many results are kept per first input: a drag goes back and forth between a few. */
const KEPT = 6;

interface Known<A extends readonly unknown[], R> {
  readonly inputs: A;
  readonly result: R;
}

function isSame(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i += 1) {
    const [v, w] = [a[i], b[i]];
    if (v !== w && !(Array.isArray(v) && Array.isArray(w) && isSame(v, w))) return false;
  }
  return true;
}

/**
 * Remember the last few results of a pure function per first input (an object, held weakly). Inputs are the same when they
 * are identical, or arrays with the same items. Sound because documents and what is derived from them never change in place.
 */
export function remember<First extends object, Rest extends readonly unknown[], R>(
  compute: (first: First, ...rest: Rest) => R,
): (first: First, ...rest: Rest) => R {
  const known = new WeakMap<First, Known<Rest, R>[]>();
  return (first, ...rest) => {
    const list = known.get(first) ?? [];
    const hit = list.find((k) => isSame(k.inputs, rest));
    if (hit) return hit.result;
    const result = compute(first, ...rest);
    known.set(first, [{ inputs: rest, result }, ...list].slice(0, KEPT));
    return result;
  };
}
