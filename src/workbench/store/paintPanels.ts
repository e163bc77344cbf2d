import type { Panel } from '../../panels';
import type { ColourId, PanelMark } from '../../pattern';
import { isInside } from '../drawing/find';
import type { Edit } from './documentSlice';

/** Give panels a colour: their old marks go, a new one is pinned to each panel's middle. */
export const paintPanels =
  (panels: readonly Panel[], colour: ColourId): Edit =>
  (design) => {
    const wanted = panels.filter((panel) => panel.colour !== colour);
    if (wanted.length === 0 || !design.colours.some(({ id }) => id === colour)) return design;
    const lies = (mark: PanelMark): boolean =>
      wanted.some((panel) => panel.piece === mark.piece && isInside(panel.flat.points, mark.at));
    const pinned = wanted.map((panel): PanelMark => ({ piece: panel.piece, at: panel.flat.at, colour }));
    return { ...design, marks: [...design.marks.filter((mark) => !lies(mark)), ...pinned] };
  };
