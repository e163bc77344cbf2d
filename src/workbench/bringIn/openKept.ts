/** Opening what was kept needs the checks of a saved design, not the reader of tracings. */
export { openDesign } from '../../files';
