/** The two faces everything is lettered in (DejaVu Sans Condensed), as base64 of the TrueType files. */
export interface PaperFonts {
  readonly regular: string;
  readonly bold: string;
}

const CHUNK = 0x8000;

/** Bytes as base64, in pieces small enough for a call's argument list. */
export function base64Of(bytes: Uint8Array): string {
  let binary = '';
  for (let i = 0; i < bytes.length; i += CHUNK)
    binary += String.fromCharCode(...bytes.subarray(i, i + CHUNK));
  return btoa(binary);
}
