import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { FileHandle } from '../../src/keep/files.ts';
import { InStep, type StepState } from '../../src/keep/in-step.ts';
import { openStore, type Db } from '../../src/keep/store.ts';

/** A file on a disk that others can write too. */
class Disk {
  text = '';
  writes = 0;
  permission = 'granted';
  fault: DOMException | null = null;
  readonly handle: FileHandle = {
    name: 'shaft.json',
    getFile: async () => {
      if (this.fault) throw this.fault;
      return { text: async () => this.text } as File;
    },
    createWritable: async () => {
      let next = '';
      return {
        write: async (text: string) => void (next += text),
        close: async () => {
          this.text = next;
          this.writes += 1;
        },
      };
    },
    queryPermission: async () => this.permission,
    requestPermission: async () => (this.permission = 'granted'),
  };
}

let db: Db;
let disk: Disk;
const states: StepState[] = [];
const kind = () => states.at(-1)?.kind;
const follower = (store: Db | null = null) =>
  new InStep(
    () => store,
    (state) => states.push(state),
  );

/** A file that says `text`, kept in step from here on. */
async function chosen(text = 'one') {
  const step = follower();
  step.begin('a');
  disk.text = text;
  await step.choose(disk.handle, text);
  return step;
}

beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  db = await openStore(() => undefined);
  disk = new Disk();
  states.length = 0;
});
afterEach(() => {
  db.close();
  vi.useRealTimers();
});

describe('a file kept in step', () => {
  test('says what the part says, a moment after the last of many edits, in one write', async () => {
    vi.useFakeTimers();
    const step = await chosen();
    const written: string[] = [];
    step.onwritten = (name) => written.push(name);
    for (const text of ['two', 'three', 'four']) step.follow(text);
    await vi.advanceTimersByTimeAsync(300);
    expect(disk.text).toBe('one');
    await vi.advanceTimersByTimeAsync(1000);
    expect([disk.text, disk.writes, written]).toEqual(['four', 1, ['shaft.json']]);
    expect(kind()).toBe('in-step');
  });

  test('is written at once where the page may go', async () => {
    const step = await chosen();
    step.follow('two');
    await step.flush();
    expect(disk.text).toBe('two');
  });

  test('is not written over where something else changed it, until the person says so', async () => {
    const step = await chosen();
    disk.text = 'theirs';
    step.follow('two');
    await step.flush();
    expect([disk.text, kind()]).toEqual(['theirs', 'changed']);
    step.follow('three');
    await step.flush();
    expect(disk.text).toBe('theirs');
    expect(await step.theirs()).toMatchObject({ name: 'shaft.json', text: 'theirs' });
    await step.writeOver();
    expect([disk.text, kind()]).toEqual(['three', 'in-step']);
  });

  test('is seen to be changed when the window comes to the front, without an edit', async () => {
    const step = await chosen();
    disk.text = 'theirs';
    step.look();
    await step.flush();
    expect(kind()).toBe('changed');
  });

  test('waits for the person where the browser asks anew, and goes on from there', async () => {
    const step = await chosen();
    disk.permission = 'prompt';
    step.follow('two');
    await step.flush();
    expect([disk.text, kind()]).toEqual(['one', 'asks']);
    await step.allow();
    expect([disk.text, kind()]).toEqual(['two', 'in-step']);
  });

  test.each([
    ['NotFoundError', 'it is not there any more'],
    ['NoModificationAllowedError', 'another program holds it'],
    ['QuotaExceededError', 'the disk is full'],
  ])('where it cannot be written (%s) that is said', async (name, say) => {
    const step = await chosen();
    disk.fault = new DOMException('no', name);
    step.follow('two');
    await step.flush();
    expect(states.at(-1)).toEqual({ kind: 'failed', name: 'shaft.json', say });
  });

  test('left alone it stays as it is', async () => {
    const step = await chosen();
    await step.stop();
    step.follow('two');
    await step.flush();
    expect([disk.text, kind()]).toEqual(['one', 'none']);
  });

  test('another entry never writes into it', async () => {
    const step = await chosen();
    step.follow('two');
    step.begin('b');
    step.follow('of another part');
    await step.flush();
    expect(disk.text).toBe('one');
  });
});

describe('at the next visit', () => {
  // A store of the tests cannot hold a handle with functions: what was remembered is put in its place.
  const remembered = (link: unknown) =>
    ({
      get: async (_: string, key: string) => (key === 'file of a' ? link : undefined),
      put: async () => '',
    }) as unknown as Db;

  test('the file of the entry is taken up where it was left', async () => {
    disk.text = 'one';
    const step = follower(remembered({ handle: disk.handle, text: 'one' }));
    await step.adopt('a');
    expect(kind()).toBe('in-step');
    step.follow('two');
    await step.flush();
    expect(disk.text).toBe('two');
    await step.adopt('b');
    expect(kind()).toBe('none');
  });

  test('the browser asks again, and nothing is written before', async () => {
    disk.permission = 'prompt';
    const step = follower(remembered({ handle: disk.handle, text: '' }));
    await step.adopt('a');
    expect(kind()).toBe('asks');
  });

  test.each([undefined, 7, {}, { handle: null, text: '' }, { handle: {}, text: 'x' }])(
    'what is no such record (%j) is none',
    async (record) => {
      await follower(remembered(record)).adopt('a');
      expect(kind()).toBe('none');
    },
  );

  test('a store that cannot remember it keeps it in step until the window closes', async () => {
    const step = follower(db); // refuses a handle with functions
    step.begin('a');
    disk.text = 'one';
    await step.choose(disk.handle, 'one');
    step.follow('two');
    await step.flush();
    expect([disk.text, kind()]).toEqual(['two', 'in-step']);
  });
});
