import { formatLength, MM_PER_INCH, sayInTwo } from '../../pattern';
import type { TrimKind, Units } from '../../pattern';
import { type BuySum, COUNTER_STEP } from './counter';
import { PRICED_BY, priceAsSaid } from './price';
import type { ClothToBuy, ClothUse, ShoppingList, ThreadToBuy, TrimToBuy } from './shoppingList';
import { OVEREDGE_THREAD } from './thread';
import type { ZipToBuy } from './zips';

const MM_PER_YARD = 36 * MM_PER_INCH;
const EIGHTHS = 8;
/** Less than this, mm, is not said. */
const SAID_AS_NOTHING = 0.05;

/**
 * A length as it is asked for at the counter: `1.4 m`, or yards to the next eighth, `1 3/8 yd` (1 yd = 36 in exactly; international yard of
 * 1959, from memory).
 */
export function sayAtCounter(mm: number, units: Units): string {
  if (units === 'cm') return `${(mm / 1000).toFixed(mm % COUNTER_STEP.cm === 0 ? 1 : 2)} m`;
  const eighths = Math.ceil((mm / MM_PER_YARD) * EIGHTHS - 1e-9);
  const [whole, part] = [Math.floor(eighths / EIGHTHS), eighths % EIGHTHS];
  const fraction = part === 0 ? '' : part % 4 === 0 ? '1/2' : part % 2 === 0 ? `${part / 2}/4` : `${part}/8`;
  return `${[whole > 0 || part === 0 ? `${whole}` : '', fraction].filter((s) => s !== '').join(' ')} yd`;
}

/** A sum in the user's money: `12.50`. */
export const sayMoney = (sum: number): string => sum.toFixed(2);

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** How a length to buy comes about: `The lay plan uses 132 cm. Added: 6 cm for washing and 10 cm in reserve. Rounded up to 1.5 m.` */
export function saySum(sum: BuySum, units: Units): string {
  const length = (mm: number): string => formatLength(mm, units);
  const parts: readonly (readonly [number, string])[] = [
    [sum.repeat, `one repeat of ${length(sum.repeat)} to begin at a motif`],
    [sum.shrinkage, `${length(sum.shrinkage)} for washing`],
    [sum.reserve, `${length(sum.reserve)} in reserve`],
  ];
  const added = parts.flatMap(([mm, words]) => (mm > 0 ? [words] : []));
  return [
    `The lay plan uses ${length(sum.laid)}.`,
    ...(added.length > 0 ? [`Added: ${listed(added)}.`] : []),
    ...(sum.rounding > SAID_AS_NOTHING ? [`Rounded up to ${sayAtCounter(sum.buy, units)}.`] : []),
  ].join(' ');
}

/** The parts of a shopping list, in order. */
export type ShoppingPart = 'Cloth' | 'Lining and facings' | 'Interfacing' | 'Trims' | 'Zips' | 'Thread';

/** One line of a shopping list in words, on screen and on paper. */
export interface ShoppingRow {
  readonly part: ShoppingPart;
  /** Unique in the list. */
  readonly key: string;
  readonly fill: string | null;
  readonly what: string;
  /** What to ask for; what is the matter where there is nothing to ask for. */
  readonly ask: string;
  /** Whether `ask` is an amount. */
  readonly isKnown: boolean;
  /** How it comes about, in sentences. */
  readonly how: readonly string[];
  /** In the user's money; empty without a price. */
  readonly cost: string;
}

const partOf = ({ uses }: ClothToBuy): ShoppingPart => {
  if (uses.includes('main')) return 'Cloth';
  return uses.some((u) => u === 'lining' || u === 'facing') ? 'Lining and facings' : 'Interfacing';
};

const ALSO: Readonly<Record<ClothUse, string>> = {
  main: 'the garment',
  lining: 'lining',
  facing: 'facings',
  interfacing: 'interfacing',
};

const counted = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

function askForCloth({ state, sum }: ClothToBuy, units: Units): string {
  if (state === 'found' && sum) return sayAtCounter(sum.buy, units);
  if (state === 'own') return 'nothing';
  return state === 'laying' ? 'not laid yet' : 'does not fit';
}

function clothRow(cloth: ClothToBuy, units: Units): ShoppingRow {
  const { colour, uses, sum, own, cost, state, problems } = cloth;
  const how = [
    ...own.map((o) => `${counted(o.pieces, 'piece')} from your own ${o.name}.`),
    ...(sum ? [saySum(sum, units)] : []),
    ...(uses.length > 1 ? [`For ${listed(uses.map((u) => ALSO[u]))}.`] : []),
    ...(state === 'none' ? problems.slice(0, 1).map((p) => sayInTwo(p, units).what) : []),
    ...(colour.nap && sum ? ['All pieces lie one way.'] : []),
    ...(colour.price !== null && sum
      ? [`${sayMoney(priceAsSaid(colour.price, units))} a ${PRICED_BY[units]}.`]
      : []),
  ];
  return {
    part: partOf(cloth),
    key: `cloth ${colour.id}`,
    fill: colour.fill,
    what: `${colour.name}, ${formatLength(colour.width, units)} wide`,
    ask: askForCloth(cloth, units),
    isKnown: state === 'found' || state === 'own',
    how,
    cost: cost === null || state === 'own' ? '' : sayMoney(cost),
  };
}

const KINDS: Readonly<Record<TrimKind, string>> = { straight: '', bias: ', bias', scalloped: ', scalloped' };

function trimRow(trim: TrimToBuy, i: number, units: Units): ShoppingRow {
  const { name, width, kind, need, buy, pieces, soldIn, shrinkage, joins, fromSquare, fill } = trim;
  const length = (mm: number): string => formatLength(mm, units);
  const how = [
    `${length(need)} to cut${shrinkage > 0 ? `, ${shrinkage} % shrinkage counted in` : ''}${joins > 0 ? `, ${counted(joins, 'join')}` : ''}.`,
    ...(fromSquare
      ? [
          `Or cut it on the cross, ${length(fromSquare.strip)} wide with both edges turned in: at best a square of cloth of ${length(fromSquare.side)} gives as much.`,
        ]
      : []),
  ];
  return {
    part: 'Trims',
    key: `trim ${i}`,
    fill,
    what: `${name}${KINDS[kind]}, ${length(width)} wide`,
    ask:
      pieces === null || soldIn === null
        ? sayAtCounter(buy, units)
        : `${counted(pieces, 'length')} of ${length(soldIn)}`,
    isKnown: true,
    how,
    cost: '',
  };
}

const zipRow = ({ kind, count, opening, length, fill }: ZipToBuy, i: number, units: Units): ShoppingRow => ({
  part: 'Zips',
  key: `zip ${i}`,
  fill,
  what: `${kind} zip, ${formatLength(length, units)}`,
  ask: `${count}`,
  isKnown: true,
  how:
    length - opening > 0.5
      ? [`The opening is ${formatLength(opening, units)}; a zip can be shortened, not lengthened.`]
      : [],
  cost: '',
});

/** `230 m`, or `252 yd`: thread is rounded up. */
const sayThread = (mm: number, units: Units): string =>
  units === 'in' ? `${Math.ceil(mm / MM_PER_YARD)} yd` : `${Math.ceil(mm / 1000)} m`;

/** Spools are marked in metres; in inch designs both are said. */
const saySpool = (mm: number, units: Units): string =>
  `${mm / 1000} m${units === 'in' ? ` (${Math.floor(mm / MM_PER_YARD)} yd)` : ''}`;

const threadRow = ({ name, fill, need, spools }: ThreadToBuy, units: Units): ShoppingRow => ({
  part: 'Thread',
  key: `thread ${fill}`,
  fill,
  what: `thread to go with ${name}`,
  ask: spools.map((s) => `${counted(s.count, 'spool')} of ${saySpool(s.length, units)}`).join(' and '),
  isKnown: true,
  how: [`About ${sayThread(need, units)}, ends and trials counted in.`],
  cost: '',
});

/** A shopping list in words, part by part. */
export function shoppingRows(list: ShoppingList): readonly ShoppingRow[] {
  const { units } = list;
  const order: readonly ShoppingPart[] = ['Cloth', 'Lining and facings', 'Interfacing'];
  const cloths = list.cloths.map((c) => clothRow(c, units));
  return [
    ...order.flatMap((part) => cloths.filter((row) => row.part === part)),
    ...list.trims.map((t, i) => trimRow(t, i, units)),
    ...list.zips.map((z, i) => zipRow(z, i, units)),
    ...list.threads.map((t) => threadRow(t, units)),
  ];
}

/** The total and what it leaves out; null where nothing has a price. */
export function sayTotal({ cost, unpriced, cloths, trims, zips, isComplete }: ShoppingList): string | null {
  if (cost === null || (cost === 0 && unpriced.length > 0)) return null;
  const nameOf = (id: string): string => cloths.find((c) => c.colour.id === id)?.colour.name ?? id;
  const left = [
    ...unpriced.map(nameOf),
    ...(trims.length > 0 ? ['trims'] : []),
    ...(zips.length > 0 ? ['zips'] : []),
    'thread',
  ];
  return `${sayMoney(cost)} in all${isComplete ? '' : ' so far'}, without ${listed(left)}.`;
}

/** What the thread does not count; null where no seams are sewn. */
export const sayNeatening = ({ rawEdges, units }: ShoppingList): string | null =>
  rawEdges > 0
    ? `Thread is reckoned for plain seams, hems, darts and trims. If you neaten the raw edges of the seams with a three-thread overedge, it takes about ${sayThread(rawEdges * OVEREDGE_THREAD, units)} more, on three cones.`
    : null;

/** The whole list as plain text, to take along. @param name of the design */
export function shoppingText(list: ShoppingList, name: string): string {
  const rows = shoppingRows(list);
  const parts = [...new Set(rows.map((r) => r.part))];
  const lines = parts.flatMap((part) => [
    '',
    part,
    ...rows
      .filter((r) => r.part === part)
      .flatMap((r) => [
        `- ${r.what}: ${r.ask}${r.cost ? ` (${r.cost})` : ''}`,
        ...(r.how.length > 0 ? [`  ${r.how.join(' ')}`] : []),
      ]),
  ]);
  const total = sayTotal(list);
  return [`What to buy for ${name}`, ...lines, ...(total ? ['', total] : []), ''].join('\n');
}
