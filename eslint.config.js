import js from '@eslint/js';
import svelte from 'eslint-plugin-svelte';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

const network = ['fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource', 'importScripts', 'RTCPeerConnection'];

export default ts.config(
  { ignores: ['build/', '.svelte-kit/', 'test-results/', 'playwright-report/', 'test/corpus/'] },
  js.configs.recommended,
  ts.configs.strictTypeChecked,
  svelte.configs.recommended,
  {
    languageOptions: {
      globals: { ...globals.browser },
      parserOptions: { projectService: true, extraFileExtensions: ['.svelte'], svelteConfig }
    },
    rules: {
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true }
      ],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }]
    }
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser } },
    rules: {
      'svelte/no-at-html-tags': 'error',
      // Links are made in one place, state/address, which resolves them and adds what stands after the hash.
      'svelte/no-navigation-without-resolve': 'off'
    }
  },
  {
    // Nothing leaves the browser: no network call by name anywhere in the site's own code.
    files: ['src/lib/**', 'src/routes/**'],
    rules: {
      'no-restricted-globals': ['error', ...network],
      'no-restricted-properties': ['error', { object: 'navigator', property: 'sendBeacon' }]
    }
  },
  {
    // Tool scripts are plain Node without dependencies; they are linted for form, not for types.
    files: ['**/*.js'],
    extends: [ts.configs.disableTypeChecked],
    languageOptions: { globals: { ...globals.node } }
  },
  { files: ['test/**', '*.config.ts'], languageOptions: { globals: { ...globals.node } } }
);
