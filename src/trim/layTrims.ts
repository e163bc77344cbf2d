import type { Path } from '../geometry';
import type { LaidLine, PanelledPiece, SeamId, Stretch } from '../panels';
import { problem } from '../pattern';
import type { Design, LineId, Problem, Trim } from '../pattern';
import type { SewingPlan } from '../sewing';
import { bendOf, stripEdges } from './trimBend';
import type { Bend } from './trimBend';
import type { TrimEnd, TrimRun } from './trimRun';

/** Turned under at a raw end that nothing covers, mm (12–25 mm; common practice, no source). */
export const TURN_UNDER = 15;

/** Edge strain up to which a straight-edged ribbon still lies flat, and up to which a bias strip does (common practice, no source). */
export const RIBBON_STRAIN = 0.02;
export const BIAS_STRAIN = 0.1;

type Settings = Pick<Design, 'trims'> & { readonly allowances: Pick<Design['allowances'], 'newSeam'> };
type Sewn = Pick<SewingPlan, 'stepOfSeam'>;

/** Connected stretches along one laid line that one length of trim covers. */
interface Strip {
  readonly line: LaidLine;
  readonly stretches: readonly Stretch[];
}

const lineOf = ({ on }: Trim): LineId | null => (on.kind === 'line' ? on.line : null);

/** One piece, with what the trims on it have to ask. */
class TrimmedPiece {
  readonly piece: PanelledPiece;
  private readonly trims: readonly Trim[];
  private readonly stepOfSeam: ReadonlyMap<SeamId, number>;

  constructor(piece: PanelledPiece, { trims }: Settings, { stepOfSeam }: Sewn) {
    this.piece = piece;
    this.trims = trims;
    this.stepOfSeam = stepOfSeam;
  }

  private stepOf(stretch: Stretch): number {
    return this.stepOfSeam.get(stretch.seam) ?? 0;
  }

  /** The step that finishes a laid line. */
  lastStep(line: LaidLine): number {
    const runs = this.piece.runs.filter((r) => r.line === line);
    return Math.max(0, ...runs.flatMap((r) => r.stretches.map((s) => this.stepOf(s))));
  }

  /** Other lines' stretches that come to a junction. */
  private meeting(line: LaidLine, node: number): { line: LaidLine; stretch: Stretch }[] {
    return this.piece.runs
      .filter((r) => r.line !== line)
      .flatMap((r) => r.stretches.map((stretch) => ({ line: r.line, stretch })))
      .filter(({ stretch }) => stretch.from === node || stretch.to === node);
  }

  private isSwallowed(line: LaidLine, node: number): boolean {
    const own = this.lastStep(line);
    return this.meeting(line, node).some(({ stretch }) => this.stepOf(stretch) > own);
  }

  /** A line's strips: parted where a seam sewn later runs across. */
  strips(line: LaidLine): Strip[] {
    return this.piece.runs
      .filter((r) => r.line === line && r.stretches.length > 0)
      .flatMap(({ stretches }) => {
        const parts: Stretch[][] = [[]];
        stretches.forEach((s, i) => {
          parts.at(-1)!.push(s);
          if (i + 1 < stretches.length && this.isSwallowed(line, s.to)) parts.push([]);
        });
        return parts.map((part): Strip => ({ line, stretches: part }));
      });
  }

  private isLaidAfter(trim: Trim, line: LaidLine, other: LaidLine): boolean {
    const rank = (t: Trim): number => this.trims.indexOf(t);
    const [own, later] = [this.lastStep(line), this.lastStep(other)];
    return this.trims.some(
      (t) => lineOf(t) === other.line && (later > own || (later === own && rank(t) > rank(trim))),
    );
  }

  endAt(trim: Trim, line: LaidLine, node: number): TrimEnd {
    if (this.piece.outlineNodes.has(node)) return 'seam';
    const others = this.meeting(line, node);
    if (others.some((o) => this.isLaidAfter(trim, line, o.line))) return 'under trim';
    return this.isSwallowed(line, node) ? 'seam' : 'turned under';
  }
}

/** Sewn length of a strip, mm: what lies in darts is left out, as it is in the seams. */
function stripLength(piece: PanelledPiece, { stretches }: Strip): number {
  const seams = new Set(stretches.map((s) => s.seam));
  return piece.seams.reduce((sum, s) => sum + (seams.has(s.id) ? s.lengthA : 0), 0);
}

function bendProblems(trim: Trim, bend: Bend, piece: string): Problem[] {
  const { radius, at } = bend.tightest;
  const strain = trim.width / (2 * radius);
  const out = bend.corners.map((corner) => problem('trim-corner', { trim: trim.name }, piece, corner));
  if (radius < trim.width / 2)
    out.push(problem('trim-curve-too-tight', { trim: trim.name, width: trim.width, radius }, piece, at));
  else if (strain > RIBBON_STRAIN) {
    const facts = {
      trim: trim.name,
      percent: Math.round(strain * 1000) / 10,
      needsGathering: strain > BIAS_STRAIN,
    };
    out.push(problem('trim-strained', facts, piece, at));
  }
  return out;
}

function laidStrip(
  trim: Trim,
  on: TrimmedPiece,
  strip: Strip,
  newSeam: number,
): { run: TrimRun; problems: Problem[] } {
  const { piece } = on;
  const path: Path = strip.stretches.flatMap((s) => s.path);
  const nodes = [strip.stretches[0]!.from, strip.stretches.at(-1)!.to] as const;
  const isClosed = nodes[0] === nodes[1];
  const ends = [on.endAt(trim, strip.line, nodes[0]), on.endAt(trim, strip.line, nodes[1])] as const;
  const bend = bendOf(path, isClosed);
  const length = stripLength(piece, strip);
  const problems = bendProblems(trim, bend, piece.whole.name);
  ends.forEach((end, i) => {
    if (end !== 'turned under' || isClosed) return; // on a ring the turned-under end covers the other one
    const facts = { trim: trim.name, line: strip.line.line, allowance: TURN_UNDER };
    problems.push(problem('trim-end-uncovered', facts, piece.whole.name, piece.nodePoints[nodes[i]!]!));
  });
  const allowance = (end: TrimEnd): number => (end === 'turned under' ? TURN_UNDER : newSeam);
  const run: TrimRun = {
    trim,
    piece: piece.whole.piece.id,
    line: strip.line.line,
    lineLabel: strip.line.label,
    copy: 1,
    ends,
    length: length + allowance(ends[0]) + allowance(ends[1]),
    edgeLengths: stripEdges(length, trim.width, bend.turning),
    strain: trim.width / (2 * bend.tightest.radius),
    afterStep: on.lastStep(strip.line),
  };
  return { run, problems };
}

/**
 * Lay each trim along its panel line: on the line, on its mirror image, and on both copies of a piece cut as a pair. A trim
 * is laid when its line is sewn. Its raw ends disappear into the outline's seam or hem, under a trim laid later, or into a
 * seam sewn later; an end that nothing covers is turned under and said.
 * @param settings trims in the order in which those on equally late lines are laid; `newSeam` is what ends get in a seam, mm
 * @returns runs in the order of laying. A trim whose line divides nothing has none.
 */
export function layTrims(
  settings: Settings,
  pieces: readonly PanelledPiece[],
  plan: Sewn,
): { readonly trims: readonly TrimRun[]; readonly problems: readonly Problem[] } {
  const laid = pieces.flatMap((piece) => {
    const on = new TrimmedPiece(piece, settings, plan);
    return settings.trims.flatMap((trim) =>
      piece.lines
        .filter((line) => line.line === lineOf(trim))
        .flatMap((line) => on.strips(line))
        .map((strip) => ({
          ...laidStrip(trim, on, strip, settings.allowances.newSeam),
          isPair: piece.whole.piece.cutting === 'pair',
        })),
    );
  });
  const trims = laid
    .flatMap(({ run, isPair }): TrimRun[] => (isPair ? [run, { ...run, copy: 2 }] : [run]))
    .sort((a, b) => a.afterStep - b.afterStep);
  return { trims, problems: laid.flatMap((l) => l.problems) };
}
