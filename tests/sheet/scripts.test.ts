import { expect, test } from 'vitest';
import { pageTexts, pageWords, rendered } from './pdf-tools.ts';
import { a4, sampleSheet } from './sheet-fixtures.ts';

/** Without a plan: the title is the same, the pages are few. */
const titled = (title: string, options = a4): Promise<Uint8Array> =>
  sampleSheet(options, { title }, { plan: null });
const narrow = titled('i').then(titleInk);

// "Shaft" or "blower shaft" in the language that the script is best known for; from memory, any text of the script would do.
const titles: [script: string, title: string][] = [
  ['Latin with marks', 'Dmychadlový hřídel, żółw, İğne, Ærø'],
  ['Greek', 'Άξονας φυσητήρα'],
  ['Cyrillic', 'Вал кузнечного горна, вентилятор'],
  ['Armenian', 'Լիսեռ'],
  ['Georgian', 'ლილვი'],
  ['Devanagari', 'धौंकनी अक्ष'],
  ['Bengali', 'খাদ'],
  ['Tamil', 'தண்டு'],
  ['Telugu', 'ఇరుసు'],
  ['Thai', 'เพลา'],
  ['Khmer', 'អ័ក្ស'],
  ['Ethiopic', 'ዘንግ'],
  ['Han', '鍛冶送風機軸 锻造鼓风机轴'],
  ['kana', 'ふいごのシャフト'],
  ['Hangul', '송풍기 축'],
  ['Hebrew', 'ציר מפוח'],
  ['Arabic', 'عمود المنفاخ'],
];

/** What stands in the header's left part: the title and nothing else. */
function titleInk(pdf: Uint8Array): number {
  const { width, pixels } = rendered(pdf, 1, 100);
  const rows = Math.round((13 / 25.4) * 100);
  let dark = 0;
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < width * 0.7; x++) if ((pixels[y * width + x] ?? 255) < 128) dark++;
  return dark;
}

/** The first page's text, in reading order. */
const firstPage = (pdf: Uint8Array): string => (pageTexts(pdf)[0] ?? '').replaceAll(/\s+/g, ' ');

const spaceless = (text: string): string =>
  text.normalize('NFKC').replaceAll(/[\s\u200e\u200f\u202a-\u202e]/g, '');

test.each(titles)('a title in %s prints, and reads back as it was typed', async (_script, title) => {
  const pdf = await titled(title);
  expect(spaceless(firstPage(pdf))).toContain(spaceless(title));
  expect(firstPage(pdf)).not.toContain('U+');
  // A font that does not draw would leave the place blank, which poppler's other programs do not see.
  expect(titleInk(pdf)).toBeGreaterThan((await narrow) * 2);
});

test('a title that no font of ours can write prints as boxes with the code points', async () => {
  const text = firstPage(await titled('Shaft 🔧 𓀀 end'));
  expect(text).toContain('U+1F527');
  expect(text).toContain('U+13000');
  expect(text).toContain('Shaft');
});

test('without further fonts every character that the drawing font lacks is a box, never a gap', async () => {
  const bare = { page: a4.page, date: a4.date, font: a4.font };
  const text = firstPage(await titled('軸 축', bare));
  expect(text).toContain('U+8EF8');
  expect(text).toContain('U+CD95');
});

test('a font file that cannot be loaded costs its characters, not the sheet', async () => {
  const pdf = await sampleSheet(
    { ...a4, loadFont: () => Promise.reject(new Error('offline')) },
    { title: '軸' },
  );
  expect(firstPage(pdf)).toContain('U+8EF8');
});

test('from right to left: the first letter stands at the right, figures keep their order', async () => {
  const words = pageWords(await titled('ציר 42 mm'))[0]?.words ?? [];
  // Some versions of poppler give the letters of a word from left to right whatever the script.
  const place = (text: string): number =>
    words.find((word) => [text, [...text].reverse().join('')].includes(word.text))?.x0 ?? NaN;
  expect(place('ציר')).toBeGreaterThan(place('42'));
  expect(place('42')).toBeGreaterThan(place('mm'));
});

test('names of the part, not only its title, may be in any script; steering characters and half pairs do no harm', async () => {
  const part = { title: 'a\u202eb\u0000c\ud800d', drawing: '図面 3', material: 'сталь' };
  const text = firstPage(await sampleSheet(a4, part, { plan: null }));
  expect(text).toContain('図面 3');
  expect(text).toContain('сталь');
  expect(text).toContain('ab c�d');
});

test('a very long title wraps on the first page and is cut with dots in the headers', async () => {
  const title = 'Shaft for the blower of a portable forge with an uncommonly long name '.repeat(6).trim();
  const pdf = await titled(title);
  expect(firstPage(pdf)).toContain(title);
  expect(firstPage(pdf)).toContain('…');
});
