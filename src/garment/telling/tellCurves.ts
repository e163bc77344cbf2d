import type { PanelId } from '../../panels';
import type { Garment } from '../garment';
import { type CurveCuts, STOPS_SHORT, curveCuts } from './curves';
import { counted, fineIn, lengthIn, listed, panelWords } from './names';
import { type SewnRun, sideOfRun } from './sewnRuns';
import type { TellingPart } from './stepTelling';
import { widthOfSeam } from './widths';

/** Cuts of one kind along one panel. */
interface PanelCuts {
  readonly panel: PanelId;
  readonly cuts: readonly CurveCuts[];
}

const sumOf = (cuts: readonly CurveCuts[]): number => cuts.reduce((sum, c) => sum + c.count, 0);

/** `clip into the allowances of 4 (blue) and 5 (sand) every 1 cm (12 snips)`. */
function cutWords(
  garment: Garment,
  panels: readonly PanelId[],
  every: string,
  count: number,
  kind: CurveCuts['kind'],
): string {
  const of = `allowance${panels.length > 1 ? 's' : ''} of ${listed(panels.map((id) => panelWords(garment, [id])))}`;
  return kind === 'clip'
    ? `clip into the ${of} every ${every} (${counted(count, 'snip')})`
    : `cut small wedges out of the ${of} every ${every} (${counted(count, 'wedge')})`;
}

/** The cuts of some panels' edges. */
type SideCuts = readonly PanelCuts[];

/** Cuts of one kind in words, panels that are cut as closely told together; null where there are none. */
function wordsFor(garment: Garment, sides: SideCuts, kind: CurveCuts['kind']): string | null {
  const byPanel = new Map<PanelId, CurveCuts[]>();
  for (const { panel, cuts } of sides) {
    const own = cuts.filter((c) => c.kind === kind);
    if (own.length > 0) byPanel.set(panel, [...(byPanel.get(panel) ?? []), ...own]);
  }
  const alike = new Map<string, { panels: PanelId[]; count: number }>();
  for (const [panel, cuts] of byPanel) {
    const apart = Math.min(...cuts.map((c) => c.spacing));
    const every = apart < 10 ? fineIn(garment)(apart) : lengthIn(garment)(apart);
    const known = alike.get(every) ?? { panels: [], count: 0 };
    alike.set(every, { panels: [...known.panels, panel], count: known.count + sumOf(cuts) });
  }
  const words = [...alike].map(([every, { panels, count }]) => cutWords(garment, panels, every, count, kind));
  return words.length > 0 ? listed(words) : null;
}

/** What is clipped and what is notched along a curved edge that is turned in once it is sewn. */
export function cutsAlong(garment: Garment, sides: SideCuts): readonly TellingPart[] {
  const words = (['clip', 'notch'] as const).flatMap((kind) => wordsFor(garment, sides, kind) ?? []);
  if (words.length === 0) return [];
  return [
    { topic: 'clip', text: `On the curve ${listed(words)}. Stop ${stop(garment)} from the stitching.` },
  ];
}

const stop = (garment: Garment): string => fineIn(garment)(STOPS_SHORT);

/** The cuts of both sides of a run, panel by panel. */
const cutsOfRun = (garment: Garment, run: SewnRun): SideCuts =>
  ([1, -1] as const).flatMap((side) =>
    sideOfRun(garment, run, side).map(({ panel, edge, of }) => ({
      panel: panel.id,
      cuts: curveCuts(edge.path, widthOfSeam(garment, of.seam)),
    })),
  );

/**
 * The hollow side of a panel seam is held and clipped before it is pinned, or it cannot follow the rounded one.
 * @param held panels whose edges are stay-stitched already
 */
export function hollowParts(
  garment: Garment,
  run: SewnRun,
  held: readonly PanelId[],
): readonly TellingPart[] {
  const sides = cutsOfRun(garment, run);
  const words = wordsFor(garment, sides, 'clip');
  if (!words) return [];
  const isHeld = sides.every((s) => held.includes(s.panel) || s.cuts.every((c) => c.kind !== 'clip'));
  const first = isHeld
    ? 'Before pinning '
    : 'Before pinning stay-stitch the hollow edge just inside its stitching line, then ';
  const text = `${first}${words}, so that the hollow edge opens to the rounded one. Stop ${stop(garment)} from the stitching line.`;
  return [{ topic: 'clip', text }];
}

/** The rounded side is thinned out after it is sewn. */
export function roundedParts(garment: Garment, run: SewnRun): readonly TellingPart[] {
  const words = wordsFor(garment, cutsOfRun(garment, run), 'notch');
  if (!words) return [];
  return [
    {
      topic: 'clip',
      text: `On the rounded edge ${words}, so that it lies flat. Stop ${stop(garment)} from the stitching.`,
    },
  ];
}
