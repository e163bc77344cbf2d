/** Loaded when the drawing is asked for: the rest of the files room is not needed for it. */
export { piecesSvg } from '../../files';
