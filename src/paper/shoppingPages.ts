import { type LayPlan, type Ribbon, ribbonsToBuy } from '../fabric';
import { howToCut, type Garment } from '../garment';
import { formatLength, sayProblem } from '../pattern';
import type { Colour, TrimKind, Units } from '../pattern';
import { padded, paragraph, row, stack } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { clothLength } from './clothLength';
import { heading } from './coverSheet';
import { Flow } from './flow';
import { ACCENT, SOFT } from './ink';
import { layDrawing } from './layDrawing';
import type { Lettering } from './marks';
import { swatch } from './panelLabel';
import { columnWidth, tableHead, tableRow } from './table';
import type { Columns } from './table';

const SMALL = { size: 3.2, colour: SOFT } as const;
/** Heights tried for drawings of lay plans, mm: the largest that needs no more pages than the smallest. */
const TALLEST_LAYS = [96, 76, 60, 50] as const;
const CLOTH_GAP = 10;

function clothWords(garment: Garment, colour: Colour, plan: LayPlan): string[] {
  const { units } = garment.design;
  const { along, across } = colour.shrinkage;
  const words = [
    `The pieces take ${formatLength(plan.length, units)} of it and cover ${Math.round(plan.density * 100)} % of that.`,
    colour.nap
      ? 'One-way cloth: all pieces lie the same way up.'
      : 'Pieces may lie either way up along the grain.',
  ];
  if (along > 0 || across > 0)
    words.push(`Shrinkage of ${along} % along and ${across} % across is counted in. Wash before cutting.`);
  if (colour.price !== null && plan.buy > 0)
    words.push(`At ${colour.price} a metre: ${((colour.price * plan.buy) / 1000).toFixed(2)}.`);
  return words;
}

/** One cloth: what to ask for, and how its pieces lie. Null plan: none was made. */
function clothBlock(
  lettering: Lettering,
  garment: Garment,
  colour: Colour,
  plan: LayPlan | null,
  size: { readonly width: number; readonly tallest: number },
): Block {
  const { width, tallest } = size;
  const { units } = garment.design;
  const side = width - 22;
  const lines: Block[] = [paragraph(lettering, shortName(colour.name), side, { size: 4.4, bold: true })];
  if (!plan) lines.push(paragraph(lettering, 'No lay plan has been made for this cloth yet.', side, SMALL));
  else if (plan.buy > 0) {
    const buy = `Buy ${clothLength(plan.buy, units)}, ${formatLength(colour.width, units)} wide`;
    lines.push(paragraph(lettering, buy, side, { size: 4 }));
    lines.push(paragraph(lettering, clothWords(garment, colour, plan).join(' '), side, SMALL));
  }
  for (const p of plan?.problems ?? [])
    lines.push(paragraph(lettering, sayProblem(p, units), side, { size: 3.2, colour: ACCENT }));
  const head = row([swatch(colour.fill, 16, 11), stack(lines, 1.4)], 6);
  if (!plan || plan.placed.length === 0) return head;
  return stack([head, layDrawing(lettering, garment, colour, plan, width, tallest)], 4);
}

const KINDS: Readonly<Record<TrimKind, string>> = { straight: '', bias: ', bias', scalloped: ', scalloped' };

/** What to ask for of a ribbon. */
const sayBuy = ({ buy, pieces, soldIn }: Ribbon, units: Units): string =>
  pieces === null || soldIn === null
    ? clothLength(buy, units)
    : `${pieces} × ${formatLength(soldIn, units)}`;

/** One row to a ribbon: like trims are bought as one. */
function trimRows(lettering: Lettering, garment: Garment, width: number): { head: Block; rows: Block[] } {
  const { units } = garment.design;
  const columns: Columns = { starts: [0, 12, width * 0.5, width * 0.66, width * 0.82], width };
  const cell = (words: string, i: number): Block =>
    paragraph(lettering, words, columnWidth(columns, i), { size: 3.3 });
  const rows = ribbonsToBuy(garment.trims, units).map((ribbon) =>
    tableRow(columns, [
      swatch(ribbon.fill, 8, 4),
      cell(`${shortName(ribbon.name, 40)}${KINDS[ribbon.kind]}`, 1),
      cell(`${formatLength(ribbon.width, units)} wide`, 2),
      cell(formatLength(ribbon.need, units), 3),
      cell(sayBuy(ribbon, units), 4),
    ]),
  );
  const names = ['', 'Trim', 'Width', 'To cut', 'Buy'];
  return {
    head: tableHead(
      columns,
      names.map((w, i) => paragraph(lettering, w, columnWidth(columns, i), { size: 2.7, colour: SOFT })),
    ),
    rows,
  };
}

/** Lays everything on pages; called again and again to find out how large the drawings may be. */
type Filling = (page: Flow, tallest: number) => void;

/** The largest drawings that need no more pages than the smallest. */
function largestThatFits(page: Flow, fill: Filling): number {
  const pagesWith = TALLEST_LAYS.map((tallest) => {
    const trial = new Flow(page.width, page.height);
    fill(trial, tallest);
    return trial.pages.length;
  });
  return TALLEST_LAYS[pagesWith.indexOf(Math.min(...pagesWith))]!;
}

/** What to buy: each cloth with its lay plan to scale, then trims. */
export function shoppingPages(
  flow: Flow,
  lettering: Lettering,
  garment: Garment,
  plans: readonly LayPlan[],
): void {
  flow.newPage();
  const { width } = flow;
  const isFolded = garment.panels.some((p) => howToCut(garment, p).onFold);
  const note =
    'Lengths are rounded up to what is sold. A number with a bar over it lies mirrored, wrong side up.' +
    (isFolded ? ' The cloth lies in one layer: a panel cut on the fold is drawn opened out.' : '');
  const title = heading(lettering, 'What to buy', width);
  const top = stack([title, paragraph(lettering, note, width, { size: 3.3, colour: SOFT })], 3);
  const used = garment.design.colours.filter((c) => garment.panels.some((p) => p.colour === c.id));
  const trims = trimRows(lettering, garment, width);
  const fill: Filling = (page, tallest) => {
    const cloths = used.map((c) => {
      const plan = plans.find((p) => p.colour === c.id) ?? null;
      return clothBlock(lettering, garment, c, plan, { width, tallest });
    });
    const [first, ...others] = cloths;
    page.place(first ? stack([top, first], 6) : top);
    for (const cloth of others) page.place(cloth, CLOTH_GAP);
    if (trims.rows.length === 0) return;
    const head = padded(trims.head, 0, 3, width, trims.head.height + 3);
    page.placeAll(heading(lettering, 'Trims', width), trims.rows, 0, CLOTH_GAP, head);
  };
  fill(flow, largestThatFits(flow, fill));
}
