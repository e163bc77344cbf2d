import { sayAtCounter, sayMoney } from '../../fabric';
import { type Care, type ClothChange, acrossLine, moreToBuy, moreToPay } from '../../garment/spots';
import { type Path, dot, startOf, subtract } from '../../geometry';
import { type Units, type WholePiece, formatLength, grainFrame } from '../../pattern';

const listed = (numbers: readonly number[]): string =>
  numbers.length === 1 ? `panel ${numbers[0]}` : `panels ${numbers.join(', ')}`;

/** What a cloth comes to, in parts that keep their places while a line is dragged. */
export interface SaidCloth {
  /** `about 1.3 m` while the plan is a quick one, `1.3 m` after; `panel 3 is too wide`; `…` until the first plan. */
  readonly buy: string;
  /** `10 cm less`, `as before`; empty where the two cannot be compared. */
  readonly difference: string;
  /** `15.60, 1.20 less`; empty without a price. */
  readonly cost: string;
  readonly tone: 'less' | 'more' | 'same';
}

/** `1.20 less`; nothing where it stays. */
function sayMore(more: number, amount: (sum: number) => string): string {
  if (Math.abs(more) < 1e-6) return '';
  return `${amount(Math.abs(more))} ${more < 0 ? 'less' : 'more'}`;
}

/** A difference in cloth: `10 cm` rather than `0.1 m`. */
const sayLess = (mm: number, units: Units): string =>
  units === 'cm' && mm < 1000 ? formatLength(mm, units) : sayAtCounter(mm, units);

const tones = { '-1': 'less', '0': 'same', '1': 'more' } as const;

/** A touched cloth in words, now and against before. @param change null: there are no plans yet */
export function sayCloth(change: ClothChange | null, care: Care, units: Units): SaidCloth {
  if (!change) return { buy: '…', difference: '', cost: '', tone: 'same' };
  const { before, after } = change;
  if (after && after.misfits.length > 0) {
    const known = before?.misfits.length === after.misfits.length;
    const verb = after.misfits.length === 1 ? 'is' : 'are';
    return {
      buy: `${listed(after.misfits)} ${verb} too wide`,
      difference: known ? 'as before' : '',
      cost: '',
      tone: known ? 'same' : 'more',
    };
  }
  const about = care === 'quick' ? 'about ' : '';
  const buy = `${about}${sayAtCounter(after?.buy ?? 0, units)}`;
  const price = after?.cost ?? null;
  if (before && before.misfits.length > 0)
    return { buy, difference: 'fits now', cost: price === null ? '' : sayMoney(price), tone: 'less' };
  const more = moreToBuy(change);
  const pay = moreToPay(change);
  const morePaid = pay === null ? '' : sayMore(pay, sayMoney);
  return {
    buy,
    difference: sayMore(more, (mm) => sayLess(mm, units)) || 'as before',
    cost: price === null ? '' : [sayMoney(price), morePaid].filter((words) => words !== '').join(', '),
    tone: tones[String(Math.sign(more)) as keyof typeof tones],
  };
}

function saySpotCloth(change: ClothChange, units: Units): string {
  const { before, after, name } = change;
  const [was, is] = [before?.misfits ?? [], after?.misfits ?? []];
  const fitting = was.filter((n) => !is.includes(n));
  if (fitting.length > 0) return `${listed(fitting)} ${fitting.length === 1 ? 'fits' : 'fit'} the ${name}`;
  const more = moreToBuy(change);
  return more === 0 ? '' : `${sayMore(more, (mm) => sayLess(mm, units))} ${name}`;
}

/** What a spot saves: `10 cm less navy`, `10 cm less navy, 10 cm more sand, 3.50 less to pay`. */
export function saySaving(changes: readonly ClothChange[], units: Units): string {
  const parts = changes.map((change) => saySpotCloth(change, units)).filter((words) => words !== '');
  const pay = changes.filter((c) => moreToBuy(c) !== 0).map(moreToPay);
  const sum = pay.reduce<number | null>((s, p) => (s === null || p === null ? null : s + p), 0);
  const paid = sum === null ? '' : sayMore(sum, sayMoney);
  return [...parts, ...(paid === '' ? [] : [`${paid} to pay`])].join(', ');
}

/** What is bought with the line at a spot, of the cloths that change there: `navy 1.3 m`. */
export const sayAtSpot = (changes: readonly ClothChange[], units: Units): string =>
  changes
    .filter((c) => moreToBuy(c) !== 0 && c.after !== null)
    .map(({ name, after }) => `${name} ${sayAtCounter(after!.buy, units)}`)
    .join(', ');

/**
 * How far from a line a spot lies, square to the line, and which way as it lies on the table: `1.2 cm lower`, `8 mm farther out`.
 * Lines of a piece that is drawn by its half go in and out from the centre; `here` within half a millimetre.
 */
export function sayWay(line: Path, spot: Path, whole: WholePiece, units: Units): string {
  const across = acrossLine(line);
  if (!across) return '';
  const by = dot(subtract(startOf(spot), startOf(line)), across);
  if (Math.abs(by) < 0.5) return 'here';
  const frame = grainFrame(whole);
  const down = dot(across, frame.along) * by;
  const right = dot(across, frame.across) * by;
  const far = formatLength(Math.abs(by), units);
  if (Math.abs(down) >= Math.abs(right)) return `${far} ${down > 0 ? 'lower' : 'higher'}`;
  if (!whole.unfolded || !whole.foldLine) return `${far} to the ${right > 0 ? 'right' : 'left'}`;
  const side = dot(subtract(startOf(line), whole.foldLine[0]), frame.across);
  return `${far} farther ${side * right >= 0 ? 'out' : 'in'}`;
}
