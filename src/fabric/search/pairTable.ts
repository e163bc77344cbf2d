import { noFitOf } from '../noFit/noFit';
import type { NoFit } from '../noFit/noFit';
import type { Meter } from '../noFit/depthGrid';
import type { LayForm } from './layShape';

/** Work that one convex part of a new no-fit region costs. */
export const WORK_PER_PART = 400;

/** Regions kept at once, and how many of the oldest go when there are more: they take some 60 kB each. */
const MOST_REGIONS = 2500;
const DROPPED = 500;

/** Of the outlines, which are grown: minX, maxX, minY, maxY. */
function grownBox({ outlines }: LayForm): [number, number, number, number] {
  let [minX, maxX, minY, maxY] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const ring of outlines)
    for (let k = 0; k < ring.length; k += 2) {
      minX = Math.min(minX, ring[k]!);
      maxX = Math.max(maxX, ring[k]!);
      minY = Math.min(minY, ring[k + 1]!);
      maxY = Math.max(maxY, ring[k + 1]!);
    }
  return [minX, maxX, minY, maxY];
}

/**
 * No-fit regions of all pairs of forms, worked out when first asked for. Two regions do for four pairs: turning both forms by
 * 180°, or looking from the other form, negates the offset; so the offset of a moving form from a fixed one is looked up at
 * shift + sign · offset in the region that stands for its pair.
 */
export class PairTable {
  readonly count: number;
  /** Per pair (fixed · count + moving). */
  readonly sign: Int8Array;
  readonly shiftX: Float64Array;
  readonly shiftY: Float64Array;
  /** Outside this box of offsets (minX, maxX, minY, maxY) the two are apart. */
  readonly boxes: Float64Array;
  private readonly standsFor: Int32Array;
  private readonly regions: (NoFit | undefined)[];
  /** Regions there are, the oldest first. */
  private made: number[] = [];
  private readonly forms: readonly LayForm[];
  private readonly meter: Meter;

  /** @param opposite per form: the same one turned by 180°, −1 if there is none */
  constructor(forms: readonly LayForm[], opposite: readonly number[], meter: Meter) {
    const n = forms.length;
    this.forms = forms;
    this.meter = meter;
    this.count = n;
    this.sign = new Int8Array(n * n);
    this.shiftX = new Float64Array(n * n);
    this.shiftY = new Float64Array(n * n);
    this.boxes = new Float64Array(4 * n * n);
    this.standsFor = new Int32Array(n * n);
    this.regions = new Array<NoFit | undefined>(n * n).fill(undefined);
    const grown = forms.map(grownBox);
    for (let f = 0; f < n; f += 1)
      for (let m = 0; m < n; m += 1) {
        this.pair(f, m, opposite[f]!, opposite[m]!);
        const [a, b] = [grown[f]!, grown[m]!];
        this.boxes.set([a[0] - b[1], a[1] - b[0], a[2] - b[3], a[3] - b[2]], 4 * (f * n + m));
      }
  }

  /** Choose the first of the up to four pairs that share a region. */
  private pair(f: number, m: number, of: number, om: number): void {
    const n = this.count;
    const k = f * n + m;
    const hasTurned = of >= 0 && om >= 0;
    const turned = hasTurned ? of * n + om : Infinity;
    const both = hasTurned ? om * n + of : Infinity;
    const first = Math.min(k, m * n + f, turned, both);
    this.standsFor[k] = first;
    this.sign[k] = first === k || (first === both && first !== m * n + f) ? 1 : -1;
    if (first === k || first === m * n + f) return;
    const [a, b] = first === turned ? [this.forms[f]!, this.forms[m]!] : [this.forms[m]!, this.forms[f]!];
    this.shiftX[k] = a.length - b.length;
    this.shiftY[k] = a.width - b.width;
  }

  /** The region of a pair if it has been worked out. */
  known(pair: number): NoFit | undefined {
    return this.regions[this.standsFor[pair]!];
  }

  region(pair: number): NoFit {
    return this.regions[this.standsFor[pair]!] ?? this.make(this.standsFor[pair]!);
  }

  private make(first: number): NoFit {
    const fixed = Math.floor(first / this.count);
    const region = noFitOf(this.forms[fixed]!, this.forms[first % this.count]!, this.meter);
    this.meter.work += region.size * WORK_PER_PART;
    this.regions[first] = region;
    this.made.push(first);
    if (this.made.length > MOST_REGIONS) {
      for (const old of this.made.slice(0, DROPPED)) this.regions[old] = undefined;
      this.made = this.made.slice(DROPPED);
    }
    return region;
  }
}
