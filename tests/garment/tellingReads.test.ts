import { expect, test } from 'vitest';
import { deriveGarment, type Garment } from '../../src/garment';
import {
  beforeYouSew,
  extraTellings,
  settingIn,
  tellStep,
  tellSteps,
  tellingText,
} from '../../src/garment/telling';
import type { Closing, ClosingId, PieceId } from '../../src/pattern';
import type { Step } from '../../src/sewing';
import { DEMO, garmentFrom } from '../browser/onTable';
import { design, doubleDart, lined, panelLine, piece, rectangle } from '../making/designs';

const demo = garmentFrom(DEMO);
const { design: doc } = demo;
const [front, back, sleeve] = doc.pieces.map((p) => p.id) as [PieceId, PieceId, PieceId];
const dist = (p: readonly [number, number], q: readonly [number, number]): number =>
  Math.hypot(p[0] - q[0], p[1] - q[1]);
const cloth = doc.colours[1]!.id;

const zip: Closing = {
  id: 'closing-1' as ClosingId,
  kind: 'hidden',
  on: { kind: 'edge', piece: back, edge: 'centre back', nth: 0 },
  length: null,
  allowance: null,
  slot: 0,
};

const textOf = (garment: Garment, step: Step): string => tellingText(tellStep(garment, step));

test('what holds for every seam is said once, before the first step', () => {
  const before = tellingText(beforeYouSew(demo));
  for (const words of [
    'single to single',
    'cut edge to cut edge',
    'Stitch length',
    'before another crosses it',
  ]) {
    expect(before).toContain(words);
    const again = tellSteps(demo).filter((t) => tellingText(t).includes(words));
    expect(again.map((t) => t.title)).toEqual([]);
  }
});

test('no step speaks of a line by a label that stands on no cut piece', () => {
  for (const telling of tellSteps(demo)) expect(tellingText(telling)).not.toMatch(/\bL\d/);
});

test('notches stand at the told distances from the told end, on both panels of a straight seam', () => {
  const step = demo.plan.steps[0]!;
  const told = [...textOf(demo, step).matchAll(/(?:single|double) at ([\d.]+) cm/g)].map(
    (m) => Number(m[1]) * 10,
  );
  expect(told.length).toBeGreaterThan(1);
  const seam = demo.seamById.get(step.seams[0]!)!;
  const ends = [seam.path[0]![0], seam.path.at(-1)!.at(-1)!];
  // “the wearer’s right side seam”: on a front seen from outside at the drawing’s left
  const from = ends[0]![0] < ends[1]![0] ? ends[0]! : ends[1]!;
  expect(textOf(demo, step)).toContain('wearer’s right side seam');
  for (const id of [seam.a, seam.b]) {
    const { notches } = demo.cutPieces[demo.panels.findIndex((p) => p.id === id)]!;
    const own = notches.filter((n) => n.seam === seam.id).map((n) => dist(n.at, from));
    own.sort((p, q) => p - q);
    expect(own.length).toBe(told.length);
    own.forEach((mm, i) => expect(Math.abs(mm - told[i]!)).toBeLessThan(0.5));
  }
});

test('a neckline nobody spoke of gets a strip on the bias, as long as the edge and a little over', () => {
  const step = demo.plan.steps.find((s) => s.kind === 'edge')!;
  const [, cm] = /([\d.]+) cm long in all/.exec(textOf(demo, step))!;
  const lengthOf = (own: typeof front): number =>
    doc.pieces
      .find((p) => p.id === own)!
      .edgeNames.filter((e) => e.name === 'neckline')
      .flatMap((e) => e.path)
      .reduce((sum, c) => sum + chordLength(c), 0);
  // both halves of the front, both backs
  expect(Math.abs(Number(cm) * 10 - 30 - 2 * lengthOf(front) - 2 * lengthOf(back))).toBeLessThan(1);
});

const at = (c: readonly (readonly [number, number])[], t: number): readonly [number, number] =>
  c.length === 1
    ? c[0]!
    : at(
        c
          .slice(1)
          .map((p, i) => [c[i]![0] + (p[0] - c[i]![0]) * t, c[i]![1] + (p[1] - c[i]![1]) * t] as const),
        t,
      );

/** Length of a curve along 200 fine chords; no code of the garment's own. */
function chordLength(curve: readonly (readonly [number, number])[]): number {
  let sum = 0;
  for (let i = 0; i < 200; i += 1) sum += dist(at(curve, i / 200), at(curve, (i + 1) / 200));
  return sum;
}

test('a waist with a corner at the fold runs on all round: one strip, and for armholes two', () => {
  // by hand: the slanted waist of the half is √(150² + 20²) = 151.33 mm, four of them make 605.3 mm, and 30 mm over
  const half = (name: string, x: number, out: number): string =>
    `<g id="piece-skirt-${name}"><path id="outline" d="M${x} 20L${x + out * 150} 40L${x + out * 160} 500L${x} 500Z"/><path id="fold" d="M${x} 20V500"/>` +
    `<path id="grain" d="M${x + out * 50} 100V400"/><path id="edge-waist" d="M${x} 20L${x + out * 150} 40"/>` +
    `<path id="edge-side-seam" d="M${x + out * 150} 40L${x + out * 160} 500"/><path id="edge-hem" d="M${x} 500H${x + out * 160}"/></g>`;
  const skirt = garmentFrom(
    `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="520mm" viewBox="0 0 600 520">${half('front', 20, 1)}${half('back', 580, -1)}</svg>`,
  );
  const strips = (garment: Garment): string[] =>
    garment.plan.steps.filter((s) => s.kind === 'edge').map((s) => textOf(garment, s));
  expect(strips(skirt)).toHaveLength(1);
  expect(strips(skirt)[0]).toContain('cut a strip 4 cm wide at 45° to the grain, 63.5 cm long in all');
  const sleeveless = deriveGarment({
    ...doc,
    pieces: doc.pieces.filter((p) => p.id !== sleeve),
    lines: doc.lines.filter((l) => l.piece !== sleeve),
    marks: doc.marks.filter((m) => m.piece !== sleeve),
  });
  const armholes = strips(sleeveless).filter((t) => t.includes('armhole'));
  expect(armholes).toHaveLength(1);
  expect(armholes[0]).toMatch(/cut two strips .* Lay one along each edge/);
});

test('under a lining the neckline is turned in, and the lining’s centre back stays open for the zip', () => {
  const garment = deriveGarment({
    ...doc,
    closings: [zip],
    lining: { pieces: [front, back], colour: cloth, shorter: 20 },
  });
  const neck = garment.plan.steps.find((s) => s.kind === 'edge')!;
  expect(textOf(garment, neck)).toContain('The lining covers it later');
  const centre = extraTellings(garment).find((e) => /centre back/.test(e.telling.title))!;
  const open = garment.closings[0]!.length + 10;
  expect(tellingText(centre.telling)).toContain(`Leave the upper ${open / 10} cm open for the zip`);
  const shoulders = extraTellings(garment).find((e) => /shoulder/.test(e.telling.title))!;
  expect(tellingText(shoulders.telling)).not.toContain('zip');
  expect(tellingText(settingIn(garment)!.telling)).not.toContain('facing');
  // the lining goes in under the letter after those of its own steps
  const marks = extraTellings(garment).map((e) => e.mark);
  expect(settingIn(garment)!.mark.charCodeAt(0)).toBe(marks.at(-1)!.charCodeAt(0) + 1);
});

test('facings are sewn to each other at the shoulders, pressed open, before the neckline takes them', () => {
  const facing = { edge: 'neckline', depth: 60, colour: cloth, interfacing: null };
  const garment = deriveGarment({
    ...doc,
    closings: [zip],
    facings: [front, back].map((p) => ({ ...facing, piece: p })),
  });
  const titles = extraTellings(garment).map((e) => e.telling.title);
  expect(titles).toEqual([
    expect.stringMatching(/^Sew both shoulders: front neckline facing \(\d+\) to back/),
  ]);
  expect(tellingText(extraTellings(garment)[0]!.telling)).toContain('Press the allowances open');
});

test('a band sewn in the round is slipped over its sleeve, and only what is in hand is told before', () => {
  const garment = deriveGarment({ ...doc, sewing: { ...doc.sewing, inTheRound: [doc.lines.at(-1)!.id] } });
  const round = garment.plan.steps.find((s) => s.piece === sleeve && /in the round/.test(s.text))!;
  expect(textOf(garment, round)).toMatch(/Both go round by now: slip/);
  expect(textOf(garment, round)).toContain('all the way round');
  const own = garment.plan.steps.filter(
    (s) => s.kind === 'join' && /underarm/.test(tellStep(garment, s).title),
  );
  expect(own.length).toBeGreaterThan(1);
  // of the last part, the band alone, no seam has been sewn yet
  expect(textOf(garment, own.at(-1)!)).not.toContain('Pin first where panel seams meet');
});

test('a dart that a seam cuts is told from the cut edge to its point, in either panel', () => {
  const upright = doubleDart([150, 60], [140, 150], [150, 240], [160, 150]);
  const cut = design(
    [piece(rectangle(300, 300), { name: 'front', darts: [upright] })],
    [
      panelLine(
        [
          [0, 150],
          [300, 150],
        ],
        0,
      ),
    ],
  );
  const garment = deriveGarment(cut);
  const darts = garment.plan.steps.filter((s) => s.kind === 'dart');
  expect(darts.length).toBe(2);
  for (const step of darts) expect(textOf(garment, step)).toContain('from the cut edge to the point');
  const whole = deriveGarment(lined(rectangle(300, 300), []));
  expect(whole.plan.steps).toEqual([]);
});

test('a zip in a side seam that runs on into the sleeve is told on its own side, in one step', () => {
  const on = { kind: 'edge', piece: front, edge: 'side seam', nth: 0 } as const;
  const garment = deriveGarment({ ...doc, closings: [{ ...zip, on, length: 400 }] });
  expect(garment.plan.steps.filter((s) => s.kind === 'zip').length).toBe(1);
  const sides = garment.plan.steps.find((s) => /both side seams/.test(tellStep(garment, s).title))!;
  expect(textOf(garment, sides)).toMatch(
    /On the wearer’s (left|right) the zip is in: .*; then from the underarm down the sleeve\./,
  );
});
