import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';
import manifest from './package.json' with { type: 'json' };
import { moduleList } from './src/tools/module-list.js';

export default defineConfig({
  plugins: [sveltekit(), moduleList('page')],
  define: { __GAUGEBOOK_VERSION__: JSON.stringify(manifest.version) },
  worker: { format: 'es', plugins: () => [moduleList('worker')] },
  optimizeDeps: { include: ['papaparse'] },
  // Fonts stay files: a data: URL would need a wider font-src.
  build: { assetsInlineLimit: 0 },
  test: {
    include: ['test/{lib,routes,tools,gates}/**/*.test.ts', 'test/*.test.ts'],
    environment: 'node',
    // Long enough that a busy machine fails no test: time is judged by the bench.
    testTimeout: 60_000,
    env: { TZ: 'America/St_Johns' }
  }
});
