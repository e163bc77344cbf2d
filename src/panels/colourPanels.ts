import { type Polyline, type Pt, flattenRing, isInPolygon } from '../geometry';
import type { ColourId, PanelMark } from '../pattern';
import type { FlatPanel, Panel, PanelledPiece } from './panel';

const holePoints = new WeakMap<FlatPanel['holeRings'], readonly Polyline[]>();

function holesOf({ holeRings }: FlatPanel): readonly Polyline[] {
  const known = holePoints.get(holeRings) ?? holeRings.map((h) => flattenRing(h));
  holePoints.set(holeRings, known);
  return known;
}

/** Whether a point of the flat piece lies inside a panel, insets left out. */
export const isInsidePanel = ({ flat }: Pick<Panel, 'flat'>, p: Pt): boolean =>
  isInPolygon(p, flat.points, holesOf(flat));

/** Give every panel the colour of the first mark inside it, or the plain one. Panels keep their other facts. */
export function colourPanels(
  sliced: PanelledPiece,
  marks: readonly PanelMark[],
  plain: ColourId,
): PanelledPiece {
  const panels = sliced.panels.map((panel): Panel => ({
    ...panel,
    colour: marks.find((m) => isInsidePanel(panel, m.at))?.colour ?? plain,
  }));
  return { ...sliced, panels };
}
