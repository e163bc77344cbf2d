/**
 * Panels: a whole piece sliced along its panel lines.
 * Promises that panel areas add up to the piece's and that every seam has one panel on each side.
 */
export * from './panel';
