import paper from 'paper/dist/paper-core';
import { endOf, mirrorAcross, startOf, transformPath, type Path, type Pt } from '../../geometry';
import { severityOf, type PanelLine, type Problem, type WholePiece } from '../../pattern';
import { middleOf } from '../drawing/bendLine';
import type { Caught } from '../drawing/catchPoint';
import { INK, SERIF } from './ink';
import { dotItem, pathItem, sizedItem, textItem } from './shapes';

const colour = (hex: string): paper.Color => new paper.Color(hex);

/** A fixed-size mark of so many pixels. */
const mark = (at: Pt, size: number, children: paper.Item[]): paper.Group =>
  sizedItem(at, size, () => size, children);

const ring = (at: Pt, radius: number, stroke: string, fill: string, width = 2): paper.Path =>
  dotItem(at, radius, { strokeColor: colour(stroke), fillColor: colour(fill), strokeWidth: width });

const lens = (at: Pt): paper.Path =>
  new paper.Path({
    segments: [
      [at[0], at[1] - 7],
      [at[0] + 7, at[1]],
      [at[0], at[1] + 7],
      [at[0] - 7, at[1]],
    ],
    closed: true,
    strokeColor: colour(INK.indigo),
    fillColor: colour(INK.chalk),
    strokeWidth: 2,
    strokeScaling: false,
    insert: false,
  });

function chalked(path: Path, width: number): paper.Item[] {
  return [
    pathItem(path, { strokeColor: colour(INK.chalk), strokeWidth: width + 4 }),
    pathItem(path, { strokeColor: colour(INK.indigo), strokeWidth: width }),
  ];
}

/** The selected line with its handles: rings at the ends, a lozenge at the middle of each curve. Its mirror image follows, dashed. */
export function selectedLineItems(
  line: PanelLine,
  whole: WholePiece,
): { flat: paper.Item[]; sized: paper.Item[] } {
  if (line.path.length === 0) return { flat: [], sized: [] };
  const image =
    whole.foldLine && !line.once
      ? [
          pathItem(transformPath(line.path, mirrorAcross(whole.foldLine)), {
            strokeColor: colour(INK.indigo),
            strokeWidth: 2.5,
            dashArray: [7, 6],
          }),
        ]
      : [];
  const middles = line.path.length <= 6 ? line.path.map((curve) => middleOf(curve)) : [];
  return {
    flat: [...image, ...chalked(line.path, 3)],
    sized: [
      ...middles.map((at) => mark(at, 14, [lens(at)])),
      ...endHandles([startOf(line.path), endOf(line.path)]),
    ],
  };
}

/** Rings that can be taken hold of. */
export const endHandles = (places: readonly Pt[]): paper.Item[] =>
  places.map((at) => mark(at, 14, [ring(at, 7, INK.indigo, INK.chalk, 2.5)]));

/** The stroke being drawn. */
export const strokeItems = (from: Pt, to: Pt): { flat: paper.Item[]; sized: paper.Item[] } => ({
  flat: chalked([[from, to]], 2.5),
  sized: [mark(from, 12, [ring(from, 6, INK.indigo, INK.chalk, 2.5)])],
});

/** What the tip has caught: a ring for a spot, a filled dot on an edge or line, a cross for nothing. */
export function tipItem({ at, kind }: Caught): paper.Item {
  if (kind === null) return mark(at, 8, [ring(at, 4, INK.indigo, INK.chalk, 1.5)]);
  const onCurve = kind === 'edge' || kind === 'line' || kind === 'level' || kind === 'centre';
  return mark(
    at,
    22,
    onCurve
      ? [ring(at, 9, INK.indigo, INK.chalk, 2), dotItem(at, 3.5, { fillColor: colour(INK.indigo) })]
      : [ring(at, 11, INK.indigo, INK.chalk, 2.5), dotItem(at, 5, { fillColor: colour(INK.indigo) })],
  );
}

/** A madder mark at each error and warning that has a place. */
export function problemItems(problems: readonly Problem[]): paper.Item[] {
  return problems.flatMap((p) => {
    if (p.at === null || severityOf(p) === 'hint') return [];
    const [x, y] = p.at;
    const sign = textItem([x, y + 5.5], '!', {
      fontFamily: SERIF,
      fontSize: 17,
      fontWeight: 'bold',
      justification: 'center',
      fillColor: colour(INK.chalk),
    });
    return [mark(p.at, 24, [ring(p.at, 11, INK.chalk, INK.madder, 2), sign])];
  });
}

/** A wide ring that leads the eye to a place. */
export const pointingItem = (at: Pt): paper.Item =>
  mark(at, 60, [dotItem(at, 28, { strokeColor: colour(INK.madder), strokeWidth: 3 })]);

/** An edge or a dart that is sewn in the step held up to the light: like a lit seam. */
export const litItems = (path: Path): paper.Item[] => [
  pathItem(path, { strokeColor: colour(INK.chalk), strokeWidth: 8 }),
  pathItem(path, { strokeColor: colour(INK.indigo), strokeWidth: 4 }),
];
