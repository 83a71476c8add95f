import { afterEach, describe, expect, test, vi } from 'vitest';
import { fileName, readFile, readTransfer, saveFile } from '../../src/keep/files.ts';
import { LARGEST_FILE } from '../../src/core/part/read-json.ts';
import { pin } from '../panels/pin.ts';

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

describe('files', () => {
  test.each([
    ['Forge-blower shaft', 'forge-blower-shaft.json'],
    ['Вал воздуходувки № 3', 'вал-воздуходувки-3.json'],
    ['../../etc/passwd', 'etc-passwd.json'],
    ['  ', 'shaft.json'],
  ])('the title %j makes the file name %j', (title, name) => {
    expect(fileName(title, 'json')).toBe(name);
  });

  test('a file too large to be a part is refused by name before it is read', async () => {
    const file = new File(['x'], 'huge.json');
    Object.defineProperty(file, 'size', { value: LARGEST_FILE + 1 });
    await expect(readFile(file)).rejects.toThrow('huge.json');
  });

  test('a file in another encoding is refused by name, a byte-order mark is passed over', async () => {
    const utf16 = new Uint8Array([0xff, 0xfe, 0x7b, 0x00, 0x7d, 0x00]);
    const latin1 = new Uint8Array([0x7b, 0x22, 0xf6, 0x22, 0x7d]); // {"ö"} in ISO 8859-1
    for (const bytes of [utf16, latin1])
      await expect(readFile(new File([bytes], 'old.json'))).rejects.toThrow(/^old\.json: it is not UTF-8/);
    const marked = new Uint8Array([0xef, 0xbb, 0xbf, 0x7b, 0x7d]);
    expect(await readFile(new File([marked], 'new.json'))).toEqual({ name: 'new.json', text: '{}' });
  });

  test('pasted text is taken where it looks like a file, and nothing else is', async () => {
    const transfer = (text: string) => ({ files: [], getData: () => text }) as unknown as DataTransfer;
    expect(await readTransfer(transfer(' {"shaftwright":1}'))).toEqual({
      name: 'pasted text',
      text: '{"shaftwright":1}',
    });
    expect(await readTransfer(transfer('1 5/8'))).toBeNull();
    expect(await readTransfer(null)).toBeNull();
  });

  test('saves into the file that is open', async () => {
    const written: string[] = [];
    const handle = {
      name: 'pin.json',
      getFile: async () => new File([], 'pin.json'),
      createWritable: async () => ({
        write: async (text: string) => void written.push(text),
        close: async () => {},
      }),
    };
    expect(await saveFile(pin, handle)).toEqual({ name: 'pin.json', handle });
    expect(JSON.parse(written.join(''))).toEqual(pin);
  });

  test('thinking better of it saves nothing and is no error', async () => {
    vi.stubGlobal('showSaveFilePicker', async () => {
      throw new DOMException('no', 'AbortError');
    });
    expect(await saveFile(pin, null)).toBeNull();
  });
});
