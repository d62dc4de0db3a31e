import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Longer runs, apart from `npm test`: `npm run soak`. */
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['test/soak/**/*.test.ts'],
    environment: 'node',
    testTimeout: 900_000,
    hookTimeout: 900_000
  }
});
