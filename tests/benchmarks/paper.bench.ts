/** Paper: a file of home sheets and a handout, with pages, bytes a page and time. */
import { handoutPdf, piecesPdf } from '../../src/paper';
import { fontsFromDisk } from '../../src/paper/fontsFromDisk';
import { classGarment } from '../paper/classGarment';
import { box, handGarment } from '../paper/handGarment';

const RUNS = 5;

async function median(job: () => Promise<Uint8Array>): Promise<{ ms: number; bytes: number }> {
  let bytes = (await job()).length;
  const times: number[] = [];
  for (let i = 0; i < RUNS; i += 1) {
    const start = performance.now();
    bytes = (await job()).length;
    times.push(performance.now() - start);
  }
  return { ms: times.sort((a, b) => a - b)[Math.floor(RUNS / 2)]!, bytes };
}

/** Prints; nothing passes or fails by time. */
export default async function bench(): Promise<void> {
  const fonts = await fontsFromDisk();
  const sheath = classGarment();
  const many = handGarment(
    Array.from({ length: 24 }, (_, i) => ({ points: box(180 + 12 * (i % 7), 240 + 25 * (i % 5)) })),
  );
  for (const [name, garment] of [
    ['sheath of ten panels', sheath],
    ['24 oblong panels', many],
  ] as const) {
    for (const paper of ['a4', 'a0', 'roll:914'] as const) {
      const { sheets } = await piecesPdf(garment, { paper, fonts });
      const { ms, bytes } = await median(async () => (await piecesPdf(garment, { paper, fonts })).bytes);
      console.log(
        `${name}, ${paper}: ${sheets.pages} pages, ${ms.toFixed(0)} ms, ${(bytes / 1000 / sheets.pages).toFixed(1)} kB a page`,
      );
    }
  }
  const { ms, bytes } = await median(() => handoutPdf(sheath, [], { fonts }));
  console.log(`handout: ${ms.toFixed(0)} ms, ${(bytes / 1000).toFixed(0)} kB`);
}
