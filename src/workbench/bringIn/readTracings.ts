import { designFromTracings, readTracing, type Tracing, type UnclaimedShape } from '../../files';
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

/**
 * Any number of tracings into one new design, all or nothing. Apart from readFiles, so that the first start need not load the checks
 * of saved designs.
 */
export function readTracings(
  files: readonly NamedBytes[],
  scale: number | null = null,
  name: string | null = null,
): Outcome<BroughtIn> {
  const read = files.map(({ name: file, data }) => readTracing(data, file, scale === null ? {} : { scale }));
  const faults = read.flatMap((r): readonly Problem[] => (r.ok ? [] : r.problems));
  const [first, ...others] = faults;
  if (first) return { ok: false, problems: [first, ...others] };
  const tracings = read.flatMap((r): Tracing[] => (r.ok ? [r.value] : []));
  if (tracings.length === 0) return { ok: false, problems: [problem('file-empty', { file: 'the choice' })] };
  const design = designFromTracings(tracings, name === null ? {} : { name });
  return {
    ok: true,
    value: { design, from: 'tracing', unclaimed: tracings.flatMap((t) => t.unclaimed) },
    problems: read.flatMap((r) => r.problems),
  };
}
