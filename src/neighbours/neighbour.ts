import { type EdgeAnswer, type WholePiece, remember } from '../pattern';
import { edgeJobs } from './edgeJobs';
import { type LineEnd, type LineMeeting, type SeamMeetings, meetLines } from './lineMeeting';
import { type EdgeJobs, type SeamJoin, type SeamSide, sameEdge } from './seamJoin';
import { type SeamWalk, type Wholes, walkSeam } from './seamWalk';

/** A seam between two outline edges with the lines that reach it. */
export interface Neighbour extends SeamMeetings {
  readonly join: SeamJoin;
  readonly walk: SeamWalk;
  /** `front/side seam`: piece and edge by name. */
  readonly a: string;
  readonly b: string;
}

/** All that is known of a garment's edges and seams. */
export interface Neighbours {
  readonly jobs: EdgeJobs;
  readonly wholes: Wholes;
  /** In the order of the seams. The centre seam of a pair is among them, with nothing to miss. */
  readonly seams: readonly Neighbour[];
}

const sideName = (wholes: Wholes, { piece, edge }: SeamSide): string => {
  const whole = wholes.get(piece)!;
  return `${whole.name}/${whole.edges[edge]!.name}`;
};

interface Walked {
  readonly jobs: EdgeJobs;
  readonly wholes: Wholes;
  readonly walks: readonly SeamWalk[];
}

/** Seams depend on pieces and answers only: moving a line does not walk them again. */
const walkOnce = remember((answers: readonly EdgeAnswer[], pieces: readonly WholePiece[]): Walked => {
  const jobs = edgeJobs(pieces, answers);
  const wholes = new Map(pieces.map((w) => [w.piece.id, w] as const));
  return { jobs, wholes, walks: jobs.joins.map((join) => walkSeam(wholes, join)) };
});

const meetOnce = remember((walked: Walked, ends: readonly LineEnd[]): Neighbours => ({
  jobs: walked.jobs,
  wholes: walked.wholes,
  seams: walked.walks.map((walk): Neighbour => ({
    join: walk.join,
    walk,
    a: sideName(walked.wholes, walk.join.a),
    b: sideName(walked.wholes, walk.join.b),
    ...meetLines(walked.wholes, walk, ends),
  })),
}));

/** Every seam between outline edges, walked, with the lines that meet or miss over it. Remembered. */
export const neighboursOf = (
  wholes: readonly WholePiece[],
  answers: readonly EdgeAnswer[],
  ends: readonly LineEnd[],
): Neighbours => meetOnce(walkOnce(answers, wholes), ends);

/** Whether two seams are each other's mirror image on the garment: the same edges by plain name. */
export function isImageOf(wholes: Wholes, one: SeamJoin, other: SeamJoin): boolean {
  const plain = ({ piece, edge }: SeamSide): string =>
    `${piece}/${wholes.get(piece)!.edges[edge]!.plainName}`;
  return (
    plain(one.a) === plain(other.a) &&
    plain(one.b) === plain(other.b) &&
    !(sameEdge(one.a, other.a) && sameEdge(one.b, other.b))
  );
}

const drawnEnd = ({ line, end }: LineEnd): string => `${line} ${end}`;

/** The same two drawn line ends, on either side of the body. */
export const sameMeeting = (one: LineMeeting, other: LineMeeting): boolean =>
  drawnEnd(one.a) === drawnEnd(other.a) && drawnEnd(one.b) === drawnEnd(other.b);
