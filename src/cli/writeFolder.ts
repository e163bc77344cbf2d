import { lstat, mkdir, mkdtemp, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** A file's name and content. */
export type FileContent = readonly [name: string, content: Uint8Array | string];

/** Why the folder cannot be written, in one line. */
export class FolderError extends Error {}

async function existingFolder(folder: string): Promise<string | null> {
  try {
    const real = await realpath(folder);
    if (!(await stat(real)).isDirectory())
      throw new FolderError(`${folder} is a file, not a folder. Choose another --out.`);
    return real;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

/** A folder of a file's name cannot be replaced: found before the first file is moved, so that all are moved or none. */
async function checkPlaces(files: readonly FileContent[], folder: string): Promise<void> {
  for (const [name] of files) {
    const standing = await lstat(join(folder, name)).catch(() => null);
    if (standing?.isDirectory())
      throw new FolderError(
        `${join(folder, name)} is a folder, and a file has to go there. Choose another --out.`,
      );
  }
}

async function intoPlace(files: readonly FileContent[], folder: string): Promise<void> {
  const existing = await existingFolder(folder);
  const target = existing ?? folder;
  if (existing !== null) await checkPlaces(files, existing);
  await mkdir(dirname(target), { recursive: true });
  const beside = await mkdtemp(join(dirname(target), `.${basename(target)}-`));
  try {
    const [content, whole] = [join(beside, 'content'), existing === null];
    await mkdir(content);
    for (const [name, data] of files) await writeFile(join(content, name), data);
    if (whole) await rename(content, target);
    else for (const [name] of files) await rename(join(content, name), join(target, name));
  } finally {
    await rm(beside, { recursive: true, force: true });
  }
}

/**
 * Write files into a folder, creating it if need be; other files in it stay. Everything is written beside the folder
 * first and then moved, so that no half-written file is ever in it.
 * @throws FolderError if that is not possible
 */
export async function writeFolder(folder: string, files: readonly FileContent[]): Promise<void> {
  try {
    await intoPlace(files, folder);
  } catch (error) {
    if (error instanceof FolderError) throw error;
    throw new FolderError(`${folder} cannot be written: ${(error as Error).message}. Choose another --out.`);
  }
}
