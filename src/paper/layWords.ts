import { FIRST_OF_INTERFACING, type LayPlan, sayAtCounter } from '../fabric';
import { howToCut } from '../garment';
import type { Garment } from '../garment';
import { formatLength, sayProblem } from '../pattern';
import type { Units } from '../pattern';
import { shortName } from './cleanText';
import { repeatsPerLine } from './layCloth';
import { SHOWN_TWICE } from './layFrame';
import { isPrintedHalf, washedLength } from './layOnPaper';
import type { LayOnPaper, PieceOnCloth } from './layOnPaper';

/** 1 : so many, as it is said. */
export const sayScale = (scale: number): string => `1:${scale}`;

/** What the page is called. */
export const layTitle = ({ colour }: LayOnPaper): string => `Lay plan: ${shortName(colour.name, 40)}`;

/** Which of one's own pieces of cloth it is for; empty for bought cloth. */
export function ownClothName({ remnant, plan }: LayOnPaper): string {
  if (!plan.within) return '';
  const which = (remnant?.count ?? 1) > 1 ? ` (${plan.within.copy} of ${remnant!.count})` : '';
  return `On your own cloth: ${shortName(remnant?.name ?? 'piece', 40)}${which}`;
}

/** What the plan comes to: what to buy, or what is left. */
export function layResult({ garment, lay }: { garment: Garment; lay: LayOnPaper }): string {
  const { units } = garment.design;
  const { plan } = lay;
  if (!plan.within) return `Read from this plan: buy ${sayAtCounter(plan.buy, units)}.`;
  const { leftOver: rectangle } = lay;
  const left =
    rectangle === null
      ? 'Nothing worth keeping is left of it.'
      : `Left over in one piece: ${formatLength(rectangle.length, units)} along × ${formatLength(rectangle.width, units)} across.`;
  const count = plan.placed.length;
  return `${count} ${count === 1 ? 'piece' : 'pieces'} cut from cloth you have. ${left}`;
}

/** Whether all that is cut is interfacing. */
const isInterfacing = ({ placed }: LayPlan): boolean => placed.every((p) => p.copy >= FIRST_OF_INTERFACING);

const goesOn = (units: Units): string =>
  `At a wavy end the cloth goes on, on the page before or after; ${formatLength(SHOWN_TWICE, units)} of it are on both.`;
const MORE_BOUGHT = 'What is bought goes on beyond the wavy end.';

function clothSentences(garment: Garment, lay: LayOnPaper): string[] {
  const { units } = garment.design;
  const { colour, plan, job, isFolded } = lay;
  const length = (mm: number): string => formatLength(mm, units);
  const up = isInterfacing(plan) ? 'glue side up' : 'right side up';
  if (plan.within)
    return [`Your own cloth, ${length(lay.length)} × ${length(lay.across)} at most, one layer, ${up}.`];
  const isWashed = colour.width - plan.width > 0.5;
  const wide = `Cloth ${length(colour.width)} wide${isWashed ? `, ${length(plan.width)} once washed` : ''}`;
  const how = isFolded
    ? `folded lengthwise, right sides together: ${length(lay.across)} from fold to selvedges.`
    : `one layer, ${up}.`;
  const washed = washedLength({ plan, job });
  const shrunk =
    plan.buy - washed > 0.5
      ? [`The ${sayAtCounter(plan.buy, units)} are taken to be ${length(washed)} once washed.`]
      : [];
  return [`${wide}, ${how}`, ...shrunk];
}

function repeatSentences(garment: Garment, { job, pieces }: LayOnPaper, scale: number): string[] {
  const { units } = garment.design;
  const { along, across } = job.repeat;
  if (along === 0 && across === 0) return [];
  const said = [
    [along, 'along'],
    [across, 'across'],
  ].flatMap(([mm, way]) => {
    if (mm === 0) return [];
    const every = repeatsPerLine(mm as number, scale);
    return [`${formatLength(mm as number, units)} ${way}${every > 1 ? ` (every ${every}th is drawn)` : ''}`];
  });
  const rings = pieces.some((p) => p.anchor !== null)
    ? [along > 0 && across > 0 ? 'Small rings lie where they cross.' : 'Small rings lie on them.']
    : [];
  return [
    `Dotted: the repeat, ${said.join(' and ')}, from the middle of a stripe or motif.${along > 0 ? ' Cut the cloth off through such a middle to begin.' : ''}`,
    ...rings,
  ];
}

/** What the page says of the cloth and its marks, in short sentences; only what applies. */
export function laySentences(garment: Garment, lay: LayOnPaper, scale: number, isPart: boolean): string[] {
  const { units } = garment.design;
  const { job, plan, pieces, isFolded } = lay;
  const length = (mm: number): string => formatLength(mm, units);
  const gap = job.gap > 0 ? `${fine(job.gap, units)} between pieces` : 'Pieces may touch';
  const hasMargin = job.margin > 0 && !plan.within;
  const from = pieces.map((p) => p.laid.cutFrom);
  return [
    ...clothSentences(garment, lay),
    ...(isPart ? [goesOn(units)] : lay.goesOn ? [MORE_BOUGHT] : []),
    `${gap}${hasMargin ? `; ${length(job.margin)} kept free along each selvedge (dashed)` : ''}.`,
    job.nap
      ? 'One-way cloth: every arrow points the same way.'
      : 'Arrows show the grain; pieces may lie either way up along it.',
    ...repeatSentences(garment, lay, scale),
    ...(pieces.some((p) => p.faceDown) ? ['A bar over a number: lay the printed piece face down.'] : []),
    ...(from.includes('both') ? ['Cut through both layers unless the key says otherwise.'] : []),
    ...(pieces.some((p) => p.laid.cutFrom === 'fold' && !isPrintedHalf(garment, p))
      ? ['A piece printed whole that lies on the fold: fold its paper along the middle first.']
      : []),
    ...(isFolded && from.includes('upper')
      ? [
          'Lighter pieces with a dashed outline are cut from the upper layer alone: its wrong side is up, hence the bar.',
        ]
      : []),
    ...(pieces.some((p) => p.laid.piece.middle && !isFolded && isPrintedHalf(garment, p))
      ? [
          'A half printed for the fold is drawn opened out: chalk round it, turn it over along its fold line, chalk the other half.',
        ]
      : []),
  ];
}

/** A gap of some millimetres stays one: `2 mm`, not `0.2 cm`. */
const fine = (mm: number, units: Units): string => formatLength(mm, units === 'cm' && mm < 10 ? 'mm' : units);

/** Cautions at the table. Common practice, no source. */
export function layCautions({ plan }: LayOnPaper): string[] {
  const first = isInterfacing(plan)
    ? 'Shrink it first if its maker says so, and do not iron its glue'
    : 'Wash and press it first';
  return [
    plan.within
      ? `${first}. Then measure it: smaller cloth needs another plan.`
      : `${first}. Then measure the width: narrower cloth needs another plan.`,
    'Look at right side, direction and flaws before you cut. Lay out all pieces first.',
  ];
}

/** Warnings of the plan itself. */
export const layWarnings = (garment: Garment, { plan }: LayOnPaper): string[] =>
  plan.problems.map((p) => sayProblem(p, garment.design.units));

/** One line of the key: all pieces of a panel on this cloth. */
export interface KeyEntry {
  readonly number: number;
  readonly piece: string;
  readonly cut: string;
}

const degrees = (a: number): string => `${Number(a.toFixed(1))}°`;

function cutWords(garment: Garment, lay: LayOnPaper, own: readonly PieceOnCloth[]): string {
  const first = own[0]!;
  const panel = garment.panels.find((p) => p.id === first.laid.piece.panel);
  const twin = panel ? howToCut(garment, panel).twin : null;
  const [all, flipped] = lay.plan.placed
    .filter((p) => p.panel === first.laid.piece.panel)
    .reduce(([n, f], p) => [n + 1, f + (p.flipped ? 1 : 0)], [0, 0] as [number, number]);
  const off = Math.max(...own.map((p) => p.laid.offGrain));
  const words = [`cut ${all}`];
  if (lay.isFolded) {
    const from = new Set(own.map((p) => p.laid.cutFrom));
    if (from.has('both')) words.push('at once');
    if (from.has('fold')) words.push('on the fold');
    if (from.has('upper')) words.push('upper layer only');
    if (from.has('lower')) words.push('lower layer only');
  }
  const isTogether = own.every((p) => p.laid.cutFrom === 'both');
  if (flipped > 0 && !isTogether) words.push(flipped === all ? 'mirrored' : `${flipped} mirrored`);
  const side = twin !== null && flipped > 0 ? ` (the mirrored one is ${twin})` : '';
  const turned = off > 0 ? `, ${degrees(off)} off its grain` : '';
  return `${words.join(', ').replace(', at once', ' at once').replace(', on the fold', ' on the fold')}${side}${turned}`;
}

/** The key in the order of numbers. */
export function keyEntries(garment: Garment, lay: LayOnPaper, shown: readonly PieceOnCloth[]): KeyEntry[] {
  const panels = new Map<string, PieceOnCloth[]>();
  for (const p of shown) {
    const id = p.laid.piece.panel;
    panels.set(id, [...(panels.get(id) ?? []), p]);
  }
  return [...panels.values()]
    .map((own): KeyEntry => {
      const panel = garment.panels.find((p) => p.id === own[0]!.laid.piece.panel);
      return {
        number: own[0]!.laid.number,
        piece: pieceName(garment, panel?.piece),
        cut: cutWords(garment, lay, own),
      };
    })
    .sort((a, b) => a.number - b.number);
}

/** Name of a piece, one of lining or facings too. */
export function pieceName(garment: Garment, id: Garment['panels'][number]['piece'] | undefined): string {
  if (id === undefined) return '';
  const found = garment.pieceById.get(id) ?? garment.extras?.pieceById.get(id);
  return shortName(found?.whole.name ?? '', 40);
}
