import { resolve } from 'node:path';
import { defineConfig } from 'electron-vite';

const at = (path: string): string => resolve(import.meta.dirname, path);

export default defineConfig({
  main: {
    build: {
      outDir: 'out/main',
      // Shared code stays beside the entries: the way from there to resources is the same as from src/main.
      rollupOptions: {
        output: { chunkFileNames: '[name]-[hash].js' },
        input: {
          electron: at('src/main/hosts/electron.ts'),
          browser: at('src/main/hosts/browser.ts'),
          'table-worker': at('src/main/files/table-worker.ts'),
        },
      },
    },
  },
  preload: {
    build: {
      outDir: 'out/preload',
      externalizeDeps: false,
      isolatedEntries: true,
      rollupOptions: {
        input: { preload: at('src/main/hosts/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: 'src/renderer',
    oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
    build: {
      outDir: 'out/renderer',
      modulePreload: { polyfill: false },
      assetsInlineLimit: 0,
      rollupOptions: {
        input: {
          index: at('src/renderer/index.html'),
          paper: at('src/renderer/paper.html'),
          'start-up': at('src/renderer/start-up.html'),
        },
      },
    },
  },
});
