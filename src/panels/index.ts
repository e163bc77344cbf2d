/**
 * Panels: a whole piece sliced along its panel lines.
 * Accepts a piece opened out (pattern) and the lines drawn on it. Promises that panel areas add up to the piece's, that every
 * seam has one panel on each side, and that panels keep their colours when lines change. Knows no allowances and no order.
 */
export * from './panel';
export { slicePiece } from './slicePiece';
export { layLine, layLines } from './layLines';
export { colourPanels, isInsidePanel } from './colourPanels';
export { panelledPiece, slicedPiece } from './slicedPieces';
export * from './darts';
export { settled, withLines } from './keepColours';
export { leaveMark, leaveOf } from './leave';
export { replacePiece, type PieceTracing, type Replaced } from './replacePiece';
