import { gzipSync } from 'node:zlib';
import { afterAll, expect, inject, test } from 'vitest';
import { LAPTOP, TABLET, closeBrowser, openBench, takePicture } from './bench';

afterAll(closeBrowser);

test.each([
  ['laptop', LAPTOP],
  ['tablet', TABLET],
])('on a %s the built app opens with the demo drawn, and nothing goes wrong', async (name, size) => {
  const bench = await openBench(size);
  await takePicture(bench.page, `opened-${name}`);
  expect(bench.faults).toEqual([]);
  await bench.close();
});

test('the built app asks nobody but its own address for anything', async () => {
  const bench = await openBench();
  const home = new URL(inject('address')).origin;
  const elsewhere = bench.requests.filter(
    (url) => !/^(data|blob):/.test(url) && new URL(url).origin !== home,
  );
  expect(bench.requests.length).toBeGreaterThan(1);
  expect(elsewhere).toEqual([]);
  await bench.close();
});

test('its policy allows scripts from its own files only, and no eval', async () => {
  const bench = await openBench();
  const policy = await bench.page.evaluate(
    () =>
      document.querySelector<HTMLMetaElement>('meta[http-equiv="Content-Security-Policy"]')?.content ?? '',
  );
  expect(policy).toContain("default-src 'self'");
  expect(policy).toContain("script-src 'self'");
  expect(policy).not.toMatch(/unsafe|\*|https?:/);
  // in a task of its own: the test tool is allowed to evaluate, and what it calls directly would be too
  const outcome = await bench.page.evaluate(
    () =>
      new Promise<string>((tell) => {
        setTimeout(() => {
          try {
            tell(`ran: ${String(new Function('return 1')())}`);
          } catch (error) {
            tell((error as Error).name);
          }
        }, 0);
      }),
  );
  expect(outcome).toBe('EvalError');
  await bench.close();
});

/** Binding for this project: under 250 kB of gzipped script before the first drawing. */
const MOST_SCRIPT = 250_000;

test('less than 250 kB of gzipped script is loaded before the first drawing is shown', async () => {
  const bench = await openBench();
  const scripts = [...new Set(bench.requests)].filter((url) => /\.m?js(\?|$)/.test(url));
  const sizes = await Promise.all(
    scripts.map(
      async (url) => gzipSync(Buffer.from(await (await fetch(url)).arrayBuffer()), { level: 9 }).length,
    ),
  );
  const total = sizes.reduce((a, b) => a + b, 0);
  console.log(`first load: ${(total / 1000).toFixed(1)} kB of gzipped script in ${scripts.length} files`);
  expect(scripts.length).toBeGreaterThan(0);
  expect(total).toBeLessThan(MOST_SCRIPT);
  await bench.close();
});
