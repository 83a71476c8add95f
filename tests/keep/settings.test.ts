import { beforeEach, describe, expect, test } from 'vitest';
import { Settings } from '../../src/keep/settings.svelte.ts';

beforeEach(() => localStorage.clear());

describe('settings', () => {
  test('are there again at the next visit', () => {
    new Settings(localStorage).choose({ unit: 'mm', theme: 'dark', page: 'a4' });
    const next = new Settings(localStorage);
    expect([next.unit, next.theme, next.page]).toEqual(['mm', 'dark', 'a4']);
  });

  test('hold for this visit where the browser keeps nothing', () => {
    const refusing = {
      ...localStorage,
      getItem: () => null,
      setItem: () => {
        throw new Error('full');
      },
    };
    const settings = new Settings(refusing as unknown as Storage);
    settings.choose({ unit: 'mm' });
    expect(settings.unit).toBe('mm');
  });

  test.each(['not json', '[]', 'null', '{"unit":"furlong","theme":3,"board":1e999,"page":"letter"}'])(
    'kept as %j leaves the usual ones',
    (kept) => {
      localStorage.setItem('shaftwright.settings', kept);
      const settings = new Settings(localStorage);
      expect([settings.unit, settings.theme, settings.page, settings.lathe]).toEqual([
        null,
        null,
        'letter',
        null,
      ]);
      expect(settings.board).toBeGreaterThan(10);
    },
  );
});
