import type { ReactElement } from 'react';
import { bandOf } from '../../lines';
import { formatLength, type PanelLine } from '../../pattern';
import { useBench } from '../store/benchStore';

/** Beside a line in the list: that it is a band, and how deep; nothing for any other line. */
export default function BandWord({ line }: { line: PanelLine }): ReactElement | null {
  const doc = useBench((s) => s.doc);
  const band = bandOf(doc, line);
  return band ? <em>band, {formatLength(band.depth, doc.units)} deep</em> : null;
}
