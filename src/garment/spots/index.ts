/** Spots: where a panel line would have to lie for less cloth to be bought. */
export { acrossLine, alongLine } from './alongLine';
