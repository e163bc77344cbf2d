import { type Pt } from '../../geometry';
import type { SeamId } from '../../panels';
import { type PieceId, remember } from '../../pattern';
import type { Garment } from '../garment';
import { type SeamMeeting, seamMeetings, wayAlong } from './crossings';
import { type PressReason, type Preference, preferenceOf } from './pressScores';
import { type SewnRun, sewnRuns } from './sewnRuns';

/** Where both allowances of a run lie: 1 on its right, -1 on its left, 0 pressed open. */
export interface RunPressing {
  readonly run: SewnRun;
  readonly towards: 1 | -1 | 0;
  readonly because: PressReason;
}

/** A crossing whose two parts cannot lie in opposite directions, and why. */
export interface NotNesting {
  readonly piece: PieceId;
  readonly at: Pt;
  /** same seam: one seam arrives from both sides. ring: the crossings round it ask for opposite things. many: more than four seams meet. */
  readonly why: 'same seam' | 'ring' | 'many';
}

export interface Pressings {
  readonly runs: ReadonlyMap<SewnRun, RunPressing>;
  readonly notNesting: readonly NotNesting[];
}

/** Two runs that nest where `towards` of the one is `sign` times that of the other. */
interface Link {
  readonly a: SewnRun;
  readonly b: SewnRun;
  readonly sign: 1 | -1;
  readonly meeting: SeamMeeting;
}

/** A crossing: one seam arrives from each side. */
export const isCrossing = ({ enders }: Pick<SeamMeeting, 'enders'>): boolean =>
  enders.length === 2 && enders[0]!.side !== enders[1]!.side;

function linkOf(meeting: SeamMeeting): Link {
  const [a, b] = meeting.enders as [SeamMeeting['enders'][0], SeamMeeting['enders'][0]];
  const sign = wayAlong(a, meeting.direction) === wayAlong(b, meeting.direction) ? -1 : 1;
  return { a: a.run, b: b.run, sign, meeting };
}

/** Runs that links tie together, each with its sense against the first; and the links that contradict those before them. */
function tiedTo(first: SewnRun, links: readonly Link[]): { senses: Map<SewnRun, 1 | -1>; broken: Link[] } {
  const senses = new Map<SewnRun, 1 | -1>([[first, 1]]);
  const broken: Link[] = [];
  const used = new Set<Link>();
  const queue = [first];
  for (let run = queue.shift(); run; run = queue.shift()) {
    for (const link of links.filter((l) => !used.has(l) && (l.a === run || l.b === run))) {
      used.add(link);
      const other = link.a === run ? link.b : link.a;
      const wanted = (senses.get(run)! * link.sign) as 1 | -1;
      const known = senses.get(other);
      if (known === undefined) {
        senses.set(other, wanted);
        queue.push(other);
      } else if (known !== wanted) broken.push(link);
    }
  }
  return { senses, broken };
}

/** Panel seams that a zip is set into. */
function zipSeams({ design, seams }: Garment): ReadonlySet<SeamId> {
  const lines = design.closings.flatMap(({ on }) => (on.kind === 'line' ? [on.line] : []));
  return new Set(seams.filter((s) => lines.includes(s.line.line) && !s.line.mirrored).map((s) => s.id));
}

/** Runs that must lie open: a zip is set in, or more than four seams come together. */
function openRuns(garment: Garment, meetings: readonly SeamMeeting[]): Map<SewnRun, 'thick' | 'zip'> {
  const zips = zipSeams(garment);
  const open = new Map<SewnRun, 'thick' | 'zip'>();
  for (const m of meetings)
    if (m.enders.length > 2)
      for (const run of [m.through, ...m.enders.map((e) => e.run)]) open.set(run, 'thick');
  for (const run of sewnRuns(garment)) if (run.seams.some((s) => zips.has(s.seam.id))) open.set(run, 'zip');
  return open;
}

/** Why a run of a tied set lies as it does: its own reason where that agrees with what was chosen for all. */
const reasonOf = (own: Preference, towards: number, isTied: boolean): PressReason =>
  isTied && own.score * towards < 0 ? 'nests' : own.because;

/**
 * How the allowances of all panel seams are pressed, decided for the whole garment at once. At a crossing the two parts of the crossed
 * line lie in opposite directions, so that the crossing nests (common practice, no source); runs tied together in this way go the way
 * that serves most of them: away from bulk, else towards the darker cloth (ajpadilla.com, b-quilts.com, n.d.), else as is usual. Open
 * where more than four seams meet, and where a zip is set in. Remembered.
 */
export const pressingsOf = remember((garment: Garment): Pressings => {
  const meetings = seamMeetings(garment);
  const open = openRuns(garment, meetings);
  const many = meetings.filter((m) => m.enders.length > 2);
  const links = meetings
    .filter(isCrossing)
    .map(linkOf)
    .filter((l) => !open.has(l.a) && !open.has(l.b));
  const runs = new Map<SewnRun, RunPressing>();
  const broken: Link[] = [];
  for (const run of sewnRuns(garment)) {
    const lies = open.get(run);
    if (lies) runs.set(run, { run, towards: 0, because: lies });
    if (runs.has(run)) continue;
    const tied = tiedTo(run, links);
    broken.push(...tied.broken);
    const wishes = new Map(
      [...tied.senses.keys()].map((r) => [r, preferenceOf(garment, r, meetings)] as const),
    );
    const total = [...tied.senses].reduce((sum, [r, sense]) => sum + sense * wishes.get(r)!.score, 0);
    const way = total >= 0 ? 1 : -1;
    for (const [r, sense] of tied.senses) {
      const towards = (sense * way) as 1 | -1;
      runs.set(r, { run: r, towards, because: reasonOf(wishes.get(r)!, towards, tied.senses.size > 1) });
    }
  }
  const notNesting = [
    ...many.map((m): NotNesting => ({ piece: m.piece, at: m.at, why: 'many' })),
    ...broken.map(({ a, b, meeting: { piece, at } }): NotNesting => ({
      piece,
      at,
      why: a === b ? 'same seam' : 'ring',
    })),
  ];
  return { runs, notNesting };
});

/** How each panel seam is pressed: both allowances towards panel a or panel b, or open. Remembered. */
export const pressings = remember((garment: Garment): ReadonlyMap<SeamId, 'a' | 'b' | 'open'> => {
  const out = new Map<SeamId, 'a' | 'b' | 'open'>();
  for (const { run, towards } of pressingsOf(garment).runs.values())
    for (const { seam, forward } of run.seams)
      out.set(seam.id, towards === 0 ? 'open' : towards > 0 === forward ? 'a' : 'b');
  return out;
});
