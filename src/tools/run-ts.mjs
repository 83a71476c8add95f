// Runs a TypeScript file of ours on any Node we support (Node 20 cannot strip types): node src/tools/run-ts.mjs FILE …
import { fileURLToPath } from 'node:url';
import { runnerImport } from 'vite';

const [entry, ...rest] = process.argv.slice(2);
process.argv = [process.argv[0], entry, ...rest];
await runnerImport(entry, {
  root: fileURLToPath(new URL('../..', import.meta.url)),
  configFile: false,
  logLevel: 'error',
});
