/**
 * Relative luminance of `#rrggbb`, 0 (black) to 1 (white), after WCAG 2.2 (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance): sRGB
 * linearised, 0.2126 R + 0.7152 G + 0.0722 B.
 */
export function luminance(fill: string): number {
  const channel = (from: number): number => {
    const c = parseInt(fill.slice(from, from + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

/** Contrast ratio of two `#rrggbb` colours, 1 to 21: (L1 + 0.05) / (L2 + 0.05), the lighter above (WCAG 2.2, contrast ratio). */
export function contrast(a: string, b: string): number {
  const [p, q] = [luminance(a), luminance(b)];
  return (Math.max(p, q) + 0.05) / (Math.min(p, q) + 0.05);
}
