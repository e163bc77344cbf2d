import {
  type ClothPlan,
  type ClothToBuy,
  type LayPlan,
  type ShoppingList,
  type ShoppingRow,
  type WidthRow,
  sayNeatening,
  sayTotal,
  shoppingList,
  shoppingRows,
} from '../fabric';
import type { Garment } from '../garment';
import { sayProblem } from '../pattern';
import type { ColourId, Units } from '../pattern';
import { EMPTY_BLOCK, padded, paragraph, stack } from './block';
import type { Block } from './block';
import { heading } from './coverSheet';
import { Flow } from './flow';
import { ACCENT, SOFT } from './ink';
import type { LayPage } from './layPages';
import type { Lettering, Mark } from './marks';
import { swatch } from './panelLabel';
import { columnWidth, tableHead, tableRow } from './table';
import type { Columns } from './table';
import { widthTableBlocks } from './widthTableBlock';

const SMALL = { size: 3, colour: SOFT } as const;

/** Where what is bought stands in the handout. */
export interface ShoppingPlace {
  /** Usable paper, mm. */
  readonly width: number;
  readonly height: number;
  /** Pages before the first of these. */
  readonly pagesBefore: number;
  /** The lay plans that follow, in their order. */
  readonly lays: readonly { readonly plan: LayPlan; readonly pages: readonly LayPage[] }[];
  /** Tables over the usual widths, where they were worked out. */
  readonly widthTables: ReadonlyMap<ColourId, readonly WidthRow[]>;
}

/** Plans by colour: those on one's own cloth, and what is bought (nothing, where all is cut from one's own). */
export function clothPlans(plans: readonly LayPlan[]): Map<ColourId, ClothPlan> {
  const byColour = new Map<ColourId, ClothPlan>();
  for (const plan of plans) {
    const nothing: LayPlan = {
      ...plan,
      within: null,
      length: 0,
      buy: 0,
      density: 0,
      placed: [],
      problems: [],
    };
    const known = byColour.get(plan.colour) ?? { own: [], bought: nothing };
    byColour.set(
      plan.colour,
      plan.within ? { ...known, own: [...known.own, plan] } : { ...known, bought: plan },
    );
  }
  return byColour;
}

/** The page on which a plan begins; null where it has none. */
type PageOf = (plan: LayPlan) => number | null;

/** `Read from the lay plan on page 7.` */
function whereItIsRead(cloth: ClothToBuy, plans: readonly LayPlan[], pageOf: PageOf): string[] {
  const own = plans.filter((p) => p.colour === cloth.colour.id && p.within !== null);
  const bought = cloth.plan && cloth.plan.placed.length > 0 ? pageOf(cloth.plan) : null;
  const ownPages = own.flatMap((p) => pageOf(p) ?? []);
  const on = (pages: readonly number[]): string =>
    pages.length === 1 ? `page ${pages[0]}` : `pages ${pages.slice(0, -1).join(', ')} and ${pages.at(-1)}`;
  return [
    ...(bought === null ? [] : [`Read from the lay plan on page ${bought}.`]),
    ...(ownPages.length === 0 ? [] : [`How it lies on your own cloth: ${on(ownPages)}.`]),
  ];
}

interface Table {
  readonly lettering: Lettering;
  readonly columns: Columns;
}

function headOf({ lettering, columns }: Table, hasPrices: boolean): Block {
  const names = ['', 'What', 'Buy', hasPrices ? 'Price' : ''];
  return tableHead(
    columns,
    names.map((w, i) => paragraph(lettering, w, columnWidth(columns, i), { size: 2.7, colour: SOFT })),
  );
}

function rowOf(
  { lettering, columns }: Table,
  r: ShoppingRow,
  more: readonly string[],
  bad: readonly string[],
): Block {
  const wide = columnWidth(columns, 1);
  const what = stack(
    [
      paragraph(lettering, r.what, wide, { size: 3.6, bold: true }),
      paragraph(lettering, [...r.how, ...more].join(' '), wide, SMALL),
      ...bad.map((w) => paragraph(lettering, w, wide, { size: 3, colour: ACCENT })),
    ],
    1.1,
  );
  const ask = { size: r.isKnown ? 4 : 3.3, bold: r.isKnown };
  return tableRow(columns, [
    r.fill === null ? { width: 0, height: 0, marks: [] } : swatch(r.fill, 9, 6),
    what,
    paragraph(lettering, r.ask, columnWidth(columns, 2), ask),
    paragraph(lettering, r.cost, columnWidth(columns, 3), { size: 3.4 }),
  ]);
}

interface Shopping {
  readonly lettering: Lettering;
  readonly garment: Garment;
  readonly list: ShoppingList;
  readonly plans: readonly LayPlan[];
  readonly place: ShoppingPlace;
}

function fill(flow: Flow, { lettering, garment, list, plans, place }: Shopping, pageOf: PageOf): void {
  const { width } = place;
  const { units } = garment.design;
  const rows = shoppingRows(list);
  const hasPrices = rows.some((r) => r.cost !== '');
  const starts = hasPrices ? [0, 13, width * 0.66, width * 0.9] : [0, 13, width * 0.72, width];
  const table: Table = { lettering, columns: { starts, width } };
  const note =
    'Ask for these lengths. They hold for cloth of the width that is said: measure it in the shop.';
  const head = headOf(table, hasPrices);
  flow.place(
    stack(
      [
        heading(lettering, 'What to buy', width),
        paragraph(lettering, note, width, { size: 3.3, colour: SOFT }),
      ],
      3,
    ),
  );
  for (const part of new Set(rows.map((r) => r.part))) {
    const blocks = rows
      .filter((r) => r.part === part)
      .map((r) => {
        const cloth = list.cloths.find((c) => r.key === `cloth ${c.colour.id}`);
        if (!cloth) return rowOf(table, r, [], []);
        const bad = cloth.problems.map((p) => sayProblem(p, units));
        return rowOf(table, r, whereItIsRead(cloth, plans, pageOf), bad);
      });
    const title = paragraph(lettering, part, width, { size: 3.8, bold: true });
    flow.placeAll(title, blocks, 0, 7, padded(head, 0, 1.5, width, head.height + 1.5));
  }
  for (const words of [sayTotal(list), sayNeatening(list)])
    if (words) flow.place(paragraph(lettering, words, width * 0.9, { size: 3.3 }), 4);
  placeTables(flow, { lettering, list, tables: place.widthTables, units, width });
}

interface Tables {
  readonly lettering: Lettering;
  readonly list: ShoppingList;
  readonly tables: ReadonlyMap<ColourId, readonly WidthRow[]>;
  readonly units: Units;
  readonly width: number;
}

function placeTables(flow: Flow, { lettering, list, tables, units, width }: Tables): void {
  const cloths = list.cloths.flatMap(({ colour }) => {
    const rows = tables.get(colour.id);
    return rows ? [{ colour, rows }] : [];
  });
  const note =
    'What to ask for if your cloth has another width, or must lie one way (nap, one-way print). Each length is read from a lay plan of ' +
    'its own that was made quickly; bold is the plan you have. Before you cut another, set its width at the bench and print its lay plan.';
  const top = stack(
    [
      heading(lettering, 'Other widths', width),
      paragraph(lettering, note, width, { size: 3.3, colour: SOFT }),
    ],
    3,
  );
  widthTableBlocks(lettering, cloths, units, width).forEach(({ head, pairs }, i) => {
    const title = i === 0 ? padded(top, 0, 0, width, top.height + 3) : EMPTY_BLOCK;
    const before = i === 0 ? 9 : 5;
    const whole = stack([title, head, ...pairs], 0);
    // a table that a page holds is not torn
    if (whole.height <= flow.height) flow.place(whole, before);
    else flow.placeAll(title, pairs, 0, before, head);
  });
}

/** What to buy: cloth, lining, interfacing, trims, zips and thread, each with how its amount comes about and where it is read. */
export function shoppingPages(
  lettering: Lettering,
  garment: Garment,
  plans: readonly LayPlan[],
  place: ShoppingPlace,
): readonly (readonly Mark[])[] {
  const list = shoppingList(garment, clothPlans(plans));
  const shopping: Shopping = { lettering, garment, list, plans, place };
  const laidOut = (firstLay: number): readonly (readonly Mark[])[] => {
    const flow = new Flow(place.width, place.height);
    fill(flow, shopping, (plan) => {
      const index = place.lays.findIndex((l) => l.plan === plan);
      if (index < 0) return null;
      return firstLay + place.lays.slice(0, index).reduce((sum, l) => sum + l.pages.length, 0);
    });
    return flow.pages;
  };
  // How many pages these are decides on which the lay plans begin: laid out once to count them.
  let first = place.pagesBefore + 2;
  let pages = laidOut(first);
  for (let tries = 0; tries < 3 && place.pagesBefore + pages.length + 1 !== first; tries += 1) {
    first = place.pagesBefore + pages.length + 1;
    pages = laidOut(first);
  }
  return pages;
}
