import { type Garment, middleOfOpening, printedZips } from '../garment';
import {
  type Line,
  type Matrix,
  type Path,
  type Pt,
  add,
  applyMatrix,
  scale,
  subtract,
  transformPath,
} from '../geometry';
import type { Panel } from '../panels';

/** A zip on a printed panel. */
export interface ZipOnPaper {
  /** Bar across the stitching line where the zip stops; null where it stops on another panel. */
  readonly stop: Line | null;
  /** Fold lines of a shown zip's slot. */
  readonly slot: readonly Path[];
  readonly words: string;
  /** Middle of the opening on the stitching line, the unit vector into the panel, and how long the opening is there. */
  readonly at: Pt;
  readonly inward: Pt;
  readonly length: number;
}

/** How far the bar at a zip's stop reaches to either side of the stitching line, mm. */
const STOP_REACH = 6;

/** The zips of a panel as they are printed. @param m from the traced coordinates to the paper */
export function zipsOnPaper(garment: Garment, panel: Panel, m: Matrix): readonly ZipOnPaper[] {
  const at = (p: Pt): Pt => applyMatrix(m, p);
  const direction = (v: Pt): Pt => subtract(at(v), at([0, 0]));
  return printedZips(garment, panel).map(({ mark, words }): ZipOnPaper => {
    const middle = middleOfOpening(mark);
    const { stop } = mark;
    const reach = stop && scale(stop.outward, STOP_REACH);
    return {
      stop: stop && reach && [at(subtract(stop.at, reach)), at(add(stop.at, reach))],
      slot: mark.slot.map((path) => transformPath(path, m)),
      words,
      at: at(middle.at),
      inward: direction(middle.inward),
      length: middle.length,
    };
  });
}
