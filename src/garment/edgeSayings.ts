import type { CutPiece } from '../allowance';
import { applyMatrix, mirrorAcross, nearestOnPath } from '../geometry';
import type { Pt } from '../geometry';
import type { Panel, PanelId } from '../panels';
import { homeOf } from './extras';
import type { Garment } from './garment';
import { howToCut } from './howToCut';
import { type EdgeMate, matesOf } from './mates';

/** What is said along an edge of a printed piece. */
export interface EdgeSaying {
  /** Numbers of the panels it is sewn to, in order along it; none on edges that join nothing. */
  readonly mates: readonly number[];
  /** The same on the mirrored copy, or on the mirrored half of what is laid on the fold; null where there is none. */
  readonly mirroredMates: readonly number[] | null;
  /** A new seam: the panel across it is the first thing to know. */
  readonly isSeam: boolean;
  /** Traced name, and what becomes of the edge; null where nothing is to be said. */
  readonly edgeName: string | null;
}

/** An edge's name without the note that it is on the mirrored half; null for one that nobody named. */
export function spokenEdgeName(name: string | null): string | null {
  if (name === null || /^edge \d+(, mirrored)?$/.test(name)) return null;
  return name.replace(/, mirrored$/, '');
}

const JOB_WORDS: Readonly<Partial<Record<EdgeMate['kind'], string>>> = {
  hem: 'hem',
  zip: 'zip',
  bound: 'bound',
  fold: 'fold',
};

/** `side seam`, `cuff, hem`: the name, and the job of the edge where its name does not say it. */
function nameAndJob(name: string | null, kind: EdgeMate['kind'] | null): string | null {
  const spoken = spokenEdgeName(name);
  const job = kind === null ? undefined : JOB_WORDS[kind];
  if (job === undefined) return spoken;
  if (spoken === null) return job;
  return spoken.toLowerCase().includes(job) ? spoken : `${spoken}, ${job}`;
}

const edgesOf = (panel: Panel) => [...panel.boundary, ...panel.holes.flat()];

/** What lies across the edge of a panel nearest to a place. */
function matesAt(garment: Garment, panel: Panel, p: Pt): EdgeMate | null {
  const edges = edgesOf(panel);
  const gaps = edges.map((e) => nearestOnPath(e.path, p).distance);
  const nearest = gaps.indexOf(Math.min(...gaps));
  return nearest < 0 ? null : (matesOf(garment, panel)[nearest] ?? null);
}

/** The panel whose edges are those of this one's mirrored copy: its twin, or itself where it is laid on the fold. */
function mirroredPanel(garment: Garment, panel: Panel): Panel | null {
  const { twin, onFold } = howToCut(garment, panel);
  if (onFold) return panel;
  return twin === null ? null : (garment.panels.find((p) => garment.plan.numbers.get(p.id) === twin) ?? null);
}

/** What every labelled edge of a printed piece says, in the order of its labels. */
export function edgeSayings(all: Garment, panel: Panel, piece: CutPiece): readonly EdgeSaying[] {
  const garment = homeOf(all, panel);
  const numbers = (ids: readonly PanelId[]): number[] =>
    ids.flatMap((id) => garment.plan.numbers.get(id) ?? []);
  const own = matesOf(garment, panel);
  const other = mirroredPanel(garment, panel);
  const fold = garment.pieceById.get(panel.piece)?.whole.foldLine;
  const mirror = fold && mirrorAcross(fold);
  const isPair = garment.pieceById.get(panel.piece)?.whole.piece.cutting === 'pair';
  return piece.edgeLabels.map(({ edge, at, mate, edgeName }): EdgeSaying => {
    const found = own[edge];
    const across = other && mirror ? matesAt(garment, other, applyMatrix(mirror, at)) : null;
    const mirrored = across?.mates ?? (isPair ? found?.mirrored : undefined);
    return {
      mates: numbers(found?.mates ?? (mate === null ? [] : [mate])),
      mirroredMates: mirrored ? numbers(mirrored) : null,
      isSeam: mate !== null,
      edgeName: nameAndJob(edgeName, found?.kind ?? null),
    };
  });
}

/** `7`, `9 and 11`, `9, 10 and 11`. */
const numbersInWords = (numbers: readonly number[]): string =>
  numbers.length < 2
    ? numbers.join('')
    : `${numbers.slice(0, -1).join(', ')} and ${numbers[numbers.length - 1]!}`;

/** `, mirrored to 6 and 3`, or `(mirrored: 3 for 4)` where one panel is another; nothing where all are the same. */
function mirroredInWords(mates: readonly number[], mirrored: readonly number[]): string {
  const others = mirrored.filter((n) => !mates.includes(n));
  const gone = mates.filter((n) => !mirrored.includes(n));
  if (mirrored.length === 0 || others.length + gone.length === 0) return '';
  if (mates.length > 1 && others.length === 1 && gone.length === 1)
    return ` (mirrored: ${others[0]!} for ${gone[0]!})`;
  return `, mirrored to ${numbersInWords(mirrored)}`;
}

/** `to 7`, `to 9 and 11`, and where the mirrored copy is sewn to others, those too; nothing on an edge that joins nothing. */
const matesInWords = ({ mates, mirroredMates }: EdgeSaying): string =>
  mates.length === 0 ? '' : `to ${numbersInWords(mates)}${mirroredInWords(mates, mirroredMates ?? [])}`;

/** `to 7` on a new seam, `side seam, to 9 and 11` or `hem` on an outer edge; empty where nothing is to be said. */
export function mateWords(edge: EdgeSaying, inShort: (name: string) => string = (name) => name): string {
  const name = edge.edgeName === null ? '' : inShort(edge.edgeName);
  return [name, matesInWords(edge)].filter((w) => w !== '').join(', ');
}
