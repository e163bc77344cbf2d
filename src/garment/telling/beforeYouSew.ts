import { type EdgeRole, roleOfName } from '../../neighbours';
import { remember } from '../../pattern';
import type { Garment } from '../garment';
import { fineIn, listed, numbersOf } from './names';
import { lengthOffGrain } from './offGrain';
import { outerEdgesOf } from './outerEdges';
import type { StepTelling, TellingPart } from './stepTelling';

/** Edges that lie open until late and stretch meanwhile. */
const HELD: readonly EdgeRole[] = ['neckline', 'armhole'];

/** Panels with a part of an open, curved edge that runs off the grain: held before anything is sewn. */
function heldEdges(garment: Garment): { name: string; numbers: string }[] {
  const found = new Map<string, Set<(typeof garment.panels)[number]>>();
  for (const { whole } of garment.pieces) {
    whole.edges.forEach(({ plainName }, edge) => {
      const role = roleOfName(plainName);
      if (!role || !HELD.includes(role)) return;
      for (const { panel, edge: own } of outerEdgesOf(garment, { piece: whole.piece.id, edge }))
        if (lengthOffGrain(own.path, whole.grain) > 0)
          found.set(plainName, (found.get(plainName) ?? new Set()).add(panel));
    });
  }
  return [...found].map(([name, panels]) => ({
    name,
    numbers: numbersOf(
      garment,
      [...panels].map((p) => p.id),
    ),
  }));
}

/** What comes before the first step: short, and only what matters for this garment. Remembered. */
export const beforeYouSew = remember((garment: Garment): StepTelling => {
  const held = heldEdges(garment);
  const parts: TellingPart[] = [
    {
      topic: 'take care',
      text: 'Sew a toile (a trial garment) first, from cloth you can spare. Wash, dry and press every cloth as the garment will be washed; test dark beside light on a scrap, and the iron on a scrap of each cloth.',
    },
    {
      topic: 'prepare',
      text: 'Lay the pieces out in the order of their numbers, right side up, arrows all one way. Mark notches, darts and corners before you take the paper off. “To 7” on an edge: it is sewn to panel 7.',
    },
  ];
  if (held.length > 0)
    parts.push({
      topic: 'grain',
      text: `These open edges stretch while you work. Stay-stitch them now, in the allowance within ${fineIn(garment)(3)} of the stitching line, with stitches of 1.5 to 2 mm, each panel from its higher end: ${listed(held.map((h) => `the ${h.name} of ${h.numbers}`))}.`,
    });
  parts.push(
    {
      topic: 'sew',
      text: 'Notches meet single to single and double to double; their distances are along the stitching line. Sew from cut edge to cut edge where nothing else is said. Stitch length 2.5 mm.',
    },
    {
      topic: 'press',
      text: 'Press every seam before another crosses it: flat as it was sewn, then to its side. If a cloth frays, neaten its allowances then, before the next seam covers them.',
    },
  );
  return { title: 'Before you sew', parts };
});
