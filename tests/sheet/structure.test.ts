import { describe, expect, test } from 'vitest';
import { info, pageOperators, structure } from './pdf-tools.ts';
import { readPages, type Node } from './pdfjs.ts';
import { a4, exampleSheet, letter, sampleSheet } from './sheet-fixtures.ts';

/** Standard structure types (ISO 32000-1, tables 333, 334, 337 and 338) that may hold one another so. */
const WITHIN: Readonly<Record<string, readonly string[]>> = {
  Root: ['Document'],
  Document: ['Sect'],
  Sect: ['H1', 'H2', 'P', 'Table', 'Figure'],
  Table: ['TR'],
  TR: ['TH', 'TD'],
};

const isNode = (child: Node | { type: string }): child is Node => 'role' in child;
const all = (node: Node): Node[] => [node, ...node.children.filter(isNode).flatMap(all)];

describe.each([
  ['two holdings, A4', () => sampleSheet(a4)],
  ['blower shaft, letter', () => exampleSheet('blower-shaft', letter)],
  ['idler axle, A4', () => exampleSheet('idler-axle-open', a4)],
])('%s as it is read out', (_name, make) => {
  const made = make();

  test('every line and letter is either part of the structure or said to be none', async () => {
    for (const operators of pageOperators(await made)) {
      let open: string[] = [];
      for (const row of operators.split('\n')) {
        if (/\b(BMC|BDC)$/.test(row)) open = [...open, row];
        else if (row === 'EMC') open = open.slice(0, -1);
        else if (/\b(Tj|S|s|f)( 0 g| ET| EMC)?$/.test(row)) expect(open, row).not.toHaveLength(0);
      }
      expect(open).toEqual([]);
    }
  });

  test('pdf.js finds only tags that belong in one another, and words for every picture', async () => {
    for (const page of await readPages(await made)) {
      const nodes = page.structure ? all(page.structure) : [];
      expect(nodes.length).toBeGreaterThan(3);
      for (const node of nodes) {
        for (const child of node.children.filter(isNode)) expect(WITHIN[node.role]).toContain(child.role);
        if (node.role === 'Figure') expect(node.alt ?? '').toMatch(/\w+ \w+/);
      }
    }
  });
});

test('poppler reads the sheet out in order: a heading over each part, tables row by row', async () => {
  const pdf = await exampleSheet('blower-shaft', letter);
  expect(info(pdf)).toMatch(/Tagged:\s+yes/);
  const said = structure(pdf);
  const headings = [...said.matchAll(/H1 \(block\)\n\s*"(.*)"/g)].map(([, text]) => text);
  expect(headings.slice(0, 4)).toEqual([
    'Drawing',
    'Bar and tools',
    'Holding H1 (1 of 3)',
    'Holding H2 (2 of 3)',
  ]);
  expect(headings).toHaveLength(new Set(headings).size);
  expect(said.replaceAll(/\s+/g, ' ')).toContain('TR TD "L3" TD "B – D" TD ".4000 ±.003" TD ".4000" TR');
  // What is set in two lines is read out with a space between them.
  expect(said).toContain('"fractions ±1/64, 2 decimals ±.010, 3 decimals ±.005, 4 decimals ±.002"');
  // Headers, footers and the heads of tables that go on are for the eye alone.
  expect(said).not.toContain('print at 100 %');
  expect(said).not.toContain('(continued)');
});
