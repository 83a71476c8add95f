// npm start: builds the app, serves it on this machine, prints the address. `--serve` serves what is built
// already; `--share` serves to the other devices of the network too.
import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { serve } from './serve.mjs';

const top = fileURLToPath(new URL('../..', import.meta.url));

/** Runs a node script of the project to its end; its own output passes through. */
function node(...args) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, { cwd: top, stdio: ['ignore', 'inherit', 'inherit'] });
    child.on('close', (code) => resolve(code ?? 1));
  });
}

/** PORT as a number; null where it is not set. */
function portAsked() {
  const asked = process.env.PORT;
  if (asked === undefined || asked === '') return null;
  if (/^[0-9]{1,5}$/.test(asked) && Number(asked) < 65_536) return Number(asked);
  console.error(`PORT=${asked} is no port.`);
  process.exit(1);
}

const port = portAsked();
if (!process.argv.includes('--serve')) {
  const vite = join(dirname(fileURLToPath(import.meta.resolve('vite/package.json'))), 'bin', 'vite.js');
  for (const step of [[vite, 'build', '--logLevel', 'error'], [join(top, 'src', 'tools', 'offline.mjs')]]) {
    const code = await node(...step);
    if (code !== 0) process.exit(code);
  }
}
try {
  const shared = process.argv.includes('--share');
  const { address, others } = await serve(join(top, 'dist'), port, shared);
  console.log(`Shaftwright is at ${address} (Ctrl+C ends it)`);
  for (const other of others) console.log(`On a phone or tablet in the same network: ${other}`);
  if (shared && others.length === 0) console.log('This machine has no address on a network just now.');
  if (shared)
    console.log(
      'Every device of the network can open it there, plain http: not installed, screen not kept awake.',
    );
} catch (fault) {
  const taken = fault?.code === 'EADDRINUSE' ? `Port ${port} is taken; set PORT to another.` : fault?.message;
  console.error(taken);
  process.exit(1);
}
