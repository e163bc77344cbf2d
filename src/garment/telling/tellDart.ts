import { type PlacedDart, dartIntake, dartLegLengths, nameDart, pressed } from '../../pattern';
import type { Step } from '../../sewing';
import type { Garment } from '../garment';
import { capital, lengthIn, listed, numbersOf, panelWords } from './names';
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

function sewPart(garment: Garment, dart: PlacedDart): TellingPart {
  const length = lengthIn(garment);
  const [one] = dartLegLengths(dart);
  const intake = length(dartIntake(dart));
  if (dart.kind === 'double')
    return {
      topic: 'sew',
      text: `${intake} wide at its middle: sew from the middle to one point, then from the middle to the other. Run off the fold at each point and knot the threads; do not sew back.`,
    };
  return {
    topic: 'sew',
    text: `${intake} wide at the edge, legs ${length(one ?? 0)} long: sew from the edge to the point, run off the fold there and knot the threads; do not sew back.`,
  };
}

/** Darts to the bust down, upright ones to the centre. Source: fabricatedcloset.com (n.d.). */
function pressPart(garment: Garment, step: Step, dart: PlacedDart): TellingPart {
  const whole = garment.pieceById.get(step.piece!)!.whole;
  const { towards } = pressed(whole, dart);
  const open = dart.kind === 'double' ? ' Clip it at its widest place so that it lies flat.' : '';
  const later = garment.plan.steps.find(
    (s) => s.step > step.step && s.seams.some((id) => beside(garment, id, step.joins[0])),
  );
  const before = later ? ` Press before step ${later.step} catches it.` : '';
  return {
    topic: 'press',
    text: `Press it as sewn, then ${towards === 'down' ? 'downwards' : `towards ${towards}`}, over a rounded pad, not past its point.${open}${before}`,
  };
}

const beside = (garment: Garment, id: Step['seams'][number], panels: Step['joins'][0]): boolean => {
  const seam = garment.seamById.get(id);
  return seam !== undefined && panels.some((p) => p === seam.a || p === seam.b);
};

/** Unlike darts of one step are told one by one, like ones together. */
function alike(darts: readonly PlacedDart[]): readonly PlacedDart[] {
  const seen = new Set<string>();
  return darts.filter((d) => {
    const key = `${d.kind} ${dartIntake(d).toFixed(0)}`;
    return !seen.has(key) && Boolean(seen.add(key));
  });
}

/** A dart, or the like darts of one panel. */
export function tellDart(garment: Garment, step: Step): StepTelling {
  const panels = [...new Set(step.joins.flat())];
  const name = step.piece ? `${garment.pieceById.get(step.piece)!.whole.name}: ` : '';
  const darts = alike(step.darts);
  return {
    title: capital(`${name}sew ${dartWords(garment, step)} in ${numbersOf(garment, panels)}`),
    parts: [
      {
        topic: 'lay',
        text: `Fold ${panelWords(garment, panels)} right sides together along the middle of the dart, so that its two legs lie on each other; pin through both.`,
      },
      ...darts.map((d) => sewPart(garment, d)),
      ...darts.slice(0, 1).map((d) => pressPart(garment, step, d)),
    ],
  };
}
