import type { Allowances } from '../pattern';

/** Seam allowances that are used throughout, hems apart. */
export type PresetName = 'home cm' | 'home inch' | 'workroom';

/** One width for all seams, mm. */
export interface Preset {
  readonly name: PresetName;
  readonly width: number;
}

/**
 * 1.5 cm and 5/8 in are the home standard (diyfashiondesign.com, n.d.), and are not the same: 5/8 in is 15.875 mm exactly. Workrooms: 1 cm
 * (Lo, Pattern Cutting, Laurence King, 2011: the industry's default).
 */
export const PRESETS: readonly Preset[] = [
  { name: 'home cm', width: 15 },
  { name: 'home inch', width: 15.875 },
  { name: 'workroom', width: 10 },
];

const isWidth = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

/** The preset that the general widths are; 'own' where they are none. On a cut tracing the outer edges have what was traced. */
export function presetOf({ tracing, newSeam }: Allowances): PresetName | 'own' {
  const isAll = (width: number): boolean =>
    isWidth(newSeam, width) && (tracing.kind === 'cut' || isWidth(tracing.outer, width));
  return PRESETS.find((p) => isAll(p.width))?.name ?? 'own';
}

/** Allowances with one general width for all seams, mm. Hems, and widths given to single edges and lines, stay. */
export const withGeneral = (allowances: Allowances, width: number): Allowances => ({
  ...allowances,
  newSeam: width,
  tracing: allowances.tracing.kind === 'net' ? { kind: 'net', outer: width } : allowances.tracing,
});

/** Widths of metric and inch patterns that are taken for each other, mm: 5/8 in, 3/8 in, 1/4 in, 1/2 in (conversion exact, 1 in = 25.4 mm). */
const TAKEN_FOR_EACH_OTHER: readonly (readonly [number, number])[] = [
  [15, 15.875],
  [10, 9.525],
  [6, 6.35],
  [13, 12.7],
];

/** A metric width and an inch width used in one design that are easily taken for each other, mm; null where there are none. */
export function mixedWidths({
  tracing,
  newSeam,
  edges,
  lines,
}: Allowances): readonly [number, number] | null {
  const widths = [
    newSeam,
    tracing.kind === 'net' ? tracing.outer : tracing.included,
    ...[...edges, ...lines].map((e) => e.width),
  ];
  const has = (width: number): boolean => widths.some((w) => isWidth(w, width));
  return TAKEN_FOR_EACH_OTHER.find(([cm, inch]) => has(cm) && has(inch)) ?? null;
}
