import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { playwright } from '@vitest/browser-playwright';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { findChromium } from './src/tools/find-chromium.mjs';

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const chromium = findChromium();
/** A shared machine may be slow; what hangs is still found. */
const testTimeout = 30_000;

export default defineConfig({
  root: here('./src'),
  publicDir: here('./static'),
  base: './',
  plugins: [svelte({ configFile: here('./svelte.config.js') })],
  build: {
    outDir: here('./dist'),
    emptyOutDir: true,
    target: 'es2022',
    // A browser without it fetches what is behind an import a moment later; nothing else is lost.
    modulePreload: false,
    // All that the board needs in one file, as it compresses better so, beside what it is built on, which changes less often.
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            { name: 'svelte', test: /node_modules\/(svelte|esm-env|clsx)\//, priority: 2 },
            { name: 'font', test: /src\/board\/drawing-font\.ts$/, priority: 2 },
            { name: 'board', test: /src\/main\.ts$/, priority: 1 },
          ],
        },
      },
    },
  },
  worker: { format: 'es' },
  test: {
    root: here('.'),
    // All cores: left alone one is kept back, which on two of them leaves one.
    maxWorkers: availableParallelism(),

    projects: [
      {
        root: here('.'),
        test: {
          name: 'core',
          testTimeout,
          environment: 'node',
          // Core is pure, so that its modules can be shared: loading them anew for each file takes as long as the tests.
          isolate: false,
          include: ['tests/{core,published,sheet,cli,tools,fuzz}/**/*.test.ts'],
        },
      },
      {
        root: here('.'),
        plugins: [svelte({ configFile: here('./svelte.config.js') }), svelteTesting()],
        test: {
          name: 'dom',
          testTimeout,
          environment: 'jsdom',
          include: ['tests/{keep,panels,bench}/**/*.test.ts'],
          setupFiles: ['tests/setup-dom.ts'],
        },
      },
      ...(chromium
        ? [
            {
              root: here('.'),
              plugins: [svelte({ configFile: here('./svelte.config.js') })],
              test: {
                name: 'browser',
                testTimeout,
                include: ['tests/board/**/*.test.ts'],
                browser: {
                  enabled: true,
                  headless: true,
                  provider: playwright({ launchOptions: { executablePath: chromium } }),
                  instances: [{ browser: 'chromium' as const }],
                },
              },
            },
          ]
        : []),
    ],
  },
});
