import type { PanelledPiece } from '../panels';
import { type Colour, type Problem, type Trim, problem } from '../pattern';
import type { SewnOrder, TrimStrip } from '../sewing';
import { shownUnder } from './showThrough';
import type { Bend } from './trimBend';
import { cureOf } from './trimCures';
import { TURN_UNDER } from './trimLength';
import type { Hidden } from './trimRun';
import { MOST_STRAIN, widestOn } from './trimStrain';

/** What is wrong with how a trim bends. */
export function bendProblems(trim: Trim, bend: Bend, piece: string): Problem[] {
  const { radius, at } = bend.tightest;
  const strain = trim.width / (2 * radius);
  const out = bend.corners.map((corner) => problem('trim-corner', { trim: trim.name }, piece, corner));
  if (radius < trim.width / 2)
    out.push(problem('trim-curve-too-tight', { trim: trim.name, width: trim.width, radius }, piece, at));
  else if (strain > MOST_STRAIN[trim.kind]) {
    const percent = Math.round(strain * 1000) / 10;
    const facts = { trim: trim.name, kind: trim.kind, percent, widest: widestOn(radius, trim.kind) };
    const bends = strain <= MOST_STRAIN.bias;
    out.push(problem('trim-strained', { ...facts, needsGathering: !bends }, piece, at));
  }
  return out;
}

/** Ends that nothing covers, and those that have to be tucked under what is laid already. */
export function endProblems(
  strip: TrimStrip,
  hidden: readonly [Hidden, Hidden],
  all: readonly TrimStrip[],
  piece: PanelledPiece,
  order: SewnOrder,
): Problem[] {
  const { name } = piece.whole;
  return hidden.flatMap((h, i): Problem[] => {
    const end = i as 0 | 1;
    const { at } = strip.ends[end];
    const trim = strip.trim.name;
    if (h.by === 'tuck') {
      const over = all.find((s) => s.key === h.over)!.trim.name;
      return [problem('trim-end-tucked', { trim, over }, name, at)];
    }
    if (h.by !== 'nothing') return [];
    const cure = cureOf(strip, end, all, piece, order);
    const facts = { trim, id: strip.trim.id, line: strip.line, allowance: TURN_UNDER, cure };
    return [problem('trim-end-uncovered', facts, name, at)];
  });
}

/** Cloth that shows through a strip, said once for a trim on a piece. */
export function showThroughProblems(
  strips: readonly TrimStrip[],
  piece: PanelledPiece,
  colours: readonly Colour[],
): Problem[] {
  const said = new Set<string>();
  return strips.flatMap((strip): Problem[] => {
    const shown = said.has(strip.trim.id) ? null : shownUnder(strip, piece, colours);
    if (!shown) return [];
    said.add(strip.trim.id);
    const cloths = shown.cloths.map((id) => colours.find((c) => c.id === id)!.name);
    const facts = { trim: strip.trim.name, cloths, how: shown.how };
    return [problem('trim-shows-through', facts, piece.whole.name, strip.ends[0].at)];
  });
}
