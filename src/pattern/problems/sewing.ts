import type { WordingOf } from './wording';

/** What the sewing order asks to be told. One entry per code, with the facts its sentence needs. */
export interface SewingFacts {
  'partial-seam': { panel: number };
  /** The panel that is clipped, and how far the seam turns, degrees. */
  'corner-set-in': { panel: number; turn: number };
  /** Two steps of the plan by number: the first was wanted before the second. */
  'order-wish-impossible': { earlier: number; later: number };
  'round-sewn-flat': object;
  /** Layers of cloth over one another where seams meet; how many if all were pressed open; how far apart lines would have to meet. */
  'many-layers': { lines: readonly string[]; layers: number; open: number; apart: number };
}

export const SEWING: WordingOf<SewingFacts> = {
  'partial-seam': [
    'warning',
    ({ panel }) =>
      `These lines end on each other in a ring: panel ${panel} needs a seam left partly open and finished later. Extending one line through avoids it.`,
  ],
  'corner-set-in': [
    'hint',
    ({ panel, turn }) =>
      `This seam turns by ${Math.round(turn)}° here: it is sewn in two passes, with panel ${panel} reinforced at the corner and clipped to it. A line that runs on to the next edge or line makes two plain seams of it.`,
  ],
  'order-wish-impossible': [
    'hint',
    ({ earlier, later }) =>
      `You once wanted step ${earlier} before step ${later}. As the lines lie now that cannot be sewn, so the wish waits until it can. Sewing order: forget the wishes to be rid of it.`,
  ],
  'round-sewn-flat': [
    'hint',
    () =>
      'This seam cannot be sewn in the round, so it is planned flat. Let it run from seam to seam, meet a line that is sewn in the round beyond each, and have no other line run on into it.',
  ],
  'many-layers': [
    'hint',
    ({ lines, layers, open, apart }, mm) =>
      `${layers} layers of cloth lie over one another where ${lines.join(', ')} meet. Press the seams open there (${open} layers), trim the allowances in steps, or let the lines meet ${mm(apart)} apart.`,
  ],
};
