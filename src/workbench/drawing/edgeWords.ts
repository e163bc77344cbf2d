import type { EdgeWork, Neighbours } from '../../neighbours';
import type { EdgeJob, PieceId } from '../../pattern';

/** What may become of an edge besides being sewn to another, in the words of the bench. */
export const JOB_WORDS: Readonly<Record<Exclude<EdgeJob['kind'], 'joins'>, string>> = {
  left: 'left as it is',
  hem: 'hemmed',
  bound: 'bound',
  zip: 'closed by a zip',
  fold: 'cut on the fold',
};

const pieceName = ({ wholes }: Neighbours, piece: PieceId): string => wholes.get(piece)?.name ?? '';

/** `sewn to back and sleeve`, `hemmed`. */
export function sayJob(work: EdgeWork, neighbours: Neighbours): string {
  if (work.job.kind !== 'joins') return JOB_WORDS[work.job.kind];
  const isItself = work.joined.some((j) => j.piece === work.piece && j.edge === work.edge);
  if (isItself) return 'sewn to its other copy';
  const others = [...new Set(work.joined.map((j) => j.piece))];
  if (others.length === 1 && others[0] === work.piece) return 'sewn to its other edge';
  return `sewn to ${others.map((p) => pieceName(neighbours, p)).join(' and ')}`;
}

/** A job as the value of a choice, and back. */
export const jobKey = (job: EdgeJob): string =>
  job.kind === 'joins' ? `joins ${job.piece} / ${job.edge}` : job.kind;

/** A job that may be chosen. */
export interface JobChoice {
  readonly key: string;
  readonly words: string;
  readonly job: EdgeJob;
}

/** Everything an edge can be sewn to: the edges of all pieces by name; its own name means its other copy or other side. */
export function joinChoices(work: EdgeWork, { jobs, wholes }: Neighbours): readonly JobChoice[] {
  return [...jobs.edges].flatMap(([piece, works]) => {
    const names = [...new Set(works.map((w) => w.plainName))];
    return names.map((edge): JobChoice => {
      const job = { kind: 'joins', piece, edge } as const;
      const isOwn = piece === work.piece && edge === work.plainName;
      const words = isOwn ? 'sewn to its own other side' : `sewn to ${wholes.get(piece)!.name}, ${edge}`;
      return { key: jobKey(job), words, job };
    });
  });
}

export const plainChoices: readonly JobChoice[] = (['left', 'hem', 'bound', 'zip', 'fold'] as const).map(
  (kind) => ({ key: kind, words: JOB_WORDS[kind], job: { kind } }),
);
