import {
  boxOfPoints,
  CHORD_SAGITTA,
  flattenRing,
  signedAreaOfPoints,
  type Polyline,
  type Pt,
} from '../geometry';
import { problem, type Outcome } from '../pattern';
import { decodeFile } from './decodeFile';
import { joinOutline } from './joinOutline';
import { LIMITS } from './limits';
import { readDrawing } from './readDrawing';
import { readXml } from './readXml';
import { Refusal, refusable, refuse } from './refusal';
import { ringFault } from './ringFault';
import { shownName } from './roles';
import { thinDense } from './thinDense';

/** The outline of a piece of cloth as it was drawn. */
export interface ClothOutline {
  readonly name: string;
  /** Corners, mm, its box from 0, 0; signedArea > 0, simple. Curves are flattened. */
  readonly outline: Polyline;
}

/** A traced edge of cloth with too many corners is flattened more coarsely, mm: cloth is not cut finer than this. */
const COARSE_SAGITTA = 0.25;

/** Outlines thinner than this on average (mm) are strokes drawn as shapes, not cloth. */
const THINNEST_CLOTH = 5;

const nameFrom = (file: string): string =>
  shownName(
    file
      .slice(-400)
      .replace(/^.*[\\/]/s, '')
      .replace(/\.svgz?$/i, ''),
  ) || 'piece of cloth';

/** @throws Refusal for outlines that cross themselves or have too many corners */
function cornersOf(ring: Parameters<typeof thinDense>[0], file: string, name: string): Pt[] {
  const thinned = thinDense(ring);
  const fault = ringFault(thinned);
  if (fault?.kind === 'crosses')
    throw new Refusal(problem('outline-crosses-itself', { file, piece: name }, null, fault.at));
  if (fault) throw new Refusal(problem('outline-without-area', { file, piece: name }, null, fault.at));
  const fine = flattenRing(thinned, CHORD_SAGITTA);
  const points = fine.length <= LIMITS.remnantCorners ? fine : flattenRing(thinned, COARSE_SAGITTA);
  if (points.length > LIMITS.remnantCorners)
    refuse('file-too-large', { file, size: points.length, most: LIMITS.remnantCorners });
  const { minX, minY } = boxOfPoints(points);
  return points.map(([x, y]): Pt => [x - minX, y - minY]);
}

/**
 * The closed outlines drawn in an SVG, each one a piece of cloth, largest first, its warp along x. Stretches that meet end to end
 * are joined as those of a tracing are.
 * @param scale mm per user unit, used where the file does not say how large it is
 */
export function readClothOutlines(
  data: Uint8Array | string,
  file: string,
  scale: number | null = null,
): Outcome<readonly ClothOutline[]> {
  return refusable<readonly ClothOutline[]>(() => {
    const drawing = readDrawing(readXml(decodeFile(data, file), file), file, scale);
    const broken = drawing.shapes.find(({ fault }) => fault !== null);
    if (broken?.fault) throw new Refusal(broken.fault);
    const drawn = drawing.shapes.flatMap(({ paths }) => paths);
    if (drawn.length > LIMITS.outlineParts)
      refuse('file-too-large', { file, size: drawn.length, most: LIMITS.outlineParts });
    const name = nameFrom(file);
    const { rings, gap } = joinOutline(drawn);
    if (gap) throw new Refusal(problem('outline-open', { file, piece: name, gap: gap.length }, null, gap.at));
    const outlines = rings
      .map((ring) => cornersOf(ring, file, name))
      .filter((points) => {
        const { maxX, maxY } = boxOfPoints(points);
        return signedAreaOfPoints(points) > THINNEST_CLOTH * Math.max(maxX, maxY);
      });
    if (outlines.length === 0) refuse('no-cloth-outline', { file });
    if (outlines.length > LIMITS.remnants)
      refuse('file-too-large', { file, size: outlines.length, most: LIMITS.remnants });
    return {
      ok: true,
      value: outlines.map((outline, i) => ({
        name: outlines.length === 1 ? name : `${name} ${i + 1}`,
        outline,
      })),
      problems: drawing.problems,
    };
  });
}
