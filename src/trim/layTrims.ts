import type { PanelledPiece } from '../panels';
import { type Design, type Problem, problem, remember } from '../pattern';
import { type SewingPlan, type StepKey, type TrimStrip, trimStrips } from '../sewing';
import { type Bend, bendOf, stripEdges } from './trimBend';
import { LayingTimes, type Sewn, endWord, hiddenEnds, orderOf } from './trimEnds';
import { endAllowance, joinsIn, lyingLength, mitresOf } from './trimLength';
import { bendProblems, endProblems, showThroughProblems } from './trimProblems';
import type { Hidden, TrimRun } from './trimRun';

type Settings = Pick<Design, 'trims' | 'colours'> & {
  readonly allowances: Pick<Design['allowances'], 'newSeam'>;
};

/** What is laid on one piece. */
interface Laid {
  readonly runs: readonly TrimRun[];
  readonly problems: readonly Problem[];
}

/** A strip with all that is measured of it. */
function runOf(
  strip: TrimStrip,
  hidden: readonly [Hidden, Hidden],
  bend: Bend,
  lies: number,
  cut: number,
  times: LayingTimes,
): TrimRun {
  const { key, trim, piece, line, label, path, isClosed } = strip;
  const joins = joinsIn(cut, trim);
  return {
    ...{ key, trim, piece, line, lineLabel: label, path, isClosed, copy: 1, hidden, joins },
    ends: [endWord(hidden[0]), endWord(hidden[1])],
    length: cut + joins * trim.width,
    edgeLengths: stripEdges(lies, trim.width, bend.turning),
    strain: trim.width / (2 * bend.tightest.radius),
    afterStep: times.lastSeam(strip),
    step: times.stepOf(strip),
  };
}

/** What was last worked out for a piece is kept while it, the trims and the order of its steps stay as they were. */
const layOnce = remember(
  (
    piece: PanelledPiece,
    trims: Settings['trims'],
    colours: Settings['colours'],
    newSeam: number,
    seamSteps: readonly number[],
    steps: readonly (string | number)[],
    roundSteps: readonly number[],
  ): Laid => {
    const stepOfSeam = new Map(piece.seams.map((s, i) => [s.id, seamSteps[i]!] as const));
    const rounds = new Map(
      roundSteps.flatMap((step, i) => (i % 2 === 0 ? [[step, roundSteps[i + 1] === 1] as const] : [])),
    );
    const stepOf = new Map(
      steps.flatMap((key, i) => (i % 2 === 0 ? [[key as StepKey, steps[i + 1] as number]] : [])),
    );
    return layOn(piece, { trims, colours, newSeam }, { stepOfSeam, stepOf, rounds });
  },
);

/**
 * Steps that sew a seam in the round, as step, 1 or 0, …: 1 where trims go all round. What is laid on such a seam comes after the seams it
 * crosses: at the outline a trim meets its own start there, or shows its raw end.
 */
function roundSteps(
  { trims }: Settings,
  pieces: readonly PanelledPiece[],
  { steps, stepOfSeam }: Pick<SewingPlan, 'steps' | 'stepOfSeam'>,
): number[] {
  const round = steps.filter(
    (s) => s.seams.length > 0 && s.needs.some((n) => n.because.kind === 'goes round it'),
  );
  if (round.length === 0) return [];
  const trimmed = new Set(
    trims.flatMap(({ on }) => (on.kind === 'line' && on.from <= 0 && on.to >= 1 ? [on.line] : [])),
  );
  const seams = pieces.flatMap((p) => p.seams);
  return round.flatMap(({ step }) => [
    step,
    seams.every((s) => stepOfSeam.get(s.id) !== step || trimmed.has(s.line.line)) ? 1 : 0,
  ]);
}

/** The steps a piece's trims are laid in, as key, step, key, step. */
const trimSteps = ({ steps }: Pick<SewingPlan, 'steps'>, { whole }: PanelledPiece): (string | number)[] =>
  steps.flatMap((s) => (s.kind === 'trim' && s.piece === whole.piece.id ? [s.key, s.step] : []));

function layOn(
  piece: PanelledPiece,
  settings: Pick<Settings, 'trims' | 'colours'> & { readonly newSeam: number },
  plan: Sewn,
): Laid {
  const order = orderOf(plan);
  const times = new LayingTimes(plan);
  const strips = trimStrips(piece, settings.trims, order);
  const widths = new Map(strips.map((s) => [s.key, s.trim.width] as const));
  const { newSeam } = settings;
  const problems: Problem[] = [];
  const runs = strips.map((strip) => {
    const hidden = hiddenEnds(strip, strips, piece, order, times);
    const bend = bendOf(strip.path, strip.isClosed);
    const lies = lyingLength(piece, strip);
    const allowance = (h: Hidden): number =>
      endAllowance(h, newSeam, h.by === 'trim' || h.by === 'tuck' ? (widths.get(h.over) ?? 0) : 0);
    const ends = allowance(hidden[0]) + allowance(hidden[1]);
    problems.push(...bendProblems(strip.trim, bend, piece.whole.name));
    problems.push(...endProblems(strip, hidden, strips, piece, order));
    return runOf(strip, hidden, bend, lies, lies + ends + mitresOf(bend, strip.trim.width), times);
  });
  problems.push(...showThroughProblems(strips, piece, settings.colours));
  return { runs, problems };
}

/** Trims on a path of their own that lies on no part of its piece. */
const lostTrims = (
  { trims }: Settings,
  runs: readonly TrimRun[],
  pieces: readonly PanelledPiece[],
): Problem[] =>
  trims.flatMap((trim) => {
    const { on } = trim;
    if (on.kind !== 'path' || runs.some((r) => r.trim.id === trim.id)) return [];
    const whole = pieces.find((p) => p.whole.piece.id === on.piece)?.whole;
    return whole
      ? [problem('trim-lies-nowhere', { trim: trim.name }, whole.name, on.path[0]?.[0] ?? null)]
      : [];
  });

/**
 * Lay each trim along its panel line or its own path: on the line, on its mirror image, and on both copies of a piece cut as a pair. Its
 * raw ends disappear into the outline's seam or hem, under a trim laid later, or into a seam sewn later, as the plan has them; an end
 * that nothing covers is turned under and said, with the change that would cover it.
 * @param settings trims in the order in which those of one step are laid; `newSeam` is what ends get in a seam, mm
 * @returns runs in the order of laying. A trim whose line divides nothing has none.
 */
export function layTrims(
  settings: Settings,
  pieces: readonly PanelledPiece[],
  plan: Pick<SewingPlan, 'steps' | 'stepOfSeam'>,
): { readonly trims: readonly TrimRun[]; readonly problems: readonly Problem[] } {
  if (settings.trims.length === 0) return { trims: [], problems: [] };
  const { trims: all, colours, allowances } = settings;
  const rounds = roundSteps(settings, pieces, plan);
  const laid = pieces.map((piece) => {
    const seamSteps = piece.seams.map((s) => plan.stepOfSeam.get(s.id) ?? 0);
    return {
      piece,
      ...layOnce(piece, all, colours, allowances.newSeam, seamSteps, trimSteps(plan, piece), rounds),
    };
  });
  const trims = laid
    .flatMap(({ piece, runs }) =>
      piece.whole.piece.cutting === 'pair' ? runs.flatMap((r): TrimRun[] => [r, { ...r, copy: 2 }]) : runs,
    )
    .sort((a, b) => (a.step ?? a.afterStep) - (b.step ?? b.afterStep));
  return { trims, problems: [...laid.flatMap((l) => l.problems), ...lostTrims(settings, trims, pieces)] };
}
