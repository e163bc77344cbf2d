import {
  designFromTracings,
  looksLikeDesign,
  openDesign,
  readTracing,
  type Tracing,
  type UnclaimedShape,
} from '../../files';
import { problem, type Design, type Outcome, type Problem } from '../../pattern';

/** A file's name and bytes, however they came. */
export interface NamedBytes {
  readonly name: string;
  readonly data: Uint8Array | string;
}

/** A design to put on the table, and what the bench must still ask about. */
export interface BroughtIn {
  readonly design: Design;
  readonly from: 'tracing' | 'design';
  readonly unclaimed: readonly UnclaimedShape[];
}

const nameFrom = (files: readonly NamedBytes[]): string =>
  files.length === 1
    ? files[0]!.name.replace(/^.*[\\/]/, '').replace(/\.(svgz?|json)$/i, '')
    : `${files.length} tracings`;

/**
 * Read one saved design, or any number of tracings into one new design. All or nothing: one file that cannot be used refuses
 * them all, so that the work on the table stays as it is.
 * @param scale mm per unit for tracings that do not say how large they are
 * @param name of the new design; else it is named after the file
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
    return opened.ok ? { ...opened, value: { design: opened.value, from: 'design', unclaimed: [] } } : opened;
  }
  const read = files.map(({ name: file, data }) => readTracing(data, file, scale === null ? {} : { scale }));
  const faults = read.flatMap((r): readonly Problem[] => (r.ok ? [] : r.problems));
  const [first, ...others] = faults;
  if (first) return { ok: false, problems: [first, ...others] };
  const tracings = read.flatMap((r): Tracing[] => (r.ok ? [r.value] : []));
  if (tracings.length === 0) return { ok: false, problems: [problem('file-empty', { file: 'the choice' })] };
  const design = designFromTracings(tracings, { name: name ?? nameFrom(files) });
  return {
    ok: true,
    value: { design, from: 'tracing', unclaimed: tracings.flatMap((t) => t.unclaimed) },
    problems: read.flatMap((r) => r.problems),
  };
}
