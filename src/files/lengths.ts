/** Units of SVG lengths: CSS Values and Units (W3C), absolute lengths; 1 in = 96 px = 25.4 mm. */
const PX_PER_UNIT: Readonly<Record<string, number>> = {
  '': 1,
  px: 1,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
  q: 96 / 101.6,
  pt: 96 / 72,
  pc: 16,
};

/** A user unit without any scale of its own, mm. */
export const MM_PER_PX = 25.4 / 96;

/** Millimetres per unit, exact where 25.4/96 · px would round. */
const MM_PER_UNIT: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  q: 0.25,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
};

/** A length as written. `relative` hangs on the page or the type size and gives no scale. */
export type SvgLength =
  | { readonly kind: 'absolute'; readonly px: number; readonly mm: number }
  | { readonly kind: 'percent'; readonly share: number }
  | { readonly kind: 'relative' }
  | { readonly kind: 'fault' };

const NUMBER = '[+-]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][+-]?\\d+)?';
const LENGTH = new RegExp(`^(${NUMBER})(%|[a-zA-Z]*)$`);

/** Read a length; anything that is not a finite number with a known unit is a fault. */
export function parseLength(text: string): SvgLength {
  const match = text.length > 100 ? null : LENGTH.exec(text.trim());
  if (!match) return { kind: 'fault' };
  const value = Number(match[1]);
  const unit = match[2]!.toLowerCase();
  if (!Number.isFinite(value)) return { kind: 'fault' };
  if (unit === '%') return { kind: 'percent', share: value / 100 };
  const px = PX_PER_UNIT[unit];
  if (px !== undefined && Object.hasOwn(PX_PER_UNIT, unit)) {
    return { kind: 'absolute', px: value * px, mm: value * (MM_PER_UNIT[unit] ?? MM_PER_PX) };
  }
  return /^(em|ex|rem|ch|lh|rlh|cap|ic|vw|vh|vi|vb|vmin|vmax)$/.test(unit)
    ? { kind: 'relative' }
    : { kind: 'fault' };
}

/**
 * Numbers separated by blanks and at most one comma; null if the text holds anything else or a number overflows.
 * Walks the text once (a single pattern over the whole list could take time without end).
 */
export function parseNumbers(text: string): number[] | null {
  const numbers: number[] = [];
  const token = new RegExp(`\\s*(?:,\\s*)?(${NUMBER})`, 'y');
  let end = 0;
  for (let match = token.exec(text); match; match = token.exec(text)) {
    const value = Number(match[1]);
    if (!Number.isFinite(value)) return null;
    numbers.push(value);
    end = token.lastIndex;
  }
  return text.slice(end).trim() === '' && !/^\s*,/.test(text) ? numbers : null;
}
