import { defineConfig } from '@playwright/test';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { findChromium, noChromium } from '../../src/tools/find-chromium.mjs';

const top = fileURLToPath(new URL('../..', import.meta.url));

/** A port that nothing listens on just now. */
const freePort = () =>
  new Promise<number>((resolve, reject) => {
    const probe = createServer().on('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => (address && typeof address === 'object' ? resolve(address.port) : reject(address)));
    });
  });

const executablePath = findChromium();
if (executablePath === null) throw new Error(noChromium);

// Every worker reads this file again: the first reading chooses the port, the environment carries it on.
process.env.SHAFTWRIGHT_E2E_PORT ??= String(await freePort());
const port = process.env.SHAFTWRIGHT_E2E_PORT;
const url = `http://127.0.0.1:${port}/`;

const json = process.env.PLAYWRIGHT_JSON_OUTPUT_FILE;

export default defineConfig({
  testDir: '.',
  testMatch: '**/*.spec.ts',
  // One kept picture for all systems: the comparison is tolerant of how each draws letters.
  snapshotPathTemplate: '{testDir}/kept/{arg}{ext}',
  // A picture that is not kept yet is a test that fails, never one that is kept by itself.
  updateSnapshots: process.env.SHAFTWRIGHT_KEEP_PICTURES ? 'all' : 'none',
  outputDir: `${top}/test-results`,
  fullyParallel: true,
  forbidOnly: true,
  retries: 0,
  workers: 2,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: json ? [['line'], ['json', { outputFile: json }]] : [['line']],
  use: {
    baseURL: url,
    browserName: 'chromium',
    launchOptions: { executablePath, args: ['--disable-gpu'] },
    // Each test has a browser store of its own, and the worker would fill it with the whole app; tests of being offline allow it.
    serviceWorkers: 'block',
    locale: 'en-US',
    timezoneId: 'UTC',
    viewport: { width: 1280, height: 800 },
  },
  webServer: {
    command: `"${process.execPath}" src/tools/start.mjs --serve`,
    cwd: top,
    env: { PORT: port },
    url,
    reuseExistingServer: false,
    timeout: 20_000,
  },
});
