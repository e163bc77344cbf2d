import {
  designFromTracings,
  readTracing,
  type SizedBy,
  type Tracing,
  type UnclaimedShape,
} from '../../files';
import { boxOfPoints, flattenRing } from '../../geometry';
import { isGarmentSized, problem, type Design, type Outcome, type Problem } from '../../pattern';

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
  /** Why its size is doubtful, each reason once; null for a saved design, whose size was settled. */
  readonly sizeDoubts: readonly SizeDoubt[] | null;
}

/** Why a tracing's size is doubtful. */
export type SizeDoubt = Exclude<SizedBy, 'units'> | 'no garment';

function doubtsOf(tracings: readonly Tracing[]): SizeDoubt[] {
  const sides = tracings.flatMap((t) =>
    t.pieces.map(({ outline }) => {
      const box = boxOfPoints(flattenRing(outline));
      return Math.max(box.maxX - box.minX, box.maxY - box.minY);
    }),
  );
  const said = tracings.flatMap(({ sizedBy }): SizeDoubt[] => (sizedBy === 'units' ? [] : [sizedBy]));
  return [...new Set([...said, ...(isGarmentSized(sides) ? [] : (['no garment'] as const))])];
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
    value: {
      design,
      from: 'tracing',
      unclaimed: tracings.flatMap((t) => t.unclaimed),
      sizeDoubts: doubtsOf(tracings),
    },
    problems: read.flatMap((r) => r.problems),
  };
}
