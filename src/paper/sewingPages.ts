import type { Garment } from '../garment';
import { pathBox, transformPath } from '../geometry';
import type { Matrix } from '../geometry';
import type { PanelId, Seam } from '../panels';
import { dartLegs } from '../pattern';
import type { Step } from '../sewing';
import { padded, paragraph, row, stack, tickBox } from './block';
import type { Block } from './block';
import { heading } from './coverSheet';
import type { Flow } from './flow';
import { garmentDrawing } from './garmentDrawing';
import { ACCENT, HAIR, SOFT, tint } from './ink';
import { line, stroked } from './marks';
import type { Lettering, Mark } from './marks';
import { colourOf } from './panelOnPaper';

const PICTURE_WIDTH = 56;
const PICTURE_HEIGHT = 40;

/** Scale and place that garmentDrawing gives a single piece: taken from its box, so that the seam lies on it. */
function seamMatrix(garment: Garment, step: Step): Matrix {
  const { whole } = garment.pieceById.get(step.piece!)!;
  const [a, b] = [pathBox(whole.outline), pathBox(whole.stitching)];
  const box = {
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  };
  const k = Math.min((PICTURE_WIDTH - 14) / (box.maxX - box.minX), PICTURE_HEIGHT / (box.maxY - box.minY));
  return [k, 0, 0, k, (PICTURE_WIDTH - (box.maxX - box.minX) * k) / 2 - box.minX * k, -box.minY * k];
}

/** The piece so far: panels being joined in their colours, what was joined before in a paler one, the seam drawn thick. */
function stepPicture(lettering: Lettering, garment: Garment, step: Step, done: ReadonlySet<PanelId>): Block {
  const piece = step.piece && garment.pieceById.get(step.piece);
  if (!piece) return { width: PICTURE_WIDTH, height: 0, marks: [] };
  const now = new Set<PanelId>(step.joins.flat());
  const picture = garmentDrawing(lettering, garment, [piece], {
    width: PICTURE_WIDTH,
    height: PICTURE_HEIGHT,
    fill: (panel) => {
      const { fill } = colourOf(garment, panel);
      if (now.has(panel.id)) return tint(fill, 0.35);
      return done.has(panel.id) ? tint(fill, 0.82) : null;
    },
    isNumbered: (panel) => now.has(panel.id),
    hasNames: false,
    hasDetail: false,
    numberSize: 3.4,
  });
  const m = seamMatrix(garment, step);
  const seams = seamsOf(garment, step).map((seam) => transformPath(seam.path, m));
  const marks: Mark[] = [...picture.marks];
  if (step.darts.length > 0) marks.push(...dartMarks(step, m));
  if (seams.length > 0) {
    marks.push(
      stroked(seams, { width: 1.5, colour: '#ffffff' }),
      stroked(seams, { width: 0.9, colour: ACCENT }),
    );
  }
  return { ...picture, marks };
}

/** What is sewn in a step: its seams, or for a trim the seams it is laid over. */
function seamsOf(garment: Garment, step: Step): readonly Seam[] {
  if (step.kind !== 'trim') return garment.seams.filter((s) => step.seams.includes(s.id));
  const labels = garment.trims.filter((t) => t.trim.id === step.trim).map((t) => t.lineLabel);
  return garment.seams.filter((s) => s.piece === step.piece && labels.includes(s.line.label));
}

/** The darts of the step, drawn thick. */
function dartMarks({ darts }: Step, m: Matrix): Mark[] {
  const paths = darts.map((d) => transformPath(dartLegs(d), m));
  return [stroked(paths, { width: 1.1, colour: '#ffffff' }), stroked(paths, { width: 0.6, colour: ACCENT })];
}

/** What follows when every piece is whole again. The order is common practice, no source. */
function makingUp(lettering: Lettering, width: number): Block {
  const words =
    'Every piece is now whole again. Make up the garment as its pattern says; usual is: any zip, shoulders, neckline, ' +
    'side seams, sleeves, hems. Before each of these, lay the two edges together: lines drawn to run on must meet.';
  return stack(
    [
      paragraph(lettering, 'Then make up', width, { size: 4.2, bold: true }),
      paragraph(lettering, words, width, { size: 3.5 }),
    ],
    2,
  );
}

function stepRow(
  lettering: Lettering,
  garment: Garment,
  step: Step,
  done: ReadonlySet<PanelId>,
  width: number,
): Block {
  const words = width - PICTURE_WIDTH - 32;
  const kind = KINDS[step.kind];
  const body = row(
    [
      tickBox(5, { width: 0.3, colour: SOFT }),
      padded(paragraph(lettering, `${step.step}`, 12, { size: 6, bold: true }), 0, 0, 13, 6),
      stack(
        [
          paragraph(lettering, kind, words, { size: 2.8, colour: SOFT }),
          paragraph(lettering, step.text, words, { size: 3.7 }),
        ],
        1.6,
      ),
    ],
    4,
  );
  const picture = stepPicture(lettering, garment, step, done);
  const height = Math.max(body.height, picture.height) + 7;
  const marks = [
    ...padded(body, 0, 3, width, height).marks,
    ...padded(picture, width - PICTURE_WIDTH, 3, width, height).marks,
    line([0, height], [width, height], { width: 0.15, colour: HAIR }),
  ];
  return { width, height, marks };
}

const KINDS: Readonly<Record<Step['kind'], string>> = {
  dart: 'Dart',
  seam: 'Seam',
  'partial seam': 'Seam, partly open',
  trim: 'Trim',
  join: 'Putting together',
  zip: 'Zip',
  edge: 'Edge',
  hem: 'Hem',
};

/** Every step of the sewing plan with a box to tick and a picture. */
export function sewingPages(flow: Flow, lettering: Lettering, garment: Garment): void {
  flow.newPage();
  const { width } = flow;
  const note =
    'Work through the steps in this order. The thick line is what to sew now; pale panels are joined already.';
  const done = new Set<PanelId>();
  const rows = garment.plan.steps.map((step) => {
    const r = stepRow(lettering, garment, step, done, width);
    for (const id of step.joins.flat()) done.add(id);
    return r;
  });
  const top = stack(
    [
      heading(lettering, 'Sewing order', width),
      paragraph(lettering, note, width, { size: 3.3, colour: SOFT }),
    ],
    3,
  );
  const nothing = 'There is nothing to join yet: draw panel lines first.';
  if (rows.length === 0) flow.place(stack([top, paragraph(lettering, nothing, width, { size: 3.7 })], 6));
  else flow.placeAll({ ...top, height: top.height + 4 }, rows, 0, 0);
  const last = makingUp(lettering, width);
  flow.place(padded(last, 0, 6, width, last.height + 6));
}
