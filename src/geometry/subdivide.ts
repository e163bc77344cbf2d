import type { SubdivideOptions, Subdivision } from './subdivision';
import type { Path, Ring } from './types';

/**
 * Cut the inside of a ring by open or closed lines into faces.
 * @param outline simple ring, signedArea > 0
 * @param lines   paths, mm; parts outside the outline are ignored
 */
export function subdivide(_outline: Ring, _lines: readonly Path[], _options: SubdivideOptions = {}): Subdivision {
  throw new Error('being written');
}
