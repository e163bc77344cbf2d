import type { PanelledPiece, SeamId } from '../panels';
import { type SewingPlan, type SewnOrder, type StepKey, type TrimStrip, coversOf, endsAt } from '../sewing';
import type { Hidden, TrimEnd } from './trimRun';

/** When the seams of a piece are sewn and its trims laid. */
export interface Sewn extends Pick<SewingPlan, 'stepOfSeam'> {
  readonly stepOf: ReadonlyMap<StepKey, number>;
  /** Steps of seams sewn in the round, and whether trims on them go all round. */
  readonly rounds: ReadonlyMap<number, boolean>;
}

/** The order of seams as the plan has it. */
export const orderOf = ({ stepOfSeam }: Pick<Sewn, 'stepOfSeam'>): SewnOrder => ({
  runOf: (seam) => stepOfSeam.get(seam),
  isBefore: (earlier, later) => (stepOfSeam.get(earlier) ?? 0) < (stepOfSeam.get(later) ?? 0),
});

/** When strips are laid: a number that grows with the plan. A strip the plan knows nothing of follows the last seam under it. */
export class LayingTimes {
  readonly #steps: ReadonlyMap<StepKey, number>;
  readonly #stepOfSeam: Sewn['stepOfSeam'];
  readonly #rounds: Sewn['rounds'];

  constructor({ stepOf, stepOfSeam, rounds }: Sewn) {
    this.#rounds = rounds;
    this.#steps = stepOf;
    this.#stepOfSeam = stepOfSeam;
  }

  stepOf(strip: TrimStrip): number | null {
    return this.#steps.get(strip.key) ?? null;
  }

  lastSeam({ seams }: TrimStrip): number {
    return Math.max(0, ...seams.map((s) => this.#stepOfSeam.get(s) ?? 0));
  }

  of(strip: TrimStrip): number {
    return this.stepOf(strip) ?? this.lastSeam(strip);
  }

  /** What hides an end at the outline where the seam under the strip is sewn in the round; null where it is sewn flat. */
  roundEnd(strip: TrimStrip): Hidden | null {
    const goesRound = strip.line === null ? undefined : this.#rounds.get(this.lastSeam(strip));
    return goesRound === undefined ? null : { by: goesRound ? 'itself' : 'nothing' };
  }

  ofSeam(seam: SeamId): number {
    return this.#stepOfSeam.get(seam) ?? 0;
  }
}

/** What hides each end of a strip, given when everything is laid and sewn. Strips laid in the same step lie in the order of `all`. */
export function hiddenEnds(
  strip: TrimStrip,
  all: readonly TrimStrip[],
  piece: PanelledPiece,
  order: SewnOrder,
  times: LayingTimes,
): readonly [Hidden, Hidden] {
  const isLaidAfter = (over: TrimStrip): boolean =>
    times.of(over) > times.of(strip) ||
    (times.of(over) === times.of(strip) && all.indexOf(over) > all.indexOf(strip));
  const hiddenAt = (end: TrimStrip['ends'][number]): Hidden => {
    if (strip.isClosed) return { by: 'itself' };
    if (end.edges.length > 0) return times.roundEnd(strip) ?? { by: 'edge', edge: end.edges[0]! };
    const covers = coversOf(strip, end, all, piece, order);
    const over = covers.strips.find(isLaidAfter) ?? null;
    const seam = covers.seams.find((x) => times.ofSeam(x) > times.of(strip));
    if (seam !== undefined) return { by: 'seam', seam, over: over?.key ?? null };
    if (over) return { by: 'trim', over: over.key };
    const under = covers.strips.find((t) => !endsAt(t, end.at));
    return under ? { by: 'tuck', over: under.key } : { by: 'nothing' };
  };
  return [hiddenAt(strip.ends[0]), hiddenAt(strip.ends[1])];
}

/** The same in the words of the report. */
export function endWord(hidden: Hidden): TrimEnd {
  if (hidden.by === 'trim' || hidden.by === 'tuck') return 'under trim';
  if (hidden.by === 'seam') return hidden.over === null ? 'seam' : 'under trim';
  return hidden.by === 'edge' ? 'seam' : 'turned under';
}
