import { JOIN_GAP } from '../../geometry';
import { formatLength, type Design, type LineId, type Units } from '../../pattern';
import type { DartChoice, DartOutcome } from '../../panels';

/** 11.3°: to a tenth, as a cutter reads a protractor. */
export const sayAngle = (radians: number): string =>
  `${((radians * 180) / Math.PI).toFixed(1).replace(/\.0$/, '')}°`;

/** Small amounts that are eased or sewn: in mm where cm are shown, to 1/16 in else. */
export const saySmall = (mm: number, units: Units): string => formatLength(mm, units === 'in' ? 'in' : 'mm');

/** The number a line has in the list of lines. */
const lineNumber = (design: Design, line: LineId): string =>
  `line ${design.lines.findIndex((l) => l.id === line) + 1}`;

/** What a choice is called. */
export function titleOf(choice: DartChoice, design: Design): string {
  if (choice.kind === 'keep') return 'Keep it as a dart';
  if (choice.kind === 'swing')
    return choice.share < 1 ? `Split it: half to the ${choice.place}` : `Swing it to the ${choice.place}`;
  const line = lineNumber(design, choice.line);
  if (choice.kind === 'through') return `Lead ${line} through its point`;
  if (choice.remainder === 'ease') return `Close it in ${line}, ease the end in`;
  return choice.remainder === 'dart'
    ? `Close it in ${line}, sew the end as a short dart`
    : `Let it go into ${line}`;
}

/** What happens to the fit, in one plain sentence. */
export function sayFit(choice: DartChoice, outcome: DartOutcome, units: Units): string {
  if (choice.kind === 'swing')
    return choice.share < 1
      ? `Each place takes half of the shaping: two smaller darts show less than one. The fit stays.`
      : `The dart is turned about its point to the ${choice.place}: its angle and the fit stay, its width at the edge changes with its length.`;
  if (choice.kind === 'keep') return 'Sewn as it was traced: the fit stays, and the dart shows in its panel.';
  const aside = saySmall(choice.aside, units);
  if (choice.kind === 'through' && choice.aside <= JOIN_GAP)
    return 'The line runs on down the middle of the dart, whose legs become part of its seam: the shaping stays, the dart is gone.';
  if (choice.kind === 'through')
    return `The line bends aside by ${aside} to meet the point. The dart goes into its seam, which curves in its place: the shaping stays, the dart is gone.`;
  if (choice.remainder === null)
    return 'The seam curves in place of the dart: the shaping stays, the dart is gone.';
  const left = outcome.eased > 0 ? outcome.eased : (outcome.sewn[0]?.intake ?? 0);
  return choice.remainder === 'ease'
    ? `Closed on one side of the line; on the other, ${saySmall(left, units)} is eased in between two notches. The shaping ends ${aside} softer at the point.`
    : `Closed on one side of the line; on the other a short dart of ${saySmall(left, units)} stays, so that all of the shaping stays.`;
}

/** What is done with a dart now, for its row in the list. */
export function sayNow({ sewn, swallowed, eased }: DartOutcome, units: Units): string {
  const parts = [
    swallowed > 0 ? `${sayAngle(swallowed)} in the seam` : null,
    eased > 0 ? `${saySmall(eased, units)} eased in` : null,
    ...sewn.map((d) => `sewn, ${formatLength(d.intake, units)} wide`),
  ].filter((part) => part !== null);
  return parts.join(' · ') || 'gone';
}
