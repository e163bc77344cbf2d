import { looksLikeDesign, openDesign } from '../../files';
import { problem, type Outcome } from '../../pattern';
import { readTracings, type BroughtIn, type NamedBytes } from './readTracings';

/**
 * Read one saved design, or any number of tracings into one new design. All or nothing: one file that cannot be used refuses
 * them all, so that the work on the table stays as it is.
 * @param scale mm per unit for tracings that do not say how large they are
 * @param name of the new design; else it is named after the first drawing's title or file
 */
export function readFiles(
  files: readonly NamedBytes[],
  scale: number | null = null,
  name: string | null = null,
): Outcome<BroughtIn> {
  const saved = files.filter(({ data }) => looksLikeDesign(data));
  if (saved.length > 0 && files.length > 1) {
    return {
      ok: false,
      problems: [
        problem('not-a-design', {
          file: saved[0]!.name,
          what: 'it is a saved design among other files; open it alone',
        }),
      ],
    };
  }
  if (saved.length === 1) {
    const opened = openDesign(saved[0]!.data, saved[0]!.name);
    if (!opened.ok) return opened;
    return { ...opened, value: { design: opened.value, from: 'design', unclaimed: [], sizeDoubts: null } };
  }
  return readTracings(files, scale, name);
}
