import { IDBFactory } from 'fake-indexeddb';
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { setLengthSize } from '../../src/core/part/commands.ts';
import type { Part } from '../../src/core/part/types.ts';
import { draftReport } from '../../src/core/draft-report.ts';
import { Keeper, type KeepState, type Work } from '../../src/keep/autosave.ts';
import { PartDocument } from '../../src/keep/document.svelte.ts';
import { pin } from '../panels/pin.ts';

const workOf = (document: PartDocument): Work => ({
  part: document.part,
  steps: document.history.steps,
  position: document.history.position,
  fileCopy: null,
});
const open = (part: Part) => {
  let now = 0;
  return new PartDocument(
    part,
    (each) => draftReport(each),
    () => (now += 60_000),
  );
};
const keeperWith = (states: KeepState[] = []) => new Keeper((state) => states.push(state));

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => vi.restoreAllMocks());

describe('the keeper', () => {
  test('finds nothing at the first visit, and says that it can keep', async () => {
    const states: KeepState[] = [];
    expect(await keeperWith(states).open()).toBeNull();
    expect(states.at(-1)?.kind).toBe('kept');
  });

  test('brings back the part with its steps, and undo goes on from there', async () => {
    const document = open(pin);
    const keeper = keeperWith();
    await keeper.open();
    for (const size of ['1', '2', '3']) {
      document.do(setLengthSize(document.part, 'L1', size));
      keeper.keep(workOf(document));
    }
    document.undo();
    keeper.keep(workOf(document));
    await keeper.settled();
    keeper.close();

    const work = await keeperWith().open();
    const again = open(pin);
    if (work) again.resume(work.part, { steps: work.steps, position: work.position });
    expect(again.part).toEqual(document.part);
    expect(again.redo()).toBe('Length A–B to 3');
    again.undo();
    again.undo();
    again.undo();
    expect(again.part).toEqual(pin);
  });

  test('forgets steps that were undone and overtaken', async () => {
    const document = open(pin);
    const keeper = keeperWith();
    await keeper.open();
    for (const size of ['1', '2', '3']) document.do(setLengthSize(document.part, 'L1', size));
    keeper.keep(workOf(document));
    await keeper.settled();
    document.undo();
    document.undo();
    document.do(setLengthSize(document.part, 'L1', '9'));
    keeper.keep(workOf(document));
    await keeper.settled();
    keeper.close();
    const work = await keeperWith().open();
    expect(work?.steps.map(({ did }) => did)).toEqual(['Length A–B to 1', 'Length A–B to 9']);
  });

  test('keeps the newest of many edits in a row', async () => {
    const document = open(pin);
    const keeper = keeperWith();
    await keeper.open();
    for (let n = 1; n <= 40; n += 1) {
      document.do(setLengthSize(document.part, 'L1', String(n)));
      keeper.keep(workOf(document));
    }
    await keeper.settled();
    keeper.close();
    const work = await keeperWith().open();
    expect(work?.part).toEqual(document.part);
    expect(work?.steps).toHaveLength(40);
  });

  test('a store that never answers is told, and nobody is kept waiting for it', async () => {
    vi.useFakeTimers();
    try {
      const silent = Object.assign(Object.create(IDBOpenDBRequest.prototype) as IDBOpenDBRequest, {
        addEventListener: () => undefined,
      });
      vi.spyOn(indexedDB, 'open').mockReturnValue(silent);
      const states: KeepState[] = [];
      const opened = keeperWith(states).open();
      await vi.advanceTimersByTimeAsync(10_000);
      expect(await opened).toBeNull();
      expect(states).toEqual([{ kind: 'failed', say: expect.stringContaining('does not answer') as string }]);
    } finally {
      vi.useRealTimers();
    }
  });

  test('says it where the browser lets nothing be kept, and the work goes on', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('private', 'SecurityError');
    });
    const states: KeepState[] = [];
    const keeper = keeperWith(states);
    expect(await keeper.open()).toBeNull();
    expect(states.at(-1)).toMatchObject({ kind: 'failed' });
    keeper.keep(workOf(open(pin)));
    await keeper.settled();
    expect(states.at(-1)).toMatchObject({ kind: 'failed' });
  });

  test('says it where there is no room left, and keeps all again once there is', async () => {
    const states: KeepState[] = [];
    const keeper = keeperWith(states);
    await keeper.open();
    const document = open(pin);
    document.do(setLengthSize(document.part, 'L1', '1'));
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    keeper.keep(workOf(document));
    await keeper.settled();
    expect(states.at(-1)).toMatchObject({ kind: 'failed', say: expect.stringContaining('no room') });

    put.mockRestore();
    document.do(setLengthSize(document.part, 'L1', '2'));
    keeper.keep(workOf(document));
    await keeper.settled();
    expect(states.at(-1)).toEqual({ kind: 'kept' });
    keeper.close();
    const work = await keeperWith().open();
    expect(work?.steps).toHaveLength(2);
  });
});
