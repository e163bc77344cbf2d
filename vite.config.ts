import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/**
 * What the built app may do: its own files, and nothing from anywhere else. No inline script or style, no eval.
 * Pictures and downloads are made in the page, hence blob and data for images; the workers are files of ours.
 */
const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/** Only in the built app: the development server needs inline scripts to reload modules. */
const contentSecurityPolicy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT_SECURITY_POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

const nothing = fileURLToPath(new URL('src/paper/emptyModule.ts', import.meta.url));

export default defineConfig({
  base: './',
  plugins: [react(), contentSecurityPolicy],
  // parts of the PDF library for drawing web pages: never used here
  resolve: { alias: { canvg: nothing, html2canvas: nothing, dompurify: nothing } },
  // what is loaded when first needed is prepared at the start too: finding it later would reload the page
  optimizeDeps: {
    include: ['paper/dist/paper-core', 'jspdf', 'saxes', 'valibot', 'idb', 'browser-fs-access'],
  },
  worker: { format: 'es' },
  // files stay files: an inlined one would be a data: address, which the policy refuses to load
  build: {
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 800,
    // what is loaded at the start anyway is one file: several would be larger together
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: 'start', tags: ['$initial'] }] } } },
  },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'rooms',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**'],
          environment: 'node',
          // a limit for what hangs, not for what is slow: machines differ, and random tests do much in one test
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          environment: 'node',
          globalSetup: 'tests/browser/serveBuiltApp.ts',
          testTimeout: 60_000,
          hookTimeout: 60_000,
          // two browsers at once starve each other on two cores
          fileParallelism: false,
        },
      },
    ],
  },
});
