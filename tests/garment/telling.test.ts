import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Path, type Pt, pathThrough } from '../../src/geometry';
import { deriveGarment, type Garment } from '../../src/garment';
import {
  beforeYouSew,
  extraTellings,
  seamMeetings,
  settingIn,
  tellStep,
  tellSteps,
  tellingText,
} from '../../src/garment/telling';
import { type ClosingId, type Design, type TrimId, formatLength } from '../../src/pattern';
import { DEMO, garmentFrom } from '../browser/onTable';
import { dart, design, lined, panelLine, piece, rectangle } from '../making/designs';

const demo = garmentFrom(DEMO);

/** Numbers that stand for panels in a text: `4`, `1+2`, `3–5`. */
function numbersIn(text: string): Set<number> {
  const found = new Set<number>();
  for (const [, from, to] of text.matchAll(/(\d+)(?:–(\d+))?/g))
    for (let n = Number(from); n <= Number(to ?? from); n += 1) found.add(n);
  return found;
}

function expectSound(garment: Garment): void {
  const tellings = [beforeYouSew(garment), ...tellSteps(garment)];
  for (const telling of tellings) {
    expect(tellingText(telling)).not.toMatch(/NaN|undefined|null|Infinity|\[object|  |\.\./);
    for (const { text } of telling.parts) expect(text).toMatch(/^[A-Z0-9“].*[.:]$/u);
  }
  garment.plan.steps.forEach((step) => {
    const said = numbersIn(tellStep(garment, step).title);
    for (const panel of step.joins.flat()) expect(said).toContain(garment.plan.numbers.get(panel));
  });
}

test('every step of the demo is told without gaps and names every panel it touches', () => {
  expectSound(demo);
});

test('the same holds in inches, where no length is told in centimetres', () => {
  const garment = deriveGarment({ ...demo.design, units: 'in' });
  expectSound(garment);
  const words = tellSteps(garment).map(tellingText).join(' ');
  expect(words).not.toMatch(/\d cm\b/);
  expect(words).toMatch(/5\/8 in|9\/16 in/);
});

/** The demo with everything that can be asked for: a zip, facings, a lining and trims. */
function madeUp(kind: 'hidden' | 'shown', sleeves: 'flat' | 'set in'): Garment {
  const { design: d } = demo;
  const [front, back] = d.pieces;
  const [colour] = d.colours;
  const facing = { edge: 'neckline', depth: 60, colour: colour!.id, interfacing: null };
  return deriveGarment({
    ...d,
    closings: [
      {
        id: 'closing-1' as ClosingId,
        kind,
        on: { kind: 'edge', piece: back!.id, edge: 'centre back', nth: 0 },
        length: null,
        allowance: null,
        slot: 10,
      },
    ],
    facings: [front!, back!].map((p) => ({ ...facing, piece: p.id })),
    lining: { pieces: [front!.id, back!.id], colour: d.colours[1]!.id, shorter: 20 },
    trims: d.lines.slice(0, 3).map((line, i) => ({
      id: `trim-${i}` as TrimId,
      name: `braid ${i}`,
      on: { kind: 'line', line: line.id, from: 0, to: i === 1 ? 0.5 : 1 },
      kind: 'straight',
      width: 12,
      fill: '#eeeeee',
      rows: i === 1 ? 1 : 2,
      shrinkage: 0,
      soldIn: null,
    })),
    sewing: { ...d.sewing, sleeves },
  });
}

test.each([
  ['hidden', 'flat'],
  ['shown', 'set in'],
] as const)('with a %s zip, sleeves %s, facings, lining and trims every step is told', (kind, sleeves) => {
  const garment = madeUp(kind, sleeves);
  expectSound(garment);
  expectSound(garment.extras!);
  const words = tellSteps(garment).map(tellingText).join(' ');
  expect(words).toMatch(new RegExp(`Set the ${kind} zip into the centre back`));
  // a shown zip's seam leaves its place open; that of a hidden one is sewn below it once it is in
  const seam = garment.plan.steps.find(
    (s) => s.kind === 'join' && /centre back/.test(tellStep(garment, s).title),
  )!;
  const zip = garment.plan.steps.find((s) => s.kind === 'zip')!;
  const said =
    kind === 'shown' ? `the zip goes in there in step ${zip.step}` : 'zip is in: close it and sew only below';
  expect(tellingText(tellStep(garment, seam))).toContain(said);
  expect(zip.step < seam.step).toBe(kind === 'hidden');
  if (kind === 'hidden')
    expect(tellingText(tellStep(garment, zip))).toContain(`seam below it is sewn in step ${seam.step}`);
  expect(tellingText(tellStep(garment, seam))).not.toMatch(/cut edge to cut edge/);
  const [{ length }] = garment.closings as [(typeof garment.closings)[0]];
  expect(tellingText(tellStep(garment, zip))).toContain(formatLength(length, 'cm'));
  expect(tellingText(settingIn(garment)!.telling)).toMatch(/lining \(\d/);
  expect(
    extraTellings(garment)
      .map((e) => e.mark)
      .slice(0, 3),
  ).toEqual(['A', 'B', 'C']);
});

test('a garment without lining and facings has none to tell', () => {
  expect(extraTellings(demo)).toEqual([]);
  expect(settingIn(demo)).toBeNull();
});

const place = fc.integer({ min: 0, max: 300 });
const stroke = fc.tuple(fc.boolean(), place, place, fc.boolean()).map(([isLevel, p, q, isBent]): Path => {
  const [a, b]: [Pt, Pt] = isLevel
    ? [
        [0, p],
        [300, q],
      ]
    : [
        [p, 0],
        [q, 300],
      ];
  if (!isBent) return pathThrough([a, b], false);
  const towards = (s: Pt, e: Pt, t: number): Pt => [
    s[0] + (e[0] - s[0]) * t + 40,
    s[1] + (e[1] - s[1]) * t - 30,
  ];
  return [[a, towards(a, b, 0.3), towards(a, b, 0.7), b]];
});
const anyDesign = fc
  .tuple(fc.array(stroke, { minLength: 1, maxLength: 5 }), fc.boolean(), fc.constantFrom(0, 3, 10, 15))
  .map(([lines, isPair, newSeam]): Design => {
    const d = lined(rectangle(300, 300), lines, { cutting: isPair ? 'pair' : 'once' });
    return { ...d, allowances: { ...d.allowances, newSeam } };
  });

test('whatever is drawn, every step is told without gaps and names its panels', () => {
  fc.assert(
    fc.property(anyDesign, (d) => expectSound(deriveGarment(d))),
    { seed: 21, numRuns: 60 },
  );
});

// Press before crossing: costume course text ch. 5, Central Washington University (n.d.).
test('every seam that another seam crosses later is pressed in its own step, after it is sewn and before it is crossed', () => {
  let crossed = 0;
  fc.assert(
    fc.property(anyDesign, (d) => {
      const garment = deriveGarment(d);
      for (const m of seamMeetings(garment))
        for (const { run } of m.enders) {
          // a seam left partly open is finished after what it meets
          if (run.step.step > m.through.step.step) continue;
          crossed += 1;
          const parts = tellStep(garment, run.step).parts;
          const sewn = parts.findIndex((p) => p.topic === 'sew');
          expect(parts.findIndex((p) => p.topic === 'press')).toBeGreaterThan(sewn);
          const before = tellingText(beforeYouSew(garment));
          expect(before).toContain('Press every seam before another crosses it');
        }
    }),
    { seed: 22, numRuns: 60 },
  );
  expect(crossed).toBeGreaterThan(100);
});

test('every step that sews ends with pressing', () => {
  for (const step of demo.plan.steps)
    expect(
      tellStep(demo, step).parts.map((p) => p.topic),
      step.text,
    ).toContain('press');
});

// Stay-stitch within 3 mm of the line where a corner is clipped: sewingladyblog (n.d.). Set-in corner reinforced, clipped, two passes.
test('an inner corner is stay-stitched and clipped before anything is laid on', () => {
  const corner = lined(rectangle(300, 300), [
    [
      [0, 150],
      [150, 150],
      [150, 300],
    ],
  ]);
  const garment = deriveGarment(corner);
  const withCorner = garment.plan.steps.filter((s) => s.corners.length > 0);
  expect(withCorner.length).toBe(1);
  const { parts } = tellStep(garment, withCorner[0]!);
  const [prepare, lay] = [
    parts.findIndex((p) => p.topic === 'prepare'),
    parts.findIndex((p) => p.topic === 'lay'),
  ];
  expect(prepare).toBeGreaterThanOrEqual(0);
  expect(prepare).toBeLessThan(lay);
  const { text } = parts[prepare]!;
  expect(text).toMatch(/within 3 mm of the stitching line/);
  expect(text.indexOf('sew a row')).toBeLessThan(text.indexOf('clip the allowance'));
  expect(parts.find((p) => p.topic === 'sew')!.text).toMatch(/stop with the needle down/);
});

// Bust darts down, upright darts to the centre: fabricatedcloset.com (n.d.).
test('a dart from the side is pressed down, an upright one towards the centre', () => {
  const side = dart([0, 140], [100, 150], [0, 160]);
  const upright = dart([90, 0], [100, 100], [110, 0]);
  const front = piece(rectangle(300, 300), { name: 'front', darts: [side, upright] });
  const folded = {
    ...front,
    fold: [
      [300, 0],
      [300, 300],
    ] as const,
  };
  const garment = deriveGarment(
    design(
      [folded],
      [
        panelLine(
          [
            [0, 250],
            [600, 250],
          ],
          0,
        ),
      ],
    ),
  );
  const told = garment.plan.steps
    .filter((s) => s.kind === 'dart')
    .map((s) => tellingText(tellStep(garment, s)));
  expect(told.join(' ')).toMatch(/those that lie across downwards and the upright ones towards the centre/);
});

test('of the demo’s darts those at the side are pressed down, the waist darts towards the centre', () => {
  const told = demo.plan.steps.filter((s) => s.kind === 'dart').map((s) => tellStep(demo, s));
  for (const { title, parts } of told) {
    const press = parts.find((p) => p.topic === 'press')!.text;
    expect(press).toMatch(/side seam/.test(title) ? /then downwards/ : /then towards the centre/);
  }
  expect(told.length).toBeGreaterThan(1);
});

test('the thread is told at the first step and wherever it changes, and nowhere else', () => {
  let last: unknown = null;
  for (const step of demo.plan.steps) {
    const said = tellStep(demo, step).parts.filter((p) => p.topic === 'thread');
    const changes = step.thread !== null && step.thread !== last;
    expect(said.length).toBe(changes ? 1 : 0);
    if (step.thread !== null) last = step.thread;
  }
});

test('a pair is told to be made twice, mirrored', () => {
  for (const step of demo.plan.steps.filter((s) => s.kind !== 'join' && s.piece !== null)) {
    const isPair = demo.pieceById.get(step.piece!)!.whole.piece.cutting === 'pair';
    expect(/Do the same with the mirrored copy/.test(tellingText(tellStep(demo, step)))).toBe(isPair);
  }
});

test('a dark allowance pressed under lighter cloth is trimmed narrower, and no other is', () => {
  const design2 = lined(rectangle(300, 300), [
    [
      [0, 150],
      [300, 150],
    ],
    [
      [150, 0],
      [150, 150],
    ],
  ]);
  const bare = deriveGarment(design2);
  const [chalk, slate] = design2.colours;
  const mark = (isDark: (at: Pt) => boolean): Garment =>
    deriveGarment({
      ...design2,
      marks: bare.panels.map((p) => ({
        piece: p.piece,
        at: p.spot.at,
        colour: (isDark(p.spot.at) ? slate : chalk)!.id,
      })),
    });
  const narrower = (g: Garment): boolean =>
    tellSteps(g).some((t) => /narrower than the other/.test(tellingText(t)));
  // the upper half has a seam that ends on the level one: both allowances go down, whatever the cloth
  expect(narrower(mark(([, y]) => y < 150))).toBe(true);
  expect(narrower(mark(([, y]) => y > 150))).toBe(false);
});
