import boldUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf?url';
import regularUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url';
import { base64Of } from './fonts';
import type { PaperFonts } from './fonts';

async function face(url: string): Promise<string> {
  const answer = await fetch(url);
  if (!answer.ok)
    throw new Error(`The lettering could not be loaded (${answer.status}). Reload the page and try again.`);
  return base64Of(new Uint8Array(await answer.arrayBuffer()));
}

let known: Promise<PaperFonts> | null = null;

/** The paper's faces from the app's own files: for the browser only. Loaded once; a failed load may be tried again. */
export function fontsFromAsset(): Promise<PaperFonts> {
  known ??= Promise.all([face(regularUrl), face(boldUrl)])
    .then(([regular, bold]) => ({ regular, bold }))
    .catch((failure: unknown) => {
      known = null;
      throw failure;
    });
  return known;
}
