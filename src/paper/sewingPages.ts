import { TOPIC_WORDS, beforeYouSew, extraTellings, settingIn, tellStep } from '../garment/telling';
import type { StepTelling } from '../garment/telling';
import type { Garment } from '../garment';
import type { Step } from '../sewing';
import { EMPTY_BLOCK, padded, paragraph, row, stack, tickBox } from './block';
import type { Block } from './block';
import { heading } from './coverSheet';
import type { Flow } from './flow';
import { HAIR, SOFT } from './ink';
import { line } from './marks';
import type { Lettering } from './marks';
import { stepPicture } from './stepPicture';

const PICTURE = { width: 60, height: 60 } as const;
/** Left of the words: box to tick and number. */
const NUMBER_ROOM = 21;
const TOPIC_ROOM = 15;
const BODY = 3.2;

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

/** A telling as a bold title and a line per part, headed by its topic. */
function tellingBlock(
  lettering: Lettering,
  { title, parts }: StepTelling,
  kind: string,
  width: number,
): Block {
  const rows = parts.map(({ topic, text }, i) =>
    row(
      [
        {
          ...paragraph(lettering, parts[i - 1]?.topic === topic ? ' ' : TOPIC_WORDS[topic], TOPIC_ROOM, {
            size: 2.7,
            colour: SOFT,
          }),
          width: TOPIC_ROOM,
        },
        paragraph(lettering, text, width - TOPIC_ROOM - 1, { size: BODY }),
      ],
      1,
    ),
  );
  return stack(
    [
      paragraph(lettering, kind, width, { size: 2.6, colour: SOFT }),
      paragraph(lettering, title, width, { size: 4, bold: true }),
      stack(rows, 1.5),
    ],
    1.8,
  );
}

/** A block between a little air and a hairline. */
function ruled(body: Block, picture: Block, width: number): Block {
  const height = Math.max(body.height, picture.height) + 7;
  const marks = [
    ...padded(body, 0, 3, width, height).marks,
    ...padded(picture, width - picture.width, 3, width, height).marks,
    line([0, height], [width, height], { width: 0.15, colour: HAIR }),
  ];
  return { width, height, marks };
}

/** A box to tick, and what a step is marked with. */
const numberBlock = (lettering: Lettering, mark: string): Block =>
  row(
    [tickBox(5, { width: 0.3, colour: SOFT }), paragraph(lettering, mark, 12, { size: 5.6, bold: true })],
    3,
  );

/** Where a row stands: usable width and height of a page, mm; and what it is marked with. */
interface Frame {
  readonly width: number;
  readonly most: number;
  readonly mark: string;
  /** False for the rest of a step that was too long for one row. */
  readonly isFirst: boolean;
}

/**
 * A step as one row with box, number and picture; where its words are longer than a page, as two, the second without them.
 * @param most height of a page, mm
 */
function stepRows(
  lettering: Lettering,
  garment: Garment,
  step: Step,
  telling: StepTelling,
  frame: Frame,
): Block[] {
  const words = frame.width - PICTURE.width - NUMBER_ROOM - 6;
  const number = frame.isFirst ? numberBlock(lettering, frame.mark) : EMPTY_BLOCK;
  const kind = frame.isFirst ? KINDS[step.kind] : `Step ${frame.mark}, continued`;
  const text = tellingBlock(lettering, telling, kind, words);
  const { title, parts } = telling;
  if (text.height + 8 > frame.most && parts.length > 1) {
    const half = Math.ceil(parts.length / 2);
    const tell = (own: StepTelling['parts'], isFirst: boolean): Block[] =>
      stepRows(lettering, garment, step, { title, parts: own }, { ...frame, isFirst });
    return [...tell(parts.slice(0, half), frame.isFirst), ...tell(parts.slice(half), false)];
  }
  const picture = frame.isFirst ? stepPicture(lettering, garment, step, PICTURE) : EMPTY_BLOCK;
  return [ruled(row([padded(number, 0, 0, NUMBER_ROOM, 6), text], 0), picture, frame.width)];
}

/** Every step of the sewing plan with a box to tick, its telling and a picture; before them what comes before sewing. */
export function sewingPages(flow: Flow, lettering: Lettering, garment: Garment): void {
  flow.newPage();
  const { width } = flow;
  const note =
    'Work through the steps in this order. In the pictures the thick line is sewn now, small strokes on it are notches, arrows and dashes ' +
    'show to which side allowances are pressed, a ring is a corner to be set in.';
  const top = stack(
    [
      heading(lettering, 'Sewing order', width),
      paragraph(lettering, note, width, { size: 3.3, colour: SOFT }),
    ],
    3,
  );
  const { steps } = garment.plan;
  if (steps.length === 0) {
    const nothing = 'There is nothing to join yet: draw panel lines first.';
    flow.place(stack([top, paragraph(lettering, nothing, width, { size: 3.7 })], 6));
    return;
  }
  const before = tellingBlock(lettering, beforeYouSew(garment), '', width - NUMBER_ROOM);
  const first = ruled(padded(before, NUMBER_ROOM, 0, width, before.height), EMPTY_BLOCK, width);
  const frameOf = (mark: string): Frame => ({ width, most: flow.height, mark, isFirst: true });
  const rows = [
    first,
    ...steps.flatMap((step) =>
      stepRows(lettering, garment, step, tellStep(garment, step), frameOf(`${step.step}`)),
    ),
  ];
  flow.placeAll({ ...top, height: top.height + 4 }, rows, 0, 0);
  extraPages(flow, lettering, garment, frameOf);
}

/** Lining and facings: sewn among themselves, then taken in. */
function extraPages(
  flow: Flow,
  lettering: Lettering,
  garment: Garment,
  frameOf: (mark: string) => Frame,
): void {
  const extras = extraTellings(garment);
  const last = settingIn(garment);
  if (extras.length === 0 && !last) return;
  const { width } = flow;
  const note = 'Sewn among themselves, at any time before the step of the garment that takes them in.';
  const rows = extras.flatMap((e) => stepRows(lettering, e.garment, e.step, e.telling, frameOf(e.mark)));
  const ends = last
    ? [
        ruled(
          row(
            [
              padded(numberBlock(lettering, last.mark), 0, 0, NUMBER_ROOM, 6),
              tellingBlock(lettering, last.telling, 'Lining', width - NUMBER_ROOM),
            ],
            0,
          ),
          EMPTY_BLOCK,
          width,
        ),
      ]
    : [];
  const top = stack(
    [
      heading(lettering, 'Lining and facings', width),
      paragraph(lettering, note, width, { size: 3.3, colour: SOFT }),
    ],
    3,
  );
  flow.placeAll({ ...top, height: top.height + 4 }, [...rows, ...ends], 0, 10);
}
