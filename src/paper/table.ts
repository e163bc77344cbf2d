import type { Block } from './block';
import { HAIR, RULE } from './ink';
import { line, movedMarks } from './marks';
import type { Mark } from './marks';

/** Left edges of columns and the width of the whole, mm. */
export interface Columns {
  readonly starts: readonly number[];
  readonly width: number;
}

/** Width of a column less the gutter, mm. */
export const columnWidth = ({ starts, width }: Columns, i: number, gutter = 3): number =>
  (starts[i + 1] ?? width + gutter) - starts[i]! - gutter;

/** One row: cells side by side, middles in line, a hairline below unless the next row belongs to it. */
export function tableRow(columns: Columns, cells: readonly Block[], gap = 1.7, isRuled = true): Block {
  const height = Math.max(...cells.map((c) => c.height));
  const marks: Mark[] = cells.flatMap((c, i) =>
    movedMarks(c.marks, [columns.starts[i]!, gap + (height - c.height) / 2]),
  );
  const full = height + 2 * gap;
  return {
    width: columns.width,
    height: full,
    marks: isRuled
      ? [...marks, line([0, full], [columns.width, full], { width: 0.15, colour: HAIR })]
      : marks,
  };
}

/** The head of a table: small lettering over a stronger rule. */
export function tableHead(columns: Columns, cells: readonly Block[]): Block {
  const height = Math.max(...cells.map((c) => c.height));
  const marks = cells.flatMap((c, i) => movedMarks(c.marks, [columns.starts[i]!, height - c.height]));
  return {
    width: columns.width,
    height: height + 1.2,
    marks: [...marks, line([0, height + 1.2], [columns.width, height + 1.2], RULE)],
  };
}
