/** Longest name that is printed; anything longer ends in an ellipsis. */
export const LONGEST_NAME = 60;

// Control and format characters: joiners, and marks that turn the direction of writing. Names from files may hold them, paper must not.
const UNPRINTABLE = /[\p{Cc}\p{Cf}]/gu;
const printable = (text: string): string => text.replace(/\s+/gu, ' ').replace(UNPRINTABLE, '');

/** Shown for a character the face does not have, so that nothing vanishes silently. */
const NO_GLYPH = '□';

/**
 * Text as it can be printed: composed accents, one space for any blank, no control characters, `□` for what the face lacks.
 * @param hasGlyph whether the face has a character of the basic plane
 */
export function cleanText(text: string, hasGlyph: (code: number) => boolean): string {
  const plain = printable(text.normalize('NFC'));
  let out = '';
  for (const character of plain) {
    out += character.length === 1 && hasGlyph(character.charCodeAt(0)) ? character : NO_GLYPH;
  }
  return out;
}

/** A name from the design cut to a printable length. */
export function shortName(name: string, most = LONGEST_NAME): string {
  const characters = [...name.trim()];
  return characters.length <= most
    ? name.trim()
    : `${characters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`;
}

/**
 * A document title for the PDF's information dictionary: Latin-1 as it is, anything else as UTF-16 with its byte order
 * mark (PDF Reference 1.6, text strings). Line-end bytes inside the UTF-16 would be altered by readers, so
 * letters holding one are taken apart into letter and accent, or replaced by `_`.
 */
export function documentTitle(name: string): string {
  const title = shortName(printable(name));
  if (/^[\u0020-\u007e\u00a0-\u00ff]*$/.test(title)) return title;
  const risky = (unit: number): boolean => [unit >> 8, unit & 255].some((byte) => byte === 10 || byte === 13);
  const isRisky = (s: string): boolean =>
    [...s].some((c) => [...c.split('')].some((u) => risky(u.charCodeAt(0))));
  const safe = [...title]
    .map((c) => (isRisky(c) ? (isRisky(c.normalize('NFD')) ? '_' : c.normalize('NFD')) : c))
    .join('');
  const bytes = safe.split('').flatMap((u) => [u.charCodeAt(0) >> 8, u.charCodeAt(0) & 255]);
  return `\u00fe\u00ff${String.fromCharCode(...bytes)}`;
}
