import type { ReactElement } from 'react';
import type { PanelLine } from '../../pattern';
import { BandCard } from './BandCard';
import { ZipOnLine } from './ZipCard';

/** What a line is besides a seam: a band that goes round, the place of a zip. */
export const SewnWithLine = ({ line }: { line: PanelLine }): ReactElement => (
  <>
    <BandCard line={line} />
    <ZipOnLine line={line} />
  </>
);
