import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';
import manifest from './package.json' with { type: 'json' };

export default defineConfig({
  plugins: [sveltekit()],
  define: { __GAUGEBOOK_VERSION__: JSON.stringify(manifest.version) },
  worker: { format: 'es' },
  optimizeDeps: { include: ['papaparse'] },
  // Fonts stay files: a data: URL would need a wider font-src.
  build: { assetsInlineLimit: 0 },
  test: {
    include: ['test/lib/**/*.test.ts', 'test/*.test.ts'],
    environment: 'node',
    env: { TZ: 'America/St_Johns' }
  }
});
