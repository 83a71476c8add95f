import { LARGEST_BACKUP, looksLikeBackup } from './looks-like-backup.ts';
import { LARGEST_FILE } from '../core/part/read-json.ts';
import type { Part } from '../core/part/types.ts';
import { writePart } from '../core/part/write-part.ts';

/** A text that came in by picker, drop or paste, with the name a person knows it by. */
export type Incoming = { readonly name: string; readonly text: string; readonly handle?: FileHandle };
export type FileHandle = {
  readonly name: string;
  getFile(): Promise<File>;
  createWritable(): Promise<{ write(text: string): Promise<void>; close(): Promise<void> }>;
  queryPermission?(how: { mode: 'readwrite' }): Promise<string>;
  requestPermission?(how: { mode: 'readwrite' }): Promise<string>;
};

type Picker = {
  showOpenFilePicker?: (options: object) => Promise<FileHandle[]>;
  showSaveFilePicker?: (options: object) => Promise<FileHandle>;
};

const types = [{ description: 'Part or lathe', accept: { 'application/json': ['.json'] } }];
const picker = (): Picker => globalThis as unknown as Picker;

/** Whether a file can be chosen here and written again later: then one can be kept in step. */
export const canChooseFile = (): boolean => picker().showSaveFilePicker !== undefined;

/** Asks for a file. Null where the person thinks better of it. Rejects with a sentence where it is too large. */
export async function pickFile(): Promise<Incoming | null> {
  const ask = picker().showOpenFilePicker;
  if (!ask) return pickByInput();
  try {
    const [handle] = await ask({ types });
    return handle ? { ...(await readFile(await handle.getFile())), handle } : null;
  } catch (refusal) {
    if (isChangeOfMind(refusal)) return null;
    throw refusal;
  }
}

/**
 * The text of a file. Rejects with a sentence that names the file where it is too large to be a part, or a backup, or
 * is not UTF-8: letters of another encoding would come in as question marks, and be kept so.
 */
export async function readFile(file: File): Promise<Incoming> {
  const isBackup = file.size <= LARGEST_BACKUP && looksLikeBackup(await file.slice(0, 200).text());
  if (file.size > LARGEST_FILE && !isBackup) {
    throw new Error(`${file.name}: ${Math.round(file.size / 1e6)} MB is too large for a part file.`);
  }
  const bytes = await file.arrayBuffer();
  try {
    return { name: file.name, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    throw new Error(`${file.name}: it is not UTF-8 text; save it as that, and open it again.`);
  }
}

/** What is dropped or pasted, as a file or as text; null where it is neither. */
export async function readTransfer(transfer: DataTransfer | null): Promise<Incoming | null> {
  const file = transfer?.files[0];
  if (file) return readFile(file);
  const text = transfer?.getData('text/plain').trim() ?? '';
  return text.startsWith('{') ? { name: 'pasted text', text } : null;
}

/** A file name from a title: letters and figures of any script, hyphens between. */
export function fileName(title: string, extension: string): string {
  const stem = title
    .normalize('NFC')
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80)
    .toLowerCase();
  return `${stem || 'shaft'}.${extension}`;
}

export type Saved = { readonly name: string; readonly handle: FileHandle | null };

/**
 * Saves the part as a file: into `handle` where one is open, else where the person says, else as a download.
 * Null where the person thinks better of it.
 */
export async function saveFile(part: Part, handle: FileHandle | null): Promise<Saved | null> {
  const name = fileName(part.title, 'json');
  const ask = picker().showSaveFilePicker;
  if (!ask && !handle) {
    download(new Blob([writePart(part)], { type: 'application/json' }), name);
    return { name, handle: null };
  }
  try {
    const target = handle ?? (await ask?.({ suggestedName: name, types })) ?? null;
    if (!target) return null;
    const out = await target.createWritable();
    await out.write(writePart(part));
    await out.close();
    return { name: target.name, handle: target };
  } catch (refusal) {
    if (isChangeOfMind(refusal)) return null;
    throw refusal;
  }
}

/** Hands a file to the browser's own downloads. */
export function download(blob: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000); // long enough for a slow disk, and then the memory is free
}

/** Whether the person closed the picker, or said no. */
export const isChangeOfMind = (refusal: unknown): boolean =>
  refusal instanceof DOMException && refusal.name === 'AbortError';

function pickByInput(): Promise<Incoming | null> {
  return new Promise((resolve, reject) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.json,application/json';
    input.addEventListener('cancel', () => resolve(null));
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (!file) resolve(null);
      else readFile(file).then(resolve, reject);
    });
    input.click();
  });
}
