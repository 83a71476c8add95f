import js from '@eslint/js';
import globals from 'globals';
import svelte from 'eslint-plugin-svelte';
import ts from 'typescript-eslint';

// The rooms of core, innermost first: a room may use itself and the rooms before it.
const rooms = [
  'lengths',
  'standards',
  'part',
  'chains',
  'tracing',
  'stacks',
  'outline',
  'stiffness',
  'plan',
  'marks',
  'actuals',
];
const outer = ['keep', 'sheet', 'board', 'panels', 'bench', 'cli', 'tools'];
const outside = [
  ...outer.map((f) => `**/${f}/**`),
  'svelte',
  'svelte/*',
  'konva',
  'konva/*',
  'pdf-lib',
  'idb',
  'node:*',
];
const restrict = (patterns) => ({ 'no-restricted-imports': ['error', { patterns }] });

const coreRooms = rooms.map((room, i) => ({
  files: [`src/core/${room}/**`],
  rules: restrict([
    { group: outside, message: 'core is pure: values in, values out' },
    {
      group: ['**/report', '**/report.ts', ...rooms.slice(i + 1).map((later) => `**/${later}/**`)],
      message: `${room} comes before it in the house`,
    },
  ]),
}));

// Outside core: sheet and keep know only core; the views know sheet and keep, never each other's insides upward.
const houses = [
  { files: ['src/sheet/**', 'src/keep/**'], up: ['board', 'panels', 'bench', 'cli'] },
  { files: ['src/board/**'], up: ['panels', 'bench', 'cli'] },
  { files: ['src/bench/**'], up: ['panels', 'cli'] },
  { files: ['src/cli/**'], up: ['board', 'panels', 'bench'] },
].map(({ files, up }) => ({
  files,
  rules: restrict([{ group: up.map((f) => `**/${f}/**`), message: 'arrows point down only' }]),
}));

export default ts.config(
  {
    ignores: [
      '**/dist/**',
      '**/dist-cli/**',
      '**/node_modules/**',
      '**/test-results/**',
      '**/playwright-report/**',
    ],
  },
  js.configs.recommended,
  ...ts.configs.strict,
  ...svelte.configs.recommended,
  {
    languageOptions: { globals: { ...globals.browser, ...globals.node } },
    rules: {
      'no-undef': 'off',
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
      '@typescript-eslint/unified-signatures': 'off',
    },
  },
  { files: ['**/*.svelte', '**/*.svelte.ts'], languageOptions: { parserOptions: { parser: ts.parser } } },
  ...coreRooms,
  ...houses,
);
