import { isClosed, samePoint, endOf, pathLength, startOf } from '../geometry';
import { type Panel, type PanelledPiece, alongSeam, sewnLength, sideOfSeam, sidesOf } from '../panels';
import { checkPlan } from '../sewing';
import { checkCorners } from './checkCorners';
import type { Garment } from './garment';
import { howToCut } from './howToCut';

/** A law of the trade that a derived garment breaks, where, and by how much. */
export interface GarmentFault {
  readonly law: string;
  readonly where: string;
  readonly by: number;
}

/** Areas are added up from the same curves in another order: only rounding may differ. */
const AREA_SHARE = 1e-6;
/** Mirror twins are the same to a twentieth of a millimetre all round: far less than this share of a piece. */
const TWIN_SHARE = 1e-3;
/** Both sides of a seam are the same curves: only rounding may differ, mm. */
const SEAM_LENGTH = 1e-4;

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

/** By how much the sides of the darts in a panel that were swallowed differ: its seams may differ by that. */
const legDifference = ({ closings }: Panel): number =>
  closings.reduce((sum, { dart }) => {
    const [one, other] = sidesOf(dart);
    return sum + Math.abs(pathLength(one) - pathLength(other));
  }, 0);

/** Every seam bounds exactly one panel on each side, and both sides are equally long but for what is eased in. */
function seamFaults({ panels, seams }: PanelledPiece): GarmentFault[] {
  const byId = new Map(panels.map((p) => [p.id, p]));
  return seams.flatMap((seam): GarmentFault[] => {
    const [a, b] = [byId.get(seam.a), byId.get(seam.b)];
    const [sideA, sideB] = [a && sideOfSeam(a, seam, 'a'), b && sideOfSeam(b, seam, 'b')];
    if (!a || !b || !sideA || !sideB)
      return [{ law: 'a seam has one panel on each side', where: seam.id, by: 0 }];
    const [lengthA, lengthB] = [sewnLength(alongSeam(sideA), a.darts), sewnLength(alongSeam(sideB), b.darts)];
    // cloth between the legs of a dart is folded away: nothing is sewn to it
    if (a.area <= 0 || b.area <= 0) return [];
    const ease = seam.eased.reduce((sum, e) => sum + (e.side === 'a' ? e.width : -e.width), 0);
    const by = Math.max(
      Math.abs(lengthA - seam.lengthA),
      Math.abs(lengthB - seam.lengthB),
      Math.abs(lengthA - lengthB - ease) - legDifference(a) - legDifference(b),
    );
    return by > SEAM_LENGTH ? [{ law: 'a seam is equally long on both sides', where: seam.id, by }] : [];
  });
}

function numberFaults({ panels, plan }: Garment, isExtra: boolean): GarmentFault[] {
  const numbers = panels.map((p) => plan.numbers.get(p.id));
  // those of lining and facings go on where the others end
  const first = isExtra ? (numbers[0] ?? 1) : 1;
  return numbers.flatMap((n, i) =>
    n === first + i ? [] : [{ law: 'numbers run from 1 without a gap', where: panels[i]!.id, by: n ?? 0 }],
  );
}

/** Nothing is cut twice or forgotten: counts times areas make up the piece, twice for one that is cut as a pair. */
function countFaults(garment: Garment): GarmentFault[] {
  return garment.pieces.flatMap(({ whole, panels }) => {
    const cut = panels.reduce((sum, p) => sum + howToCut(garment, p).count * p.area, 0);
    const by = Math.abs(cut - whole.area * (whole.piece.cutting === 'pair' ? 2 : 1));
    return by > whole.area * TWIN_SHARE
      ? [{ law: 'each part of a piece is cut once, or twice for a pair', where: whole.name, by }]
      : [];
  });
}

function cutFaults({ cutPieces, panels }: Garment): GarmentFault[] {
  return panels.flatMap((panel, i) => {
    const by = panel.area - cutPieces[i]!.cutArea;
    return by > 0 ? [{ law: 'nothing is cut smaller than it is sewn', where: panel.id, by }] : [];
  });
}

const cornerFaults = (garment: Garment): GarmentFault[] =>
  checkCorners(garment).map(({ seam, by }) => ({
    law: 'allowances end in step where a later seam is sewn across',
    where: seam.id,
    by,
  }));

/** Hold a derived garment to the laws it must obey whatever was drawn. Empty when all is well. */
export function checkGarment(garment: Garment, isExtra = false): readonly GarmentFault[] {
  const planFaults = checkPlan(garment.plan, garment.pieces, {
    neighbours: garment.neighbours,
    wishes: garment.design.sewing.order,
    trims: garment.design.trims,
    closings: garment.design.closings,
    leavesEdges: isExtra,
  }).map(({ step, what }): GarmentFault => ({
    law: `the plan can be sewn: ${what}`,
    where: `step ${step ?? '–'}`,
    by: 0,
  }));
  return [
    ...garment.pieces.flatMap((p) => [...areaFaults(p), ...ringFaults(p), ...seamFaults(p)]),
    ...numberFaults(garment, isExtra),
    ...countFaults(garment),
    ...cutFaults(garment),
    ...cornerFaults(garment),
    ...planFaults,
    ...(garment.extras ? checkGarment(garment.extras, true) : []),
  ];
}
