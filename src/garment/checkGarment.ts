import { isClosed, samePoint, endOf, pathLength, startOf } from '../geometry';
import type { Panel, PanelEdge, PanelledPiece, SeamId } from '../panels';
import { checkPlan } from '../sewing';
import type { Garment } from './garment';

/** A law of the trade that a derived garment breaks, where, and by how much. */
export interface GarmentFault {
  readonly law: string;
  readonly where: string;
  readonly by: number;
}

/** Areas are added up from the same curves in another order: only rounding may differ. */
const AREA_SHARE = 1e-6;
/** Both sides of a seam are the same curves: only rounding may differ, mm. */
const SEAM_LENGTH = 1e-4;

const boundaries = (panel: Panel): readonly PanelEdge[] => [...panel.boundary, ...panel.holes.flat()];

function areaFaults({ whole, panels }: PanelledPiece): GarmentFault[] {
  const sum = panels.reduce((total, p) => total + p.area, 0);
  const by = Math.abs(sum - whole.area);
  return by > whole.area * AREA_SHARE
    ? [{ law: 'panel areas add up to the piece', where: whole.name, by }]
    : [];
}

function ringFaults({ panels }: PanelledPiece): GarmentFault[] {
  return panels.flatMap((panel) => {
    const rings = [panel.ring, ...panel.holeRings];
    const torn = rings.some(
      (r) => !isClosed(r) || r.some((c, i) => !samePoint(endOf([r.at(i - 1)!]), startOf([c]))),
    );
    return torn ? [{ law: 'a panel is a closed ring', where: panel.id, by: 0 }] : [];
  });
}

/** Every seam bounds exactly one panel on each side, at its full length. */
function seamFaults({ panels, seams }: PanelledPiece): GarmentFault[] {
  const lengths = new Map<SeamId, { forward: number; backward: number }>();
  for (const edge of panels.flatMap(boundaries)) {
    if (edge.origin.kind !== 'seam') continue;
    const { seam, forward } = edge.origin;
    const known = lengths.get(seam) ?? { forward: 0, backward: 0 };
    known[forward ? 'forward' : 'backward'] += pathLength(edge.path);
    lengths.set(seam, known);
  }
  return seams.flatMap((seam) => {
    const { forward, backward } = lengths.get(seam.id) ?? { forward: 0, backward: 0 };
    const by = Math.max(
      Math.abs(forward - pathLength(seam.path)),
      Math.abs(backward - pathLength(seam.path)),
    );
    return by > SEAM_LENGTH
      ? [{ law: 'a seam has one panel on each side, equally long', where: seam.id, by }]
      : [];
  });
}

function numberFaults({ panels, plan }: Garment): GarmentFault[] {
  const numbers = panels.map((p) => plan.numbers.get(p.id));
  return numbers.flatMap((n, i) =>
    n === i + 1 ? [] : [{ law: 'numbers run from 1 without a gap', where: panels[i]!.id, by: n ?? 0 }],
  );
}

function cutFaults({ cutPieces, panels }: Garment): GarmentFault[] {
  return panels.flatMap((panel, i) => {
    const by = panel.area - cutPieces[i]!.cutArea;
    return by > 0 ? [{ law: 'nothing is cut smaller than it is sewn', where: panel.id, by }] : [];
  });
}

/** Hold a derived garment to the laws it must obey whatever was drawn. Empty when all is well. */
export function checkGarment(garment: Garment): readonly GarmentFault[] {
  const planFaults = checkPlan(garment.plan, garment.pieces).map(({ step, what }): GarmentFault => ({
    law: `the plan can be sewn: ${what}`,
    where: `step ${step ?? '–'}`,
    by: 0,
  }));
  return [
    ...garment.pieces.flatMap((p) => [...areaFaults(p), ...ringFaults(p), ...seamFaults(p)]),
    ...numberFaults(garment),
    ...cutFaults(garment),
    ...planFaults,
  ];
}
