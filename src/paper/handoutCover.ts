import type { Garment } from '../garment';
import { padded, paragraph, row, stack } from './block';
import type { Block } from './block';
import { shortName } from './cleanText';
import { heading } from './coverSheet';
import type { Flow } from './flow';
import { garmentDrawing, inColours } from './garmentDrawing';
import { ACCENT, SOFT } from './ink';
import { line } from './marks';
import type { Lettering } from './marks';
import { swatch } from './panelLabel';
import { colourOf } from './panelOnPaper';

const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** Colours that panels are cut from, in the design's order, with the panels' numbers. */
function coloursUsed(garment: Garment): { fill: string; name: string; numbers: number[] }[] {
  return garment.design.colours
    .map((c) => ({
      fill: c.fill,
      name: shortName(c.name, 40),
      numbers: garment.panels
        .filter((p) => colourOf(garment, p).id === c.id)
        .map((p) => garment.plan.numbers.get(p.id)!),
    }))
    .filter(({ numbers }) => numbers.length > 0);
}

function legend(lettering: Lettering, garment: Garment, width: number): Block {
  const column = width / 2 - 5;
  const entries = coloursUsed(garment).map(({ fill, name, numbers }) =>
    row(
      [
        swatch(fill, 13, 8),
        stack(
          [
            paragraph(lettering, name, column - 17, { size: 3.8, bold: true }),
            paragraph(
              lettering,
              `${numbers.length === 1 ? 'panel' : 'panels'} ${numbers.join(', ')}`,
              column - 17,
              { size: 3, colour: SOFT },
            ),
          ],
          0.8,
        ),
      ],
      4,
      true,
    ),
  );
  const half = Math.ceil(entries.length / 2);
  const sides = [entries.slice(0, half), entries.slice(half)].map((side) => ({
    ...stack(side, 4),
    width: column,
  }));
  return row(sides, 10);
}

/** First page: the name and the whole garment in its colours. */
export function coverPage(flow: Flow, lettering: Lettering, garment: Garment): void {
  const { width } = flow;
  const colours = coloursUsed(garment).length;
  const facts = [
    plural(garment.pieces.length, 'pattern piece', 'pattern pieces'),
    plural(garment.panels.length, 'panel', 'panels'),
    plural(colours, 'colour', 'colours'),
  ].join(' · ');
  const title = stack(
    [
      { width, height: 1.6, marks: [line([0, 0.8], [22, 0.8], { width: 1.2, colour: ACCENT })] },
      paragraph(lettering, shortName(garment.design.name), width, { size: 12, bold: true }),
      paragraph(lettering, facts, width, { size: 4.2, colour: SOFT }),
    ],
    4,
  );
  flow.place(padded(title, 0, 10, width, title.height + 10));
  const key = legend(lettering, garment, width);
  const drawing = garmentDrawing(lettering, garment, garment.pieces, {
    width,
    height: Math.max(80, flow.left - key.height - 30),
    fill: inColours(garment),
    isNumbered: () => true,
    hasNames: true,
    hasDetail: true,
    numberSize: 5.5,
  });
  flow.place(drawing, 12);
  flow.place(key, 12);
}

/** The same without colour: to check numbers against, and to colour in. */
export function keyPage(flow: Flow, lettering: Lettering, garment: Garment): void {
  flow.newPage();
  const { width } = flow;
  const note =
    'Panels are numbered in sewing order. Left and right are the wearer’s; pieces are seen from outside.';
  flow.place(
    stack(
      [heading(lettering, 'Key', width), paragraph(lettering, note, width, { size: 3.3, colour: SOFT })],
      3,
    ),
  );
  const drawing = garmentDrawing(lettering, garment, garment.pieces, {
    width,
    height: flow.left - 14,
    fill: () => null,
    isNumbered: () => true,
    hasNames: true,
    hasDetail: true,
    numberSize: 6,
  });
  flow.place(drawing, 10);
}
