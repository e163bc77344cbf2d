import { expect, test } from 'vitest';
import { deriveGarment, type Garment } from '../../src/garment';
import { pressings, tellStep } from '../../src/garment/telling';
import type { ClosingId } from '../../src/pattern';
import { type Lettering, type Mark, stepPicture } from '../../src/paper';
import { ACCENT } from '../../src/paper/ink';
import { boxOf } from '../../src/paper/marks';
import { DEMO, garmentFrom } from '../browser/onTable';
import { lined, rectangle } from '../making/designs';

const demo = garmentFrom(DEMO);
const SIZE = { width: 60, height: 60 };
const lettering: Lettering = { width: (text, size) => text.length * size * 0.5, clean: (text) => text };

const picture = (garment: Garment, index: number): readonly Mark[] =>
  stepPicture(lettering, garment, garment.plan.steps[index]!, SIZE).marks;

const isStroke = (m: Mark, width: number, colour: string): boolean =>
  m.kind === 'path' && m.stroke?.width === width && m.stroke.colour === colour;

test('every step of the demo has a picture that stays in its frame, with what is sewn drawn thick', () => {
  demo.plan.steps.forEach((step, i) => {
    const { marks, height } = stepPicture(lettering, demo, step, SIZE);
    const box = boxOf(marks);
    expect(box.minX, step.text).toBeGreaterThanOrEqual(-2);
    expect(box.maxX, step.text).toBeLessThanOrEqual(SIZE.width + 2);
    expect(box.maxY - box.minY, step.text).toBeLessThanOrEqual(SIZE.height + 12);
    expect(height).toBeGreaterThan(10);
    expect(
      picture(demo, i).some((m) => isStroke(m, 0.9, ACCENT)),
      step.text,
    ).toBe(true);
  });
});

test('the panels in hand are numbered', () => {
  demo.plan.steps
    .filter((s) => s.kind === 'seam' || s.kind === 'dart')
    .forEach((step) => {
      const { marks } = stepPicture(lettering, demo, step, SIZE);
      const said = marks.flatMap((m) => (m.kind === 'text' ? [m.text] : []));
      for (const id of step.joins.flat()) expect(said).toContain(`${demo.plan.numbers.get(id)}`);
    });
});

test('the allowances lie, dashed, on the side the telling presses them to', () => {
  const garment = deriveGarment(
    lined(rectangle(300, 300), [
      [
        [0, 150],
        [300, 150],
      ],
      [
        [150, 0],
        [150, 150],
      ],
    ]),
  );
  const index = garment.plan.steps.findIndex((s) => s.seams.length === 2);
  const step = garment.plan.steps[index]!;
  // the upper half has a seam that ends on the level one: pressed down
  const lower = garment.panels.find((p) => p.spot.at[1] > 150)!;
  for (const id of step.seams) {
    const seam = garment.seamById.get(id)!;
    expect(pressings(garment).get(id)).toBe(seam.a === lower.id ? 'a' : 'b');
  }
  expect(tellStep(garment, step).parts.find((p) => p.topic === 'press')!.text).toContain(
    `towards ${garment.plan.numbers.get(lower.id)}`,
  );
  const marks = picture(garment, index);
  const numberAt = (n: number): number =>
    marks.find((m) => m.kind === 'text' && m.text === `${n}`)!.kind === 'text'
      ? (marks.find((m) => m.kind === 'text' && m.text === `${n}`) as Extract<Mark, { kind: 'text' }>).at[1]
      : 0;
  const dashes = marks.filter((m) => m.kind === 'path' && m.stroke?.dash !== undefined);
  const sewn = boxOf(marks.filter((m) => isStroke(m, 0.9, ACCENT)));
  expect(dashes.length).toBeGreaterThan(0);
  for (const dash of dashes) expect(boxOf([dash]).minY).toBeGreaterThan(sewn.maxY - 1);
  expect(numberAt(garment.plan.numbers.get(lower.id)!)).toBeGreaterThan(sewn.maxY);
});

test('a corner to be set in is ringed', () => {
  const garment = deriveGarment(
    lined(rectangle(300, 300), [
      [
        [0, 150],
        [150, 150],
        [150, 300],
      ],
    ]),
  );
  garment.plan.steps.forEach((step, i) => {
    const rings = picture(garment, i).filter(
      (m) => m.kind === 'path' && m.closed && isStroke(m, 0.5, ACCENT),
    );
    expect(rings).toHaveLength(step.corners.length);
  });
  expect(garment.plan.steps.some((s) => s.corners.length > 0)).toBe(true);
});

test('of a seam with a zip only what is below the zip is drawn thick', () => {
  const { design } = demo;
  const back = design.pieces.find((p) => p.name === 'back')!.id;
  const garment = deriveGarment({
    ...design,
    closings: [
      {
        id: 'closing-1' as ClosingId,
        kind: 'hidden',
        on: { kind: 'edge', piece: back, edge: 'centre back', nth: 0 },
        length: 400,
        allowance: null,
        slot: 0,
      },
    ],
  });
  const index = garment.plan.steps.findIndex((s) => s.kind === 'join' && s.text.includes('centre back'));
  const marks = picture(garment, index);
  const thick = boxOf(marks.filter((m) => isStroke(m, 0.9, ACCENT)));
  const all = boxOf(marks.filter((m) => m.kind === 'path'));
  // 40 cm of a centre back of about 98 cm are not sewn in this step
  expect((thick.maxY - thick.minY) / (all.maxY - all.minY)).toBeLessThan(0.62);
  expect(thick.maxY).toBeGreaterThan(all.maxY - 3);
});
