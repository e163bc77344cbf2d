import { boxOfPoints } from '../geometry';
import type { Box, Line, Polyline, Pt } from '../geometry';
import type { Block } from './block';
import { entersBox, holdsBox } from './inside';
import type { Rings } from './inside';
import { grown, movedMarks, overlaps } from './marks';
import type { Mark } from './marks';

/** Places tried for one block, at most. */
const MOST_PLACES = 500;

/** The free room in a panel: lettering goes where nothing else is. */
export class Room {
  private readonly rings: Rings;
  private readonly box: Box;
  private readonly lines: Line[];
  private readonly taken: Box[] = [];
  private readonly avoided: readonly Box[];

  /**
   * @param lines   drawn lines that lettering must not cover
   * @param avoided strips that lettering should not cover if there is other room
   */
  constructor(rings: Rings, lines: readonly Line[], avoided: readonly Box[] = []) {
    this.rings = rings;
    this.avoided = avoided;
    this.box = boxOfPoints(rings[0] ?? ([] as Polyline));
    this.lines = [...lines];
  }

  /** Whether the box is inside and free. */
  isFree(box: Box): boolean {
    return (
      !this.taken.some((t) => overlaps(t, box)) &&
      !this.lines.some(([a, b]) => entersBox(a, b, box)) &&
      holdsBox(this.rings, box)
    );
  }

  /** Whether the box keeps clear of what should be avoided. */
  isClear(box: Box): boolean {
    return !this.avoided.some((a) => overlaps(a, box));
  }

  /** Whether there is anything to keep clear of. */
  get hasAvoided(): boolean {
    return this.avoided.length > 0;
  }

  take(box: Box): void {
    this.taken.push(box);
  }

  /** A line drawn later, which lettering still to come must not cover. */
  addLine(l: Line): void {
    this.lines.push(l);
  }

  /** Boxes taken so far. */
  get boxes(): readonly Box[] {
    return this.taken;
  }

  /** Put a block with its middle as near to `at` as it fits, `clear` mm off everything (and off what should be avoided, if asked to); null if it fits nowhere. */
  placeNear(block: Block, at: Pt, clear: number, keepsClear: boolean): Mark[] | null {
    for (const [x, y] of this.places(at)) {
      const box = {
        minX: x - block.width / 2,
        minY: y - block.height / 2,
        maxX: x + block.width / 2,
        maxY: y + block.height / 2,
      };
      if ((keepsClear && !this.isClear(box)) || !this.isFree(grown(box, clear))) continue;
      this.take(grown(box, clear / 2));
      return movedMarks(block.marks, [box.minX, box.minY]);
    }
    return null;
  }

  /** The wished place, then a grid over the panel, nearest first. */
  private places(at: Pt): Pt[] {
    const { minX, minY, maxX, maxY } = this.box;
    const step = Math.max(3, Math.sqrt(((maxX - minX) * (maxY - minY)) / MOST_PLACES));
    const grid: Pt[] = [];
    for (let y = minY + step / 2; y < maxY; y += step) {
      for (let x = minX + step / 2; x < maxX; x += step) grid.push([x, y]);
    }
    const far = (p: Pt): number => Math.hypot(p[0] - at[0], p[1] - at[1]);
    return [at, ...grid.sort((p, q) => far(p) - far(q))];
  }
}
