import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { PaperFonts } from './fonts';

const find = createRequire(import.meta.url);

async function face(file: string): Promise<string> {
  return (await readFile(find.resolve(`dejavu-fonts-ttf/ttf/${file}`))).toString('base64');
}

/** The paper's faces from the installed font package: for Node only. Rejects if the package is not installed. */
export async function fontsFromDisk(): Promise<PaperFonts> {
  const [regular, bold] = await Promise.all([
    face('DejaVuSansCondensed.ttf'),
    face('DejaVuSansCondensed-Bold.ttf'),
  ]);
  return { regular, bold };
}
