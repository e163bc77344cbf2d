import { createContext, useContext } from 'react';
import type { PieceId } from '../../pattern';

/** Ways in and out that need the system's file windows. */
export interface Files {
  chooseTracing(): void;
  openSaved(): void;
  save(): void;
  /** Choose a tracing of another size of one piece, to put in its place. */
  bringSize(piece: PieceId): void;
  /** Read dropped or chosen files: tracings and saved designs. */
  take(files: readonly File[]): Promise<void>;
  readonly examples: readonly { readonly name: string; open(): void }[];
}

const nothing = (): void => undefined;
export const FilesContext = createContext<Files>({
  chooseTracing: nothing,
  openSaved: nothing,
  save: nothing,
  bringSize: nothing,
  take: () => Promise.resolve(),
  examples: [],
});
export const useFiles = (): Files => useContext(FilesContext);
