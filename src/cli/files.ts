import { open, writeFile } from 'node:fs/promises';
import { LARGEST_FILE, refusal } from '../core/part/read-json.ts';
import type { Outcome, Problem } from '../core/problem.ts';

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'this is a directory',
  EACCES: 'no permission',
  EPERM: 'no permission',
  ENOTDIR: 'a part of the path is no directory',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'the links lead in a circle',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk cannot be written',
};

/** What went wrong with a file, in a few words. */
function reasonOf(fault: unknown): string {
  const code = fault instanceof Error && 'code' in fault ? String(fault.code) : '';
  return reasons[code] ?? (fault instanceof Error ? fault.message : String(fault));
}

const fileProblem = (path: string, reason: string): Problem =>
  refusal('file-unreadable', path, 'the file', reason);

/**
 * The text of a UTF-8 file, a byte order mark left out. A file that is missing, a directory, over `LARGEST_FILE` or not
 * text comes back as a problem whose `where` is "the file".
 */
export async function readText(path: string): Promise<Outcome<string>> {
  const refuse = (reason: string): Outcome<never> => ({ ok: false, problem: fileProblem(path, reason) });
  try {
    const bytes = await readBytes(path);
    if (typeof bytes === 'string') return refuse(bytes);
    return { ok: true, value: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch (fault) {
    if (fault instanceof TypeError && !('syscall' in fault)) return refuse('it is not UTF-8 text');
    return refuse(reasonOf(fault));
  }
}

/** All bytes of a file or pipe, or why not; never more than `LARGEST_FILE` are held. */
async function readBytes(path: string): Promise<Buffer | string> {
  const file = await open(path, 'r');
  try {
    const stat = await file.stat();
    if (stat.isDirectory()) return 'this is a directory';
    const chunks: Buffer[] = [];
    let total = 0;
    for await (const chunk of file.createReadStream({ autoClose: false, end: LARGEST_FILE })) {
      const bytes = Buffer.from(chunk);
      chunks.push(bytes);
      total += bytes.length;
    }
    return total > LARGEST_FILE ? `it is larger than ${LARGEST_FILE / 1e6} MB` : Buffer.concat(chunks);
  } finally {
    await file.close();
  }
}

/** Writes a file whole; null when done, else the problem. */
export async function writeOut(path: string, content: string | Uint8Array): Promise<Problem | null> {
  try {
    await writeFile(path, content);
    return null;
  } catch (fault) {
    return fileProblem(path, `it cannot be written: ${reasonOf(fault)}`);
  }
}
