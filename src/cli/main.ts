// The command line: npm run --silent plan -- PART.json. What it does stands in run.ts; here it meets the process.
import { run, type Outcomes } from './run.ts';

/** Resolves when all of `text` has left the process; a pipe takes large reports in pieces. */
const written = (stream: NodeJS.WriteStream, text: string) =>
  new Promise<void>((resolve) => {
    stream.on('error', () => resolve()); // the reader has gone (`| head`): nobody is left to tell
    stream.write(text, () => resolve());
  });

/** The day in the local calendar, as 2031-04-01. */
function today(): string {
  const now = new Date();
  const two = (count: number) => String(count).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** A fault of ours must not pass for "cannot be planned", which is what Node's own exit code 1 would say. */
const faulty = (fault: unknown): Outcomes => {
  const what = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);
  return { code: 2, out: '', err: `This is a fault of the program, not of the part: ${what}\n` };
};

const { code, out, err } = await run(process.argv.slice(2), today()).catch(faulty);
if (out !== '') await written(process.stdout, out);
if (err !== '') await written(process.stderr, err);
process.exit(code);
