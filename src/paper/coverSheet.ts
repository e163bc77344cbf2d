import { howToCut, spokenEdgeName } from '../garment';
import type { Garment } from '../garment';
import { formatLength } from '../pattern';
import { padded, paragraph, row, stack } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { Flow } from './flow';
import { ACCENT, INK, RULE, SOFT } from './ink';
import { lineKey } from './lineKey';
import { line } from './marks';
import type { Lettering } from './marks';
import { colourOf } from './panelOnPaper';
import { swatch } from './panelLabel';
import { ruler, testSquare, uprightRuler } from './ruler';
import { columnWidth, tableHead, tableRow } from './table';
import type { Columns } from './table';
import { JOINING, PRINT_CHECK, SHEET_CAUTIONS } from './wording';

export interface CoverFacts {
  readonly garment: Garment;
  /** `A4, 14 sheets`. */
  readonly paper: string;
  /** Picture of the sheets and the panels on them; null where there is only one sheet. */
  readonly map: ((width: number, height: number) => Block) | null;
}

const BODY = { size: 3.3, colour: INK } as const;

/** A heading with a short rule over it. */
export function heading(lettering: Lettering, words: string, width: number): Block {
  const title = paragraph(lettering, words, width, { size: 4.6, bold: true });
  return stack(
    [{ width, height: 1, marks: [line([0, 0], [14, 0], { width: 0.7, colour: ACCENT })] }, title],
    2,
  );
}

export const sentences = (
  lettering: Lettering,
  all: readonly string[],
  width: number,
  size: number = BODY.size,
): Block =>
  stack(
    all.map((s) => paragraph(lettering, s, width, { ...BODY, size })),
    2.6,
  );

function title(lettering: Lettering, { garment, paper }: CoverFacts, width: number): Block {
  const count = garment.panels.length;
  return stack(
    [
      paragraph(lettering, shortName(garment.design.name), width, { size: 9, bold: true }),
      paragraph(
        lettering,
        `Cutting pieces at full size · ${count} ${count === 1 ? 'panel' : 'panels'} · ${paper}`,
        width,
        {
          size: 3.6,
          colour: SOFT,
        },
      ),
      { width, height: 0.4, marks: [line([0, 0], [width, 0], RULE)] },
    ],
    2.2,
  );
}

/** Squares, rulers both ways, and what to do. */
function printCheck(lettering: Lettering, width: number): Block {
  const squares = row([testSquare(lettering, 50, '5 cm'), testSquare(lettering, 50.8, '2 in')], 6);
  const upright = uprightRuler(lettering, 5, 2);
  const words = width - squares.width - upright.width - 14;
  const beside = words >= 45;
  const text = sentences(lettering, PRINT_CHECK, beside ? words : width, 3.2);
  const top = row([squares, upright], 7);
  const level = ruler(lettering, 15, 6);
  return stack([beside ? row([top, text], 7) : stack([top, text], 4), level], 6);
}

/** Widest lines of running text, mm. */
const MEASURE = 92;

function mapBlock(
  lettering: Lettering,
  map: NonNullable<CoverFacts['map']>,
  width: number,
  height: number,
): Block {
  const picture = map(width * 0.6, height);
  const words = sentences(lettering, JOINING, Math.min(MEASURE, width - picture.width - 12), 3.2);
  return row([picture, words], 12);
}

/** Allowances of a panel: the usual one, then each other one with the edges it is on: `1.5 cm; hem 4 cm`. */
function allowanceWords(garment: Garment, index: number): string {
  const { units } = garment.design;
  const edgesOf = new Map<string, Set<string>>();
  const lengthOf = new Map<string, number>();
  for (const e of garment.cutPieces[index]!.edgeLabels) {
    const width = formatLength(e.allowance, units);
    edgesOf.set(width, (edgesOf.get(width) ?? new Set()).add(spokenEdgeName(e.edgeName) ?? ''));
    lengthOf.set(width, (lengthOf.get(width) ?? 0) + e.length);
  }
  const [usual, ...others] = [...edgesOf.keys()].sort(
    (a, b) => lengthOf.get(b)! - lengthOf.get(a)! || a.localeCompare(b),
  );
  if (usual === undefined) return '';
  const named = others.map((w) => `${[...edgesOf.get(w)!].filter((n) => n !== '').join(', ')} ${w}`.trim());
  return [usual, ...named].join('; ');
}

function panelRows(lettering: Lettering, garment: Garment, columns: Columns): Block[] {
  const cell = (words: string, i: number, bold = false): Block =>
    paragraph(lettering, words, columnWidth(columns, i), { size: 3.2, bold });
  return garment.panels.map((panel, index) => {
    const colour = colourOf(garment, panel);
    const wide = columnWidth(columns, 2) - 9;
    const piece = garment.pieceById.get(panel.piece)?.whole.name ?? '';
    return tableRow(columns, [
      cell(`${garment.plan.numbers.get(panel.id) ?? index + 1}`, 0, true),
      cell(shortName(piece, 40), 1),
      row(
        [swatch(colour.fill, 6, 3.6), paragraph(lettering, shortName(colour.name, 40), wide, { size: 3.2 })],
        2.5,
        true,
      ),
      cell(howToCut(garment, panel).text, 3),
      cell(allowanceWords(garment, index), 4),
    ]);
  });
}

function panelTable(lettering: Lettering, garment: Garment, width: number): { head: Block; rows: Block[] } {
  const columns: Columns = { starts: [0, 13, width * 0.31, width * 0.56, width * 0.8], width };
  const small = { size: 2.7, colour: SOFT };
  const head = tableHead(
    columns,
    ['No.', 'Piece', 'Colour', 'Cut', 'Allowance'].map((w, i) =>
      paragraph(lettering, w, columnWidth(columns, i), small),
    ),
  );
  return { head, rows: panelRows(lettering, garment, columns) };
}

/** Everything that is printed beside the panels, on pages of this usable size (the height may be endless). */
export function coverPages(lettering: Lettering, facts: CoverFacts, width: number, height: number): Flow {
  const flow = new Flow(width, height);
  flow.place(title(lettering, facts, width));
  flow.place(
    stack([heading(lettering, 'Measure before you cut', width), printCheck(lettering, width)], 3),
    7,
  );
  if (facts.map) {
    const top = heading(lettering, 'Where the sheets go', width);
    flow.place(stack([top, mapBlock(lettering, facts.map, width, flow.left - top.height - 16)], 4), 9);
    flow.newPage();
  }
  const { head, rows } = panelTable(lettering, facts.garment, width);
  flow.placeAll(heading(lettering, 'Panels', width), rows, 0, 9, padded(head, 0, 2, width, head.height + 2));
  flow.place(stack([heading(lettering, 'What the lines mean', width), lineKey(lettering, width)], 3), 9);
  flow.place(
    stack([heading(lettering, 'Take care', width), sentences(lettering, SHEET_CAUTIONS, width)], 3),
    8,
  );
  return flow;
}
