import { type Pt, add, flattenRing, isInRing, mix, scale, subtract, unit } from '../../geometry';
import type { PanelId } from '../../panels';
import { type PlacedDart, type Pressed, dartIntake, dartLegLengths, nameDart, pressed } from '../../pattern';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { capital, fineIn, lengthIn, listed, numbersOf, panelWords, titleStart } from './names';
import type { StepTelling, TellingPart } from './stepTelling';

/** `dart from the side seam`, and in plural. */
function dartWords(garment: Garment, step: Step): string {
  const whole = step.piece === null ? null : garment.pieceById.get(step.piece)?.whole;
  if (!whole) return 'dart';
  const names = step.darts.map((d) => nameDart(d, whole));
  const kinds = [...new Set(names)];
  return listed(
    kinds.map((name) => {
      const count = names.filter((n) => n === name).length;
      return count === 1
        ? `the ${name}`
        : `${count === 2 ? 'both' : `the ${count}`} ${name.replace('dart', 'darts')}`;
    }),
  );
}

/** A place this far inside a mouth is looked at, mm: the mouth itself lies on the edge. */
const INTO_DART = 2;

/** What of a dart lies in the panels: where a seam cuts it the other panel has the rest. */
function partIn(
  garment: Garment,
  panels: readonly PanelId[],
  dart: PlacedDart,
): 'all' | 'a point' | 'between' {
  const rings = panels.map((id) => flattenRing(garment.panelById.get(id)!.ring, 0.1));
  const isIn = (p: Pt): boolean => rings.some((ring) => isInRing(p, ring));
  if (dart.kind === 'double') {
    const count = [dart.points[0], dart.points[2]].filter(isIn).length;
    return count === 2 ? 'all' : count === 1 ? 'a point' : 'between';
  }
  const middle = mix(...dart.mouth, 0.5);
  const mouth = add(middle, scale(unit(subtract(dart.point, middle)), INTO_DART));
  if (!isIn(dart.point)) return 'between';
  return isIn(mouth) ? 'all' : 'a point';
}

/** How a dart that a seam cuts is sewn in one of its panels. */
const CUT_OFF = {
  'a point':
    'runs out at a seam: sew along its marked legs from the cut edge to the point, run off the fold there and knot the threads; do not sew back.',
  between: 'runs through to the next panel: sew along its marked legs from cut edge to cut edge.',
} as const;

function sewPart(garment: Garment, step: Step, dart: PlacedDart): TellingPart {
  const length = lengthIn(garment);
  const part = partIn(garment, [...new Set(step.joins.flat())], dart);
  if (part !== 'all')
    return { topic: 'sew', text: `${step.darts.length > 1 ? 'One' : 'It'} ${CUT_OFF[part]}` };
  const [one] = dartLegLengths(dart);
  const intake = length(dartIntake(dart));
  if (dart.kind === 'double')
    return {
      topic: 'sew',
      text: `${intake} wide at its middle: sew from the middle to one point, then to the other. Run off the fold and knot the threads; do not sew back.`,
    };
  return {
    topic: 'sew',
    text: `${intake} wide at the edge, legs ${length(one ?? 0)} long: sew from the edge to the point, run off the fold there and knot the threads; do not sew back.`,
  };
}

const LIES: Readonly<Record<Pressed['towards'], string>> = {
  down: 'downwards',
  'the centre': 'towards the centre',
  'the larger side': 'towards the larger side',
};

/** Darts to the bust down, upright ones to the centre. Source: fabricatedcloset.com (n.d.). */
function pressPart(garment: Garment, step: Step): TellingPart {
  const { whole } = garment.pieceById.get(step.piece!)!;
  const ways = [...new Set(step.darts.map((d) => pressed(whole, d).towards))];
  const way =
    ways.length === 1
      ? LIES[ways[0]!]
      : listed(
          ways.map((w) => (w === 'down' ? 'those that lie across downwards' : `the upright ones ${LIES[w]}`)),
        );
  const it = step.darts.length > 1 ? 'them' : 'it';
  const past = step.darts.length > 1 ? 'their points' : 'its point';
  return {
    topic: 'press',
    text: `Press ${it} flat, then ${way}, over a rounded pad, not past ${past}.`,
  };
}

/** The fold of a double-pointed dart lies flat only when it is clipped. Common practice, no source. */
const clipParts = (garment: Garment, { darts }: Step): TellingPart[] =>
  darts.some((d) => d.kind === 'double')
    ? [
        {
          topic: 'clip',
          text: `Clip the fold at its widest place, to ${fineIn(garment)(3)} from the stitching.`,
        },
      ]
    : [];

/** Unlike darts of one step are told one by one, like ones together. */
function alike(garment: Garment, { darts, joins }: Step): readonly PlacedDart[] {
  const panels = [...new Set(joins.flat())];
  const seen = new Set<string>();
  return darts.filter((d) => {
    const key = `${d.kind} ${dartIntake(d).toFixed(0)} ${partIn(garment, panels, d)}`;
    return !seen.has(key) && Boolean(seen.add(key));
  });
}

/** A dart, or the like darts of one panel. */
export function tellDart(garment: Garment, step: Step): StepTelling {
  const panels = [...new Set(step.joins.flat())];
  const name = titleStart(garment, step.piece);
  const darts = alike(garment, step);
  return {
    title: capital(`${name}sew ${dartWords(garment, step)} in ${numbersOf(garment, panels)}`),
    parts: [
      {
        topic: 'lay',
        text: `Fold ${panelWords(garment, panels)} right sides together along the middle of ${step.darts.length > 1 ? 'each dart' : 'the dart'}, its two legs on each other.`,
      },
      ...darts.map((d) => sewPart(garment, step, d)),
      ...clipParts(garment, step),
      ...(step.darts.length > 0 && step.piece !== null ? [pressPart(garment, step)] : []),
    ],
  };
}
