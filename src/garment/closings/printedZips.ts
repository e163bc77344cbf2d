import { mirrorAcross } from '../../geometry';
import type { Panel } from '../../panels';
import { type Units, formatLength } from '../../pattern';
import type { Garment } from '../garment';
import { howToCut } from '../howToCut';
import { type ZipMark, movedMark, sameMark, zipMarks } from './zipMarks';

/** A zip's marks on a printed piece, in the panel's own coordinates, with what is written along its opening. */
export interface PrintedZip {
  readonly mark: ZipMark;
  /** `hidden zip 40 cm`, and on whose copy where not on both. */
  readonly words: string;
}

/** A zip in words: `hidden zip 40 cm`. */
const zipWords = ({ closing }: Pick<ZipMark, 'closing'>, units: Units): string =>
  `${closing.zip.kind} zip ${formatLength(closing.length, units)}`;

/**
 * The zips on what is printed for a panel. Where its mirrored copy is cut from the same piece, that one's zips are there too; a zip that
 * only one of the two has says which.
 */
export function printedZips(garment: Garment, panel: Panel): readonly PrintedZip[] {
  const { closings, design, plan, panels } = garment;
  if (closings.length === 0) return [];
  const marksOf = (p: Panel): readonly ZipMark[] => zipMarks(closings, p, (id) => garment.seamById.get(id));
  const own = marksOf(panel);
  const { twin } = howToCut(garment, panel);
  const other = twin === null ? undefined : panels.find((p) => plan.numbers.get(p.id) === twin);
  const fold = garment.pieceById.get(panel.piece)?.whole.foldLine;
  const moved = other && fold ? marksOf(other).map((m) => movedMark(m, mirrorAcross(fold))) : [];
  const said = (mark: ZipMark, on: number | null | undefined): PrintedZip => ({
    mark,
    words: `${zipWords(mark, design.units)}${on == null ? '' : `, on ${on} only`}`,
  });
  return [
    ...own.map((m) =>
      said(m, other && !moved.some((o) => sameMark(o, m)) ? plan.numbers.get(panel.id) : null),
    ),
    ...moved.filter((o) => !own.some((m) => sameMark(o, m))).map((m) => said(m, twin)),
  ];
}
