import { severityOf } from '../../pattern';
import type { Garment } from '../../garment';
import { counted } from '../drawing/words';
import type { Place } from '../store/sessionSlice';

/** The places in plain words, and what each of them holds now. */
export const PLACE_NAMES: Readonly<Record<Place, string>> = {
  pattern: 'Pattern',
  lines: 'Lines',
  colours: 'Colours',
  order: 'Sewing order',
  cloth: 'Cloth',
  paper: 'Paper',
};

export function placeFact(place: Place, garment: Garment): string {
  const { design, panels, plan, problems } = garment;
  const open = problems.filter((p) => severityOf(p) === 'error').length;
  switch (place) {
    case 'pattern':
      return counted(design.pieces.length, 'piece');
    case 'lines':
      return open > 0
        ? `${counted(design.lines.length, 'line')}, ${open} to mend`
        : counted(design.lines.length, 'line');
    case 'colours':
      return counted(new Set(panels.map((p) => p.colour)).size, 'cloth');
    case 'order':
      return counted(plan.steps.length, 'step');
    case 'cloth':
      return 'what to buy';
    case 'paper':
      return counted(panels.length, 'panel');
  }
}
