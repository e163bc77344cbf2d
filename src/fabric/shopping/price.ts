import { MM_PER_INCH } from '../../pattern';
import type { Units } from '../../pattern';

const MM_PER_METRE = 1000;
/** 36 in exactly (international yard of 1959, from memory). */
const MM_PER_YARD = 36 * MM_PER_INCH;

/** What cloth is priced by, in words: a metre, or a yard where one thinks in inches. */
export const PRICED_BY: Readonly<Record<Units, string>> = { cm: 'metre', in: 'yard' };

const lengthPriced = (units: Units): number => (units === 'in' ? MM_PER_YARD : MM_PER_METRE);

/** Prices are said to so many decimals, so that what was typed comes back as it was. */
const PRICE_DECIMALS = 4;

/** The price of a yard or metre from that of a metre, which is what a design keeps: 12.50 a yard is 13.6702 a metre. */
export const priceAsSaid = (perMetre: number, units: Units): number =>
  Number(((perMetre * lengthPriced(units)) / MM_PER_METRE).toFixed(PRICE_DECIMALS));

/** The price of a metre from that of a yard or metre. */
export const pricePerMetre = (said: number, units: Units): number =>
  (said * MM_PER_METRE) / lengthPriced(units);

/** What a length costs, in the user's money. @param mm length to buy */
export const costOf = (mm: number, perMetre: number): number => (mm / MM_PER_METRE) * perMetre;
