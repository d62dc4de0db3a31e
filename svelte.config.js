import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import adapter from '@sveltejs/adapter-static';
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';

const { version } = JSON.parse(readFileSync(new URL('./package.json', import.meta.url), 'utf8'));

/**
 * Kit's route announcer is the one element on a page with a style attribute. Its text is fixed by Kit's version,
 * so it is let through by hash; the test `test/e2e/policy.spec.ts` sees a console error when the text changes.
 */
const announcerStyle =
  'position: absolute; left: 0; top: 0; clip: rect(0 0 0 0); clip-path: inset(50%); overflow: hidden; white-space: nowrap; width: 1px; height: 1px';
const announcerHash = createHash('sha256').update(announcerStyle).digest('base64');

// The development server talks to its page over a socket; the built site talks to nobody.
const isDevelopment = process.argv.includes('dev');

/** @type {import('@sveltejs/kit').Config} */
export default {
  compilerOptions: { runes: true },
  preprocess: vitePreprocess(),
  kit: {
    adapter: adapter({ strict: true }),
    paths: { relative: true },
    version: { name: version },
    csp: {
      mode: 'hash',
      directives: {
        'default-src': ['none'],
        'script-src': ['self'],
        'style-src': ['self'],
        'style-src-attr': ['unsafe-hashes', `sha256-${announcerHash}`],
        'img-src': ['self', 'blob:'],
        'font-src': ['self'],
        'connect-src': isDevelopment ? ['self'] : ['none'],
        // The worker starts from a blob (so that it inherits this policy) that imports its own-origin script.
        'worker-src': ['self', 'blob:'],
        'base-uri': ['none'],
        'form-action': ['none'],
        'object-src': ['none'],
        'require-trusted-types-for': ['script'],
        'trusted-types': ['svelte-trusted-html', 'gaugebook-worker']
      }
    },
    typescript: {
      config: (config) => ({
        ...config,
        include: [...config.include, '../test/**/*.ts', '../*.config.ts']
      })
    }
  }
};
