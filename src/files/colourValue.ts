import { NAMED_COLOURS } from './namedColours';

const byte = (value: number): string =>
  Math.round(Math.min(255, Math.max(0, value)))
    .toString(16)
    .padStart(2, '0');

const hexOf = (r: number, g: number, b: number): string => `#${byte(r)}${byte(g)}${byte(b)}`;

/** Hue in degrees, saturation and lightness 0..1 to hex: CSS Color 3 (W3C), section 4.2.4. */
function fromHsl(hue: number, saturation: number, lightness: number): string {
  const channel = (n: number): number => {
    const k = (n + (((hue % 360) + 360) % 360) / 30) % 12;
    return (
      lightness - saturation * Math.min(lightness, 1 - lightness) * Math.max(-1, Math.min(k - 3, 9 - k, 1))
    );
  };
  return hexOf(255 * channel(0), 255 * channel(8), 255 * channel(4));
}

function fromHex(digits: string): string | null {
  if (digits.length === 3 || digits.length === 4)
    return `#${[...digits.slice(0, 3)].map((d) => d + d).join('')}`;
  return digits.length === 6 || digits.length === 8 ? `#${digits.slice(0, 6)}` : null;
}

function fromFunction(name: string, args: readonly string[]): string | null {
  const number = (text: string | undefined, whole: number): number =>
    text === undefined
      ? Number.NaN
      : text.endsWith('%')
        ? (Number(text.slice(0, -1)) / 100) * whole
        : Number(text);
  const [a, b, c] = args;
  if (name.startsWith('rgb')) {
    const channels = [number(a, 255), number(b, 255), number(c, 255)];
    return channels.every(Number.isFinite) ? hexOf(channels[0]!, channels[1]!, channels[2]!) : null;
  }
  const hsl = [Number((a ?? '').replace(/deg$/, '')), number(b, 1), number(c, 1)];
  return hsl.every(Number.isFinite) ? fromHsl(hsl[0]!, Math.min(1, hsl[1]!), Math.min(1, hsl[2]!)) : null;
}

/**
 * A CSS colour as `#rrggbb` in lower case, transparency left out; null for `none`, gradients, and what is not a colour.
 * Of a paint server only its stated fallback colour is read.
 */
export function parseColour(text: string): string | null {
  const value = text.slice(0, 300).trim().toLowerCase();
  const paintServer = /^url\([^)]*\)\s*(.*)$/.exec(value);
  if (paintServer) return paintServer[1] === '' ? null : parseColour(paintServer[1]!);
  const hex = /^#([0-9a-f]{3,8})$/.exec(value);
  if (hex) return fromHex(hex[1]!);
  const call = /^(rgba?|hsla?)\(([^()]*)\)/.exec(value);
  if (call) return fromFunction(call[1]!, call[2]!.split(/[\s,/]+/).filter(Boolean));
  return NAMED_COLOURS.get(value.split(/\s/)[0]!) ?? null;
}
