import { EMPTY_BLOCK, stack } from './block';
import type { Block } from './block';
import { movedMarks } from './marks';
import type { Mark } from './marks';

/** Blocks set one below the other on as many pages as they need; a block is never cut by a page's end. */
export class Flow {
  /** Usable size of a page, mm; the height may be endless. */
  readonly width: number;
  readonly height: number;
  private readonly sheets: Mark[][] = [[]];
  private y = 0;

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
  }

  /** Marks of each page, from its upper left corner of usable paper. */
  get pages(): readonly (readonly Mark[])[] {
    return this.sheets.filter((s, i) => s.length > 0 || i === 0);
  }

  /** Height used on the last page, mm. */
  get used(): number {
    return this.y;
  }

  /** Height left on the last page, mm. */
  get left(): number {
    return this.height - this.y;
  }

  get isFresh(): boolean {
    return this.y === 0;
  }

  /** Begin a new page unless this one is still empty. */
  newPage(): void {
    if (this.isFresh) return;
    this.sheets.push([]);
    this.y = 0;
  }

  /** Put a block below the last one, `gap` mm off; on a new page where it does not fit. Blocks taller than a page start one. */
  place(block: Block, gap = 0): void {
    if (block.height === 0) return;
    const space = this.isFresh ? 0 : gap;
    if (this.y + space + block.height > this.height) this.newPage();
    const y = this.isFresh ? 0 : this.y + space;
    this.sheets[this.sheets.length - 1]!.push(...movedMarks(block.marks, [0, y]));
    this.y = y + block.height;
  }

  /** A heading that stays with the first of the blocks, then the blocks; `again` is repeated at the head of each further page. */
  placeAll(
    heading: Block,
    blocks: readonly Block[],
    gap: number,
    before: number,
    again: Block = EMPTY_BLOCK,
  ): void {
    const [first = EMPTY_BLOCK, ...rest] = blocks;
    this.place(stack([heading, again, first], gap), before);
    for (const block of rest) {
      if (again.height > 0 && this.y + gap + block.height > this.height) {
        this.newPage();
        this.place(stack([again, block], gap));
      } else this.place(block, gap);
    }
  }
}
