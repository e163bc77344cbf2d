import { type End, type SeamGraph, otherEnd, stretchOfEnd } from './seamGraph';

/** Stretches that are sewn in one go: for each, in order, the end at which it is entered. */
export interface Trail {
  readonly ends: readonly End[];
  readonly isClosed: boolean;
}

/** An end that meets a trail: its own trail must be sewn before that one. */
export interface Ending {
  readonly end: End;
  readonly junction: number;
  readonly from: number;
  readonly on: number;
}

/** A piece's seams for one choice of what runs through. */
export interface Trails {
  readonly trails: readonly Trail[];
  /** Trail of each stretch. */
  readonly trailOf: Int32Array;
  /** The end each end runs on into; -1 where its trail ends. */
  readonly mate: Int32Array;
  readonly endings: readonly Ending[];
}

/** Which pair runs through each junction: indices into `Junction.pairs`. */
export type ThroughChoice = (junction: number) => number;

/** Follow the stretches through every junction. Time and memory grow with the stretches. */
export function followTrails({ stretches, junctions }: SeamGraph, choice: ThroughChoice): Trails {
  const mate = new Int32Array(2 * stretches.length).fill(-1);
  junctions.forEach(({ pairs }, j) => {
    const pair = pairs[choice(j)];
    if (!pair) return;
    mate[pair.p] = pair.q;
    mate[pair.q] = pair.p;
  });
  const trailOf = new Int32Array(stretches.length).fill(-1);
  const trails: Trail[] = [];
  const follow = (start: End): void => {
    const ends: End[] = [];
    let entry = start;
    while (entry >= 0 && trailOf[stretchOfEnd(entry)]! < 0) {
      ends.push(entry);
      trailOf[stretchOfEnd(entry)] = trails.length;
      entry = mate[otherEnd(entry)]!;
    }
    trails.push({ ends, isClosed: entry >= 0 });
  };
  for (let e = 0; e < mate.length; e += 1) if (mate[e]! < 0 && trailOf[e >> 1]! < 0) follow(e);
  for (let s = 0; s < stretches.length; s += 1) if (trailOf[s]! < 0) follow(2 * s);
  const endings: Ending[] = [];
  for (let junction = 0; junction < junctions.length; junction += 1) {
    const { ends, pairs } = junctions[junction]!;
    const pair = pairs[choice(junction)];
    if (!pair || ends.length < 3) continue;
    const on = trailOf[pair.p >> 1]!;
    for (const end of ends)
      if (end !== pair.p && end !== pair.q) endings.push({ end, junction, from: trailOf[end >> 1]!, on });
  }
  return { trails, trailOf, mate, endings };
}
