import { saveDesign } from '../../files';
import type { Design } from '../../pattern';
import { fileNameOf, type MadeFile } from './giveFile';

/** The design as a file that can be opened again. */
export const designFile = (design: Design): MadeFile => ({
  name: `${fileNameOf(design.name)}.json`,
  type: 'application/json',
  data: saveDesign(design),
});
