import type { SayLength, WordingOf } from './wording';

/** What can be wrong with laying panels on cloth. One entry per code, with the facts its sentence needs. Lengths in mm. */
export interface ClothFacts {
  'panel-wider-than-cloth': {
    panel: number;
    colour: string;
    /** Usable width, after washing and between the margins. */
    width: number;
    /** Of the panel across the cloth in its best turn, and what it needs of usable width as the cloth is laid. */
    across: number;
    needs: number;
    /** By how much the panel would have to be narrower. */
    over: number;
    /** The narrowest usual width, as sold, that is wide enough; null: none is. */
    fitsAt: number | null;
    /** The least angle off its grain at which it fits, degrees; null: there is none. */
    turned: number | null;
    /** It fits the same cloth in one layer. */
    unfolded: boolean;
    /** Of folded cloth on which it does not: the narrowest usual width, as sold, that is wide enough in one layer; null: none is. */
    unfoldedAt: number | null;
    /** It fits where its print is not matched. */
    unmatched: boolean;
    interfacing: boolean;
  };
  'laid-off-grain': { panel: number; degrees: number; colour: string };
  /** Repeat along and across; whether it is more than half the usable width; panels it is more than half of. */
  'repeat-large': {
    colour: string;
    along: number;
    across: number;
    halfCloth: boolean;
    panels: readonly number[];
  };
}

type TooWide = ClothFacts['panel-wider-than-cloth'];

function waysOut(facts: TooWide, mm: SayLength): string[] {
  const { unfolded, unfoldedAt, unmatched, fitsAt, turned, over, across, interfacing } = facts;
  const isNoneWide = fitsAt === null && unfoldedAt === null && !unfolded;
  return [
    ...(unfolded ? ['lay the cloth in one layer, where it fits'] : []),
    ...(unfoldedAt === null
      ? []
      : [`lay the cloth in one layer, where cloth ${mm(unfoldedAt)} wide is enough`]),
    ...(unmatched ? ['do without matching the print across (a repeat of 0), where it fits'] : []),
    ...(isNoneWide ? ['no usual width of cloth is wide enough'] : []),
    ...(fitsAt === null ? [] : [`take cloth ${mm(fitsAt)} wide`]),
    ...(interfacing ? ['join it from two parts, edge to edge, where no seam lies'] : []),
    // no line makes a panel narrower by all of its width
    ...(interfacing || over >= across ? [] : [`move or add a line so that it is ${mm(over)} narrower`]),
    ...(turned === null
      ? []
      : [
          `give it leave to lie ${turned}° off its grain (it then stretches and hangs differently: try it on a toile)`,
        ]),
    ...(interfacing ? [] : ['join a strip to the cloth along the grain, where the seam does not show']),
  ];
}

const NAMED = 6;

function listed(panels: readonly number[]): string {
  if (panels.length === 1) return `panel ${panels[0]}`;
  if (panels.length > NAMED) return `${panels.length} panels`;
  return `panels ${panels.slice(0, -1).join(', ')} and ${panels.at(-1)}`;
}

export const CLOTH: WordingOf<ClothFacts> = {
  'panel-wider-than-cloth': [
    'error',
    (facts, mm) => {
      const { panel, across, needs, width, colour, interfacing } = facts;
      const what = interfacing ? `The interfacing of panel ${panel}` : `Panel ${panel}`;
      const need = needs > across ? `, needs ${mm(needs)} of width as it has to lie,` : '';
      return `${what} is ${mm(across)} across${need} and does not fit ${colour} of ${mm(width)} usable width. Choices: ${waysOut(facts, mm).join('; ')}.`;
    },
  ],
  'laid-off-grain': [
    'warning',
    ({ panel, degrees, colour }) =>
      `Panel ${panel} lies ${Math.round(degrees * 10) / 10}° off its grain on ${colour}, as you gave it leave to. It stretches and hangs differently from the others: try it on a toile, and hold its edges with a stay tape. Take its leave away to have it on the grain.`,
  ],
  'repeat-large': [
    'hint',
    ({ colour, along, across, halfCloth, panels }, mm) => {
      const size = [along > 0 ? `${mm(along)} along` : '', across > 0 ? `${mm(across)} across` : '']
        .filter((s) => s !== '')
        .join(' and ');
      const half = [
        halfCloth ? 'half the width of the cloth' : '',
        panels.length > 0 ? `half the size of ${listed(panels)}` : '',
      ].filter((s) => s !== '');
      return `The repeat of ${colour}, ${size}, is more than ${half.join(' and ')}: matching it costs much cloth and no more than one motif shows. Set it to 0 where the print need not match.`;
    },
  ],
};
