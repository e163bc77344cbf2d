import { type MeantOff, type Problem, placeAtSewn, problem, sewnEdge, middleOfEdge } from '../pattern';
import type { LineEnd, LineMeeting } from './lineMeeting';
import { type Neighbour, type Neighbours, isImageOf, sameMeeting } from './neighbour';
import { sameEdge } from './seamJoin';

/**
 * How lines that miss each other over a seam are told, mm: within 1/16 in a hint, to 3 mm a warning, beyond an error (Threads no. 200,
 * "10 Patternwork Skills": keep to 1/16 in, 1/8 in works for many; fashion-incubator.com: 1/4 in was judged a fault).
 */
export const MISS_HINT = 1.5;
export const MISS_WARNING = 3;
/** Below this lines meet, mm: an order finer than anybody sews. */
export const LINES_MEET = 0.05;

/** Whether the user said that a line is meant to miss here. */
export const isMeantOff = (meantOff: readonly MeantOff[], { a, b }: LineMeeting): boolean =>
  [a, b].some((e) => meantOff.some((m) => m.line === e.line && m.end === e.end));

function missProblem({ meeting, seam }: Miss, pieceOf: (e: LineEnd) => string): Problem {
  const { a, b, mm } = meeting;
  const facts = {
    line: a.line,
    end: a.end,
    other: b.line,
    labels: [a.label, b.label],
    seam: [seam.a, seam.b],
    mm,
  } as const;
  const code =
    mm <= MISS_HINT ? 'lines-meet-nearly' : mm <= MISS_WARNING ? 'lines-meet-off' : 'lines-do-not-meet';
  return problem(code, facts, pieceOf(a), a.at);
}

interface Miss {
  readonly meeting: LineMeeting;
  readonly seam: Neighbour;
}

/** Whether two misses are one to the sewist: the same drawn ends, or one line on both sides of the body. */
const isTold = (wholes: Neighbours['wholes'], one: Miss, other: Miss): boolean =>
  sameMeeting(one.meeting, other.meeting) ||
  (one.meeting.a.line === other.meeting.a.line &&
    one.meeting.b.line === other.meeting.b.line &&
    isImageOf(wholes, one.seam.join, other.seam.join));

/** Lines that miss each other, each two drawn ends once: where they miss most. */
function missProblems({ seams, wholes }: Neighbours, meantOff: readonly MeantOff[]): Problem[] {
  const all = seams
    .flatMap((seam) => seam.meetings.map((meeting) => ({ meeting, seam })))
    .filter(({ meeting }) => meeting.mm >= LINES_MEET && !isMeantOff(meantOff, meeting));
  const worst = all.filter(
    ({ meeting, seam }, i) =>
      !all.some(
        (o, k) =>
          k !== i &&
          isTold(wholes, o, { meeting, seam }) &&
          (o.meeting.mm > meeting.mm + 1e-6 || (o.meeting.mm > meeting.mm - 1e-6 && k < i)),
      ),
  );
  return worst.map((m) => missProblem(m, (e) => wholes.get(e.piece)!.name));
}

/** How far a seam's difference is from what is meant, mm; 0 inside it. */
export function beyondEase({ walk }: Pick<Neighbour, 'walk'>): number {
  const { difference, ease } = walk;
  return Math.max(0, difference - ease.most, ease.least - difference);
}

/** A cap is joined by two armholes: each part may be eased by half of what the whole cap takes, but the walk tells the parts apart. */
function lengthProblems({ seams, wholes }: Neighbours): Problem[] {
  const told = seams.filter(
    (s, i) => !seams.slice(0, i).some((o) => isImageOf(wholes, o.join, s.join) && sameLengths(o, s)),
  );
  return told.flatMap((seam): Problem[] => {
    const beyond = beyondEase(seam);
    if (beyond <= MISS_HINT) return [];
    const { join, lengthA, lengthB, ease } = seam.walk;
    const whole = wholes.get(join.a.piece)!;
    const middle = (join.a.from + join.a.to) / 2;
    const at = placeAtSewn(sewnEdge(whole, join.a.edge), middle).point;
    const facts = { a: seam.a, b: seam.b, lengthA, lengthB, least: ease.least, most: ease.most };
    return [
      problem(beyond <= MISS_WARNING ? 'seam-lengths-nearly' : 'seam-lengths-differ', facts, whole.name, at),
    ];
  });
}

const sameLengths = (a: Neighbour, b: Neighbour): boolean =>
  Math.abs(a.walk.lengthA - b.walk.lengthA) < LINES_MEET &&
  Math.abs(a.walk.lengthB - b.walk.lengthB) < LINES_MEET;

/** One question per piece, placed at the first edge it is about. */
function openQuestions({ jobs, wholes }: Neighbours): Problem[] {
  return [...jobs.edges].flatMap(([piece, works]): Problem[] => {
    const open = works.filter((w) => !w.isSure);
    if (open.length === 0) return [];
    const whole = wholes.get(piece)!;
    const names = [...new Set(open.map((w) => w.plainName))];
    return [
      problem(
        'edge-job-unknown',
        { piece: whole.name, edges: names },
        whole.name,
        middleOfEdge(whole, open[0]!.edge),
      ),
    ];
  });
}

/** Both sides of a joined seam with different allowances: the cut edges would not lie on each other. */
function widthProblems(
  { seams, wholes }: Neighbours,
  widthOf: (piece: Neighbour['join']['a']) => number,
): Problem[] {
  const told = seams.filter((s, i) => !seams.slice(0, i).some((o) => isImageOf(wholes, o.join, s.join)));
  return told.flatMap((seam): Problem[] => {
    const { a, b } = seam.join;
    const [widthA, widthB] = [widthOf(a), widthOf(b)];
    if (sameEdge(a, b) || Math.abs(widthA - widthB) < LINES_MEET) return [];
    const whole = wholes.get(a.piece)!;
    return [
      problem(
        'joined-widths-differ',
        { a: seam.a, b: seam.b, widthA, widthB },
        whole.name,
        middleOfEdge(whole, a.edge),
      ),
    ];
  });
}

/**
 * What a sewist should know of the seams between pieces: edges without a job, lengths that differ beyond the ease meant, lines that miss
 * each other, allowances that differ.
 * @param widthOf allowance of an edge, mm
 */
export const neighbourProblems = (
  neighbours: Neighbours,
  meantOff: readonly MeantOff[],
  widthOf: (side: Neighbour['join']['a']) => number,
): readonly Problem[] => [
  ...openQuestions(neighbours),
  ...lengthProblems(neighbours),
  ...missProblems(neighbours, meantOff),
  ...widthProblems(neighbours, widthOf),
];
