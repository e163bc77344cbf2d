import paper from 'paper/dist/paper-core';
import { MOST_STRAIN, type TrimRun, strainAlong } from '../../trim';
import { INK, inkOn } from './ink';
import { pathItem, pointsItem } from './shapes';

/** Length of a stretch that shows how much the trim must give there, mm. */
const STRAIN_STEP = 3;

/** A stroke that is as wide as the cloth it stands for: mm, not pixels. */
const inCloth = (width: number, colour: paper.Color): object => ({
  strokeColor: colour,
  strokeWidth: width,
  strokeScaling: true,
  strokeCap: 'butt',
  strokeJoin: 'miter',
});

const tinted = (hex: string, alpha: number): paper.Color => {
  const colour = new paper.Color(hex);
  colour.alpha = alpha;
  return colour;
};

/** Where a trim must give more than its kind does: madder along its middle, the stronger the more. */
function strainItems({ trim, path, strain }: TrimRun): paper.Item[] {
  const most = MOST_STRAIN[trim.kind];
  if (strain <= most) return [];
  return strainAlong(path, trim.width, STRAIN_STEP)
    .filter((s) => s.strain > most)
    .map(({ from, to, strain: here }) =>
      pointsItem(
        [from, to],
        inCloth(trim.width * 0.5, tinted(INK.madder, Math.min(1, 0.3 + here / (4 * most)))),
      ),
    );
}

/** Trims as they lie on the cloth: strips of their true width, with the stitching of a single row along the middle. */
export const trimItems = (trims: readonly TrimRun[], isDim: boolean): paper.Item[] =>
  trims.flatMap((run): paper.Item[] => {
    const { trim, path, isClosed } = run;
    const ink = inkOn(trim.fill);
    const edge = pathItem(path, inCloth(trim.width + 0.8, tinted(INK.graphite, isDim ? 0.2 : 0.7)), isClosed);
    const strip = pathItem(path, inCloth(trim.width, tinted(trim.fill, isDim ? 0.4 : 1)), isClosed);
    const row =
      trim.rows === 1
        ? [pathItem(path, { strokeColor: tinted(ink, 0.6), strokeWidth: 1, dashArray: [3, 3] }, isClosed)]
        : [];
    return [edge, strip, ...row, ...strainItems(run)];
  });
