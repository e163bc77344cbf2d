import { type Box, type Path, isCubic } from '../../geometry';
import { type PanelledPiece, panelledPiece } from '../../panels';
import type { Design } from '../../pattern';
import { layOut } from '../drawing/tableLayout';

const SVG = 'http://www.w3.org/2000/svg';

function element<K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string>>,
): SVGElementTagNameMap[K] {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

/** Path data of a closed ring, curves as curves. */
function ringData(ring: Path): string {
  const steps = ring.map((c) => (isCubic(c) ? `C${c.slice(1).flat().join(' ')}` : `L${c[1].join(' ')}`));
  return `M${ring[0]![0].join(' ')}${steps.join('')}Z`;
}

/** A piece's panels in their cloths, where it lies on the table. */
function drawnPiece(
  { panels, whole }: PanelledPiece,
  [dx, dy]: readonly [number, number],
  design: Design,
): SVGGElement {
  const group = element('g', { transform: `translate(${dx} ${dy})` });
  group.append(element('path', { class: 'glimpse-paper', d: ringData(whole.outline) }));
  for (const { ring, holeRings, colour } of panels) {
    const { fill } = design.colours.find((c) => c.id === colour) ?? design.colours[0]!;
    group.append(
      element('path', { fill, 'fill-rule': 'evenodd', d: [ring, ...holeRings].map(ringData).join('') }),
    );
  }
  return group;
}

const viewOf = ({ minX, minY, maxX, maxY }: Box): string => [minX, minY, maxX - minX, maxY - minY].join(' ');

/**
 * The first drawing: a design's panels in their cloths, laid out as the bench lays them. It needs no more than the slicing, so it is
 * shown while everything else is still being fetched; the bench then takes its place.
 */
export function glimpseOf(design: Design): SVGSVGElement {
  const pieces = design.pieces.map((piece) => panelledPiece(piece, design));
  const { shift, box } = layOut(pieces);
  const svg = element('svg', {
    class: 'glimpse',
    viewBox: viewOf(box),
    role: 'img',
    'aria-label': design.name,
  });
  svg.append(...pieces.map((p) => drawnPiece(p, shift.get(p.whole.piece.id)!, design)));
  return svg;
}
