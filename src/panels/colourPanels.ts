import { type Polyline, type Pt, flattenRing, isInPolygon } from '../geometry';
import type { ColourId, PanelMark } from '../pattern';
import type { Panel, PanelledPiece } from './panel';

const holePoints = new WeakMap<Panel['holeRings'], readonly Polyline[]>();

function holesOf(panel: Pick<Panel, 'holeRings'>): readonly Polyline[] {
  const known = holePoints.get(panel.holeRings) ?? panel.holeRings.map((h) => flattenRing(h));
  holePoints.set(panel.holeRings, known);
  return known;
}

/** Whether a point lies inside a panel, insets left out. */
export const isInsidePanel = (panel: Pick<Panel, 'outlinePoints' | 'holeRings'>, p: Pt): boolean =>
  isInPolygon(p, panel.outlinePoints, holesOf(panel));

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
