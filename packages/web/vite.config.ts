import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { precache } from './plugins/precache.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** The server that the page talks to while it is being worked on. */
const SERVER = process.env.FETTLE_SERVER ?? 'http://127.0.0.1:4173';

export default defineConfig({
  root: here('.'),
  base: './',
  resolve: {
    // Built from the sources of core, book and draw, so that what a place does not use is left out of its chunk.
    alias: [{ find: /^@fettle\/([a-z]+)$/, replacement: here('../$1/src/index.ts') }],
  },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: 'dist',
    target: 'es2022',
    sourcemap: false,
    // A page that may show no inline anything cannot show a font that came as one.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: {
      input: { index: here('index.html'), 'service-worker': here('src/service-worker/service-worker.ts') },
      output: {
        entryFileNames: ({ name }) =>
          name === 'service-worker' ? 'service-worker.js' : 'assets/[name]-[hash].js',
      },
    },
  },
  plugins: [precache()],
  server: { proxy: { '/api': SERVER } },
});
