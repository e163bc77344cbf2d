/** A file made here. */
export interface MadeFile {
  readonly name: string;
  readonly type: string;
  readonly data: Uint8Array | string;
  /** Of a PDF on several sheets. */
  readonly pages?: number;
}

/** How long the browser may take to fetch the bytes before they are let go, ms. */
const LET_GO = 60_000;

/** Hand a file to the browser's downloads. */
export function giveFile({ name, type, data }: MadeFile): void {
  const url = URL.createObjectURL(new Blob([data as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), LET_GO);
}

/** A design's name as a file name: letters, digits and hyphens. */
export const fileNameOf = (name: string): string =>
  name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase() || 'design';
