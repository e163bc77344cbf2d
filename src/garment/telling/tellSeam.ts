import type { PanelId } from '../../panels';
import { luminance } from '../../pattern';
import { pathLength } from '../../geometry';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { MOST_LAYERS, layersAt } from './layers';
import { type RunNotch, endWords, runCrossings, runNotches } from './matching';
import { capital, counted, fineIn, lengthIn, listed, numbersOf, panelWords, titleStart } from './names';
import { lengthOffGrain } from './offGrain';
import { SHOWS_THROUGH, clothOf } from './pressScores';
import { type RunPressing, pressingsOf } from './pressings';
import {
  type RunSeam,
  type SewnRun,
  panelBeside,
  panelsBeside,
  runsOfStep,
  sewnRuns,
  sideOfRun,
} from './sewnRuns';
import type { StepTelling, TellingPart, Topic } from './stepTelling';
import { hollowParts, roundedParts } from './tellCurves';
import { openForZip } from './tellZip';
import { widthOfSeam } from './widths';

const part = (topic: Topic, text: string): TellingPart => ({ topic, text });

/** Runs of a step as they are known to pressings and crossings, which hold the very same objects. */
const runsOf = (garment: Garment, step: Step): readonly SewnRun[] => {
  const known = sewnRuns(garment).filter((r) => r.step === step);
  return known.length > 0 ? known : runsOfStep(garment, step);
};

/** The words that stand on the edges of the cut pieces: ` (marked “to 3” and “to 4”)`. */
function markedWords(garment: Garment, runs: readonly SewnRun[]): string {
  const beside = runs.flatMap((r) => [...panelsBeside(r, 1), ...panelsBeside(r, -1)]);
  const numbers = [...new Set(beside.flatMap((id) => garment.plan.numbers.get(id) ?? []))].sort(
    (a, b) => a - b,
  );
  return numbers.length > 0 ? ` (marked ${listed(numbers.map((n) => `“to ${n}”`))})` : '';
}

/** Which of two groups is laid on top: the one of fewer panels, or the later number. */
function onTop(garment: Garment, [left, right]: Step['joins']): Step['joins'] {
  const last = (ids: Step['joins'][0]): number =>
    Math.max(0, ...ids.map((id) => garment.plan.numbers.get(id) ?? 0));
  if (left.length !== right.length) return left.length < right.length ? [left, right] : [right, left];
  return last(left) > last(right) ? [left, right] : [right, left];
}

/** Whether a seam is sewn in the round, after those that close what it goes round. */
const goesRound = ({ needs }: Step): boolean => needs.some((n) => n.because.kind === 'goes round it');

function layPart(garment: Garment, step: Step, runs: readonly SewnRun[]): TellingPart {
  const [top, under] = onTop(garment, step.joins);
  const isOneUnit = top.some((id) => under.includes(id));
  if (isOneUnit || runs.every((r) => r.isClosed)) {
    const inner =
      runs.length > 0 ? [...panelsBeside(runs[0]!, 1), ...panelsBeside(runs[0]!, -1)] : [...top, ...under];
    return part(
      'lay',
      `Bring the two edges together, right sides facing: ${panelWords(garment, [...new Set(inner)])} meet here${markedWords(garment, runs)}.`,
    );
  }
  if (goesRound(step))
    return part(
      'lay',
      `Both go round by now: slip ${panelWords(garment, top)} over ${panelWords(garment, under)}, right sides together, seam on seam, edges level${markedWords(garment, runs)}.`,
    );
  return part(
    'lay',
    `Lay ${panelWords(garment, top)} on ${panelWords(garment, under)}, right sides together, edges level${markedWords(garment, runs)}.`,
  );
}

const MARK_WORDS = ['', 'single', 'double', 'triple'];

/** `single at 4.5 cm, double at 9.3 cm`. */
function notchWords(notches: readonly RunNotch[], length: (mm: number) => string): string {
  return notches
    .map(({ at, marks }) => `${MARK_WORDS[marks] ?? `${marks} strokes`} at ${length(at)}`)
    .join(', ');
}

/** On a seam that closes on itself: each notch, and how far on the next one is. */
function roundWords(notches: readonly RunNotch[], { path }: SewnRun, length: (mm: number) => string): string {
  const total = pathLength(path);
  const words = notches.map(({ at, marks }, i) => {
    const next = notches[i + 1]?.at ?? notches[0]!.at + total;
    return `${MARK_WORDS[marks] ?? `${marks} strokes`}, ${length(next - at)} on`;
  });
  return `${words.join(' ')} the first again`;
}

/** Which notches meet, where; and what is eased in between which. */
function matchParts(garment: Garment, run: SewnRun): TellingPart[] {
  const [length, fine] = [lengthIn(garment), fineIn(garment)];
  const notches = runNotches(garment, run, 1);
  const parts: TellingPart[] = [];
  if (notches.length > 0) {
    const where = run.isClosed
      ? `all round: ${roundWords(notches, run, length)}`
      : `from ${endWords(garment, run, true)}: ${notchWords(notches, length)}`;
    parts.push(part('match', `Notches ${where}.`));
  }
  const crossings = runCrossings(garment, run);
  if (crossings.length > 0) {
    const places = listed(crossings.map((c) => length(c.at)));
    parts.push(
      part(
        'match',
        `Pin first where the seams meet, ${places} from ${endWords(garment, run, true)}: seam on seam, their allowances pushed against each other.`,
      ),
    );
  }
  for (const { seam } of run.seams) {
    const eased = seam.eased.reduce((sum, e) => sum + e.width, 0);
    if (eased <= 0) continue;
    const fuller = seam.eased[0]!.side === 'a' ? seam.a : seam.b;
    parts.push(
      part(
        'match',
        `Between the two notches ease in ${fine(eased)} of ${panelWords(garment, [fuller])}: it is the fuller side. Pin closely and sew with it underneath.`,
      ),
    );
  }
  return parts;
}

/** The widths a run is sewn at: usually one. */
function sewPart(garment: Garment, step: Step, runs: readonly SewnRun[], hasZip: boolean): TellingPart {
  const length = lengthIn(garment);
  const widths = [...new Set(runs.flatMap((r) => r.seams.map((s) => length(widthOfSeam(garment, s.seam)))))];
  const total = runs.reduce((sum, r) => sum + pathLength(r.path), 0);
  const partial = step.kind === 'partial seam' ? partialWords(garment, step, runs) : null;
  const { length: corners } = step.corners;
  const to = corners > 1 ? `each of the ${corners} corners` : 'the corner';
  const way =
    corners > 0
      ? ` Sew in passes: to ${to}, stop with the needle down, turn the work, spread the clip and sew on.`
      : '';
  const round = goesRound(step) || runs.every((r) => r.isClosed) ? ' all the way round' : '';
  const long = hasZip ? '' : `, ${length(total)} long${round}`;
  const allowance = `Allowance ${widths.join(' and ')}`;
  return part('sew', `${partial ? `${allowance}. ${partial}` : `${allowance}${long}.`}${way}`);
}

/** A seam that is begun and left open, or finished. */
function partialWords(garment: Garment, step: Step, runs: readonly SewnRun[]): string {
  const labels = new Set(runs.flatMap((r) => r.seams.map((s) => s.seam.line.label)));
  const partner = garment.plan.steps.find(
    (s) =>
      s !== step &&
      s.kind === 'partial seam' &&
      s.piece === step.piece &&
      s.seams.some((id) => labels.has(garment.seamById.get(id)?.line.label ?? '')),
  );
  if (!partner) return 'Sew only as far as the seam is free, and leave the rest open.';
  if (partner.step < step.step)
    return `Finish the seam that was left open in step ${partner.step}: begin over its last stitches and sew to the end.`;
  const fine = lengthIn(garment);
  const run = runs[0];
  const rest = runsOf(garment, partner)[0];
  const openAtEnd = run && rest ? isNearer(run, rest) : true;
  const from = run
    ? endWords(garment, run, !openAtEnd ? false : true)
    : 'the end where the next line meets it';
  return `Begin at ${from} and stop about ${fine(20)} before the other end of this stretch; leave the rest open until step ${partner.step}.`;
}

/** Whether the end of one run is where another goes on, rather than its start. */
function isNearer(run: SewnRun, rest: SewnRun): boolean {
  const ends = [rest.path[0]![0], rest.path.at(-1)!.at(-1)!];
  const gap = (p: readonly number[]): number =>
    Math.min(...ends.map((e) => Math.hypot(e[0] - p[0]!, e[1] - p[1]!)));
  return gap(run.path.at(-1)!.at(-1)!) <= gap(run.path[0]![0]);
}

/** Corners to be set in: held, clipped, and only then sewn. */
function cornerParts(garment: Garment, step: Step): TellingPart[] {
  const fine = fineIn(garment);
  return [...new Set(step.corners.map((c) => c.clip))].map((clip) => {
    const count = step.corners.filter((c) => c.clip === clip).length;
    const what = count > 1 ? `its ${count} inner corners (ringed)` : 'inner corner (ringed)';
    const at = count > 1 ? 'each corner' : 'the corner';
    return part(
      'prepare',
      `${panelWords(garment, [clip])}, ${what}: sew a row of small stitches (1.5 to 2 mm) in the allowance, within ${fine(3)} of the stitching line, ${lengthIn(garment)(25)} to either side of ${at}. Then clip the allowance to ${at}, up to the stitches but not through them.`,
    );
  });
}

/** Panels whose edges along a run go off the grain and would stretch under the machine, and for how long, mm. */
function offGrain(
  garment: Garment,
  run: SewnRun,
): { readonly panels: readonly PanelId[]; readonly mm: number } {
  const { grain } = garment.pieceById.get(run.piece)!.whole;
  const sides = ([1, -1] as const).map((side) =>
    sideOfRun(garment, run, side).flatMap(({ panel, edge }) => {
      const off = lengthOffGrain(edge.path, grain);
      return off > 0 ? [{ panel, off }] : [];
    }),
  );
  return {
    panels: [...new Set(sides.flat().map((s) => s.panel.id))],
    mm: Math.max(...sides.map((s) => s.reduce((sum, e) => sum + e.off, 0))),
  };
}

/** What is done to a run's edges before they are pinned: held where they would stretch, clipped where they are hollow. */
function edgeParts(garment: Garment, run: SewnRun): TellingPart[] {
  const { panels, mm } = offGrain(garment, run);
  const hollow = hollowParts(garment, run, panels);
  if (panels.length === 0) return [...hollow];
  const which = listed(panels.map((id) => numbersOf(garment, [id])));
  return [
    part(
      'grain',
      `The edges of ${which} run off the grain for about ${lengthIn(garment)(mm)} and stretch easily: stay-stitch them in the allowance, just beside the stitching line, and do not pull them under the machine.`,
    ),
    ...hollow,
  ];
}

const WHY: Readonly<Record<RunPressing['because'], string>> = {
  nests: 'so that the crossing locks together later',
  bulk: 'away from the thicker side',
  darker: 'the darker cloth',
  usual: '',
  thick: 'since more than four seams come together here',
  zip: 'for the zip',
};

/** Which way the seam is pressed, and what is trimmed so that it does not show. */
function pressParts(garment: Garment, run: SewnRun): TellingPart[] {
  const pressing = pressingsOf(garment).runs.get(run);
  if (!pressing) return [];
  const why = WHY[pressing.because];
  if (pressing.towards === 0) return [part('press', `Press the allowances open${why ? `, ${why}` : ''}.`)];
  const towards: 1 | -1 = pressing.towards;
  const beside = (s: RunSeam, isUnder: boolean) => panelBeside(s, towards > 0 === isUnder ? -1 : 1);
  const to = panelsBeside(run, towards);
  const text = `Press both allowances towards ${panelWords(garment, to)}${why ? `, ${why}` : ''}.`;
  const shows = run.seams.filter((s) => {
    const [under, over] = [true, false].map((isUnder) =>
      luminance(clothOf(garment, beside(s, isUnder)).fill),
    );
    return over! - under! > SHOWS_THROUGH;
  });
  if (shows.length === 0) return [part('press', text)];
  const dark = [...new Set(shows.map((s) => beside(s, true)))];
  const trim = `Trim the allowance of ${panelWords(garment, dark)} ${fineIn(garment)(3)} narrower than the other: it is darker, lies under the lighter cloth and would show through.`;
  return [part('press', text), part('press', trim)];
}

function layerParts(garment: Garment, run: SewnRun): TellingPart[] {
  const thick = layersAt(garment).filter((l) => l.through === run && l.most > 6);
  if (thick.length === 0) return [];
  const most = Math.max(...thick.map((l) => l.most));
  const open = Math.max(...thick.map((l) => l.allOpen));
  const cure = most > MOST_LAYERS ? `, or press the seams open there (${open} layers)` : '';
  return [
    part(
      'layers',
      `${capital(counted(most, 'layer'))} of cloth lie over one another where the seams meet: sew slowly over them, trim the allowances in steps${cure}.`,
    ),
  ];
}

/** A seam within a piece, or a part of one. */
export function tellSeam(garment: Garment, step: Step): StepTelling {
  const runs = runsOf(garment, step);
  const [left, right] = step.joins;
  const name = titleStart(garment, step.piece);
  const isOneUnit = left.some((id) => right.includes(id));
  const zip = openForZip(garment, step);
  const title = isOneUnit
    ? `${name}close the seam of ${numbersOf(garment, [...new Set([...left, ...right])])}`
    : `${name}sew ${numbersOf(garment, left)} to ${numbersOf(garment, right)}`;
  return {
    title: capital(title),
    parts: [
      ...cornerParts(garment, step),
      ...runs.flatMap((r) => edgeParts(garment, r)),
      layPart(garment, step, runs),
      ...runs.flatMap((r) => matchParts(garment, r)),
      sewPart(garment, step, runs, zip !== null),
      ...(zip ? [zip] : []),
      ...runs.flatMap((r) => roundedParts(garment, r)),
      ...runs.flatMap((r) => pressParts(garment, r)),
      ...runs.flatMap((r) => layerParts(garment, r)),
    ],
  };
}
