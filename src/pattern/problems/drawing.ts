import type { Pt } from '../../geometry';
import type { LineId } from '../design';
import type { WordingOf } from './wording';

/** What can be wrong with a traced piece or a drawn line. One entry per code, with the facts its sentence needs. */
export interface DrawingFacts {
  'line-ends-in-the-open': {
    line: LineId;
    mirrored: boolean;
    end: 'start' | 'end';
    gap: number | null;
    reach: Pt | null;
  };
  'line-cuts-nothing': { line: LineId };
  'tie-lost': { line: LineId; what: string; why: 'gone' | 'missed' | 'ring' };
  'grain-assumed': { piece: string };
  'panel-too-narrow': { panel: number; width: number };
  'fold-off-outline': { gap: number };
  'fold-not-straight': Record<never, never>;
  'edge-name-off-outline': { name: string; gap: number };
  'notch-off-outline': { gap: number };
  'tracing-taken-as-net': { outer: number };
}

export const DRAWING: WordingOf<DrawingFacts> = {
  'line-ends-in-the-open': [
    'error',
    ({ gap }, mm) =>
      gap === null
        ? 'This panel line ends in the open, where it cannot be sewn. Draw its end to an edge or another line.'
        : `This panel line ends ${mm(gap)} short of the next line or edge, where it cannot be sewn. Extend it to there.`,
  ],
  'line-cuts-nothing': [
    'warning',
    () => 'This panel line divides nothing. Draw it from edge to edge, or delete it.',
  ],
  'tie-lost': [
    'warning',
    ({ what, why }) =>
      why === 'ring'
        ? 'This panel line is tied, over other lines, to itself. It stays where it is: untie one of them.'
        : why === 'gone'
          ? `This panel line is tied to ${what}, which is no longer there. It stays where it is: tie it anew or untie it.`
          : `This panel line is tied to ${what}, but does not meet it any more. It stays where it is: tie it anew or untie it.`,
  ],
  'grain-assumed': [
    'hint',
    ({ piece }) =>
      `No grain was traced on ${piece}; it is taken along the fold, or straight down the page. Check it.`,
  ],
  'panel-too-narrow': [
    'warning',
    ({ panel, width }, mm) =>
      `Panel ${panel} is only ${mm(width)} wide: hard to sew. Move a line, or lay a trim there instead.`,
  ],
  'fold-off-outline': [
    'error',
    ({ gap }, mm) => `The fold lies ${mm(gap)} off the outline. Trace it along the outline's straight edge.`,
  ],
  'fold-not-straight': [
    'error',
    () => 'The outline is not straight along the fold. Trace a straight edge there.',
  ],
  'edge-name-off-outline': [
    'warning',
    ({ name, gap }, mm) =>
      `The edge name “${name}” lies ${mm(gap)} off the outline and is not used. Trace it along the outline.`,
  ],
  'notch-off-outline': [
    'warning',
    ({ gap }, mm) =>
      `This notch lies ${mm(gap)} from the outline and is not used. Trace it so that it touches.`,
  ],
  'tracing-taken-as-net': [
    'hint',
    ({ outer }, mm) =>
      `The outline is taken as the stitching line and gets ${mm(outer)} added. If the tracing already has its allowance, say so.`,
  ],
};
