import { ON_GRAIN, boxOfPoints } from '../../geometry';
import { type Problem, problem } from '../../pattern';
import type { LayJob, Placement } from '../layPlan';
import { normalAngle, turnedPoints } from '../placement';

/** Degrees between a placed piece's grain and the cloth's length, 0 to 90. */
function degreesOff(grainAngle: number, { rotation, flipped }: Placement): number {
  const off = Math.abs(normalAngle(rotation + (flipped ? 180 - grainAngle : grainAngle)));
  return Math.min(off, 180 - off);
}

/** One warning per panel that lies off its grain, with how far. */
function offGrain(job: LayJob, placed: readonly Placement[]): Problem[] {
  const said = new Map<number, number>();
  for (const piece of job.pieces) {
    const at = placed.find((p) => p.panel === piece.panel && p.copy === piece.copy);
    const degrees = at ? degreesOff(piece.grainAngle, at) : 0;
    if (degrees > ON_GRAIN) said.set(piece.number, Math.max(degrees, said.get(piece.number) ?? 0));
  }
  return [...said].map(([panel, degrees]) =>
    problem('laid-off-grain', { panel, degrees, colour: job.colourName }),
  );
}

/** A repeat that is large for the cloth, or for panels on it. */
function largeRepeat({ repeat, width, margin, pieces, colourName }: LayJob): Problem[] {
  const { along, across } = repeat;
  if (along === 0 && across === 0) return [];
  const isHalfCloth = across > (width - 2 * margin) / 2;
  const small = pieces.filter((piece) => {
    const box = boxOfPoints(turnedPoints(piece.cutting, false, -piece.grainAngle));
    return along > (box.maxX - box.minX) / 2 || across > (box.maxY - box.minY) / 2;
  });
  if (!isHalfCloth && small.length === 0) return [];
  const panels = [...new Set(small.map((p) => p.number))];
  return [problem('repeat-large', { colour: colourName, along, across, halfCloth: isHalfCloth, panels })];
}

/** What the sewist should know of a plan that can be cut: panels off their grain, and a repeat that costs much cloth. */
export const planWarnings = (job: LayJob, placed: readonly Placement[]): readonly Problem[] => [
  ...offGrain(job, placed),
  ...largeRepeat(job),
];
