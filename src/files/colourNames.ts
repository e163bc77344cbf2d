/** Hue, degrees; saturation and lightness, 0..1 (CSS Color 3, section 4.2.4, backwards). */
function hslOf(fill: string): { hue: number; saturation: number; lightness: number } {
  const [r, g, b] = [1, 3, 5].map((i) => Number.parseInt(fill.slice(i, i + 2), 16) / 255) as [
    number,
    number,
    number,
  ];
  const [most, least] = [Math.max(r, g, b), Math.min(r, g, b)];
  const spread = most - least;
  const lightness = (most + least) / 2;
  if (spread === 0) return { hue: 0, saturation: 0, lightness };
  const sector =
    most === r ? ((g - b) / spread + 6) % 6 : most === g ? (b - r) / spread + 2 : (r - g) / spread + 4;
  return { hue: sector * 60, saturation: spread / (1 - Math.abs(2 * lightness - 1)), lightness };
}

/** Upper ends of the hue ranges, degrees, in everyday words. Our own choice. */
const HUES: readonly (readonly [number, string])[] = [
  [15, 'red'],
  [43, 'orange'],
  [68, 'yellow'],
  [160, 'green'],
  [195, 'turquoise'],
  [250, 'blue'],
  [290, 'violet'],
  [345, 'pink'],
  [360, 'red'],
];

/** A plain word for a colour, so that people can talk about it: `dark blue`, `grey`. */
export function wordForColour(fill: string): string {
  const { hue, saturation, lightness } = hslOf(fill);
  if (lightness > 0.95) return 'white';
  if (lightness < 0.08) return 'black';
  if (saturation < 0.12) return lightness > 0.75 ? 'light grey' : lightness < 0.3 ? 'dark grey' : 'grey';
  const word = HUES.find(([end]) => hue <= end)![1];
  if (word === 'orange' && lightness < 0.45) return 'brown';
  if (word === 'orange' && lightness > 0.7) return lightness > 0.88 ? 'cream' : 'sand';
  if (word === 'red' && lightness > 0.75) return 'pink';
  if (lightness > 0.8) return `light ${word}`;
  return lightness < 0.3 ? `dark ${word}` : word;
}

/** Words for several fills, the later of equal ones numbered: `blue`, `blue 2`. */
export function wordsForColours(fills: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return fills.map((fill) => {
    const word = wordForColour(fill);
    const count = (seen.get(word) ?? 0) + 1;
    seen.set(word, count);
    return count === 1 ? word : `${word} ${count}`;
  });
}
