/** The demo garments laid in every mode, judged by libraries that share no code with the planner; see judgeLay.ts. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { checkLay, compareLayerings, layJobs, planLay } from '../../src/fabric';
import { designFromTracings, openDesign, readTracing } from '../../src/files';
import { deriveGarment } from '../../src/garment';
import { type Colour, type ColourId, type Design, type PieceId, PLAIN_CLOTH } from '../../src/pattern';
import { judgeLay } from './judgeLay';

const demo = (name: string): string =>
  readFileSync(new URL(`../../demo-data/${name}`, import.meta.url), 'utf8');

function traced(name: string): Design {
  const read = readTracing(demo(name), name);
  if (!read.ok) throw new Error(`${name} cannot be read`);
  return designFromTracings([read.value]);
}
function sheath(): Design {
  const opened = openDesign(demo('sheath.json'), 'sheath.json');
  if (!opened.ok) throw new Error('the sheath cannot be opened');
  return opened.value;
}

const onCloth = (design: Design, cloth: Partial<Colour>): Design => ({
  ...design,
  colours: design.colours.map((c) => ({ ...c, ...PLAIN_CLOTH, ...cloth })),
});

const DESIGNS = { sheath, tshirt: () => traced('tshirt.svg'), bodice: () => traced('bodice.svg') } as const;

const MODES: readonly (readonly [keyof typeof DESIGNS, string, Partial<Colour>])[] = [
  ['tshirt', 'in one layer', {}],
  ['sheath', 'folded', { layering: 'folded' }],
  ['bodice', 'folded with nap and margins', { layering: 'folded', nap: true, margin: 12 }],
  ['sheath', 'striped', { repeat: { along: 64, across: 0 } }],
  [
    'bodice',
    'printed both ways and shrinking',
    { repeat: { along: 90, across: 75 }, shrinkage: { along: 4, across: 2 } },
  ],
  ['tshirt', 'printed and folded', { repeat: { along: 90, across: 75 }, layering: 'folded' }],
];

test.each(MODES)(
  'the demo’s %s is laid %s so that independent libraries find nothing wrong',
  (which, _, cloth) => {
    const jobs = layJobs(deriveGarment(onCloth(DESIGNS[which](), cloth)), { seconds: 0 });
    expect(jobs.length).toBeGreaterThan(0);
    for (const job of jobs) {
      const plan = planLay(job);
      expect(plan.placed.length).toBe(job.pieces.length);
      expect(judgeLay(job, plan.placed)).toEqual([]);
    }
  },
);

test('leave, lining, facings and interfacing are laid soundly with all the rest', () => {
  const plain = traced('tshirt.svg');
  const fusible: Colour = {
    ...plain.colours[0]!,
    ...PLAIN_CLOTH,
    id: 'fusible' as ColourId,
    name: 'fusible',
    width: 1500,
  };
  const [first] = plain.colours;
  const garment = deriveGarment(plain);
  const design: Design = {
    ...plain,
    colours: [...plain.colours, fusible],
    lining: { pieces: plain.pieces.slice(-1).map((p) => p.id), colour: fusible.id, shorter: 20 },
    facings: garment.pieces.flatMap(({ whole }) =>
      whole.edges.some((e) => e.plainName === 'neckline')
        ? [
            {
              piece: whole.piece.id as PieceId,
              edge: 'neckline',
              depth: 60,
              colour: first!.id,
              interfacing: fusible.id,
            },
          ]
        : [],
    ),
    offGrain: garment.panels.slice(0, 1).map((p) => ({ piece: p.piece, at: p.flat.at, degrees: 15 })),
  };
  const jobs = layJobs(deriveGarment(onCloth(design, { layering: 'folded' })), { seconds: 0 });
  expect(jobs.some((j) => j.pieces.some((p) => p.copy >= 3))).toBe(true);
  expect(jobs.some((j) => j.pieces.some((p) => p.turns))).toBe(true);
  for (const job of jobs) expect(judgeLay(job, planLay(job).placed)).toEqual([]);
});

test('folded plans of the demo garments are sound in one layer too, and the comparison says what they cost', () => {
  for (const job of layJobs(deriveGarment(traced('tshirt.svg')), { seconds: 0 })) {
    const [single, folded] = (['single', 'folded'] as const).map((layering) => planLay({ ...job, layering }));
    expect(checkLay({ ...job, layering: 'single' }, folded!.placed)).toEqual([]);
    const { proposed, because, saves } = compareLayerings(single!, folded!);
    if (because === 'buy') expect(saves.buy).toBeGreaterThan(0);
    else expect(saves.buy).toBe(0);
    expect(['single', 'folded']).toContain(proposed);
  }
});
