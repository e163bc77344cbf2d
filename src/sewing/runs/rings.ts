import type { Ending, Trails } from './trails';

/** Endings that lead from trail to trail and back to the first: none of these can be sewn first. */
export type RingOfEndings = readonly Ending[];

/** Rings of endings, no two with an ending in common, until what is left has an order. The trails' work grows with endings × rings. */
export function ringsOfEndings(
  { trails, endings }: Trails,
  isCut: (e: Ending) => boolean,
): readonly RingOfEndings[] {
  const out: Ending[][] = trails.map(() => []);
  for (const e of endings) if (!isCut(e)) out[e.from]!.push(e);
  const hasOrder = new Uint8Array(trails.length);
  const rings: RingOfEndings[] = [];
  for (let t = 0; t < trails.length; t += 1) {
    for (let on = trailInRing(t, out, hasOrder); on >= 0; on = trailInRing(t, out, hasOrder)) {
      const ring = shortestRing(on, out);
      rings.push(ring);
      for (const e of ring) out[e.from] = out[e.from]!.filter((o) => o !== e);
    }
  }
  return rings;
}

/** A trail that leads back to itself, reached from t; -1 if all that t leads to has an order. */
function trailInRing(t: number, out: readonly (readonly Ending[])[], hasOrder: Uint8Array): number {
  const onWay = new Set<number>();
  const way: { trail: number; next: number }[] = [];
  const enter = (trail: number): void => {
    onWay.add(trail);
    way.push({ trail, next: 0 });
  };
  if (!hasOrder[t]) enter(t);
  while (way.length > 0) {
    const top = way.at(-1)!;
    const e = out[top.trail]![top.next];
    top.next += 1;
    if (!e) {
      hasOrder[top.trail] = 1;
      onWay.delete(top.trail);
      way.pop();
    } else if (onWay.has(e.on)) return e.on;
    else if (!hasOrder[e.on]) enter(e.on);
  }
  return -1;
}

/** The fewest endings that lead from a trail back to itself. */
function shortestRing(t: number, out: readonly (readonly Ending[])[]): RingOfEndings {
  const by = new Map<number, Ending>();
  const queue = [t];
  for (const at of queue) {
    for (const e of out[at]!) {
      if (by.has(e.on)) continue;
      by.set(e.on, e);
      if (e.on === t) return unwound(t, by);
      queue.push(e.on);
    }
  }
  throw new RangeError(`trail ${t} does not lead back to itself`);
}

function unwound(t: number, by: ReadonlyMap<number, Ending>): RingOfEndings {
  const ring: Ending[] = [];
  let e = by.get(t)!;
  for (ring.unshift(e); e.from !== t; ring.unshift(e)) e = by.get(e.from)!;
  return ring;
}
