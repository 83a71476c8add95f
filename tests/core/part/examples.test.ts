import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { firstLathe } from '../../../src/core/part/first-lathe.ts';
import { metricLathe } from '../../../src/core/part/metric-lathe.ts';
import { readLathe } from '../../../src/core/part/read-lathe.ts';
import { readPart } from '../../../src/core/part/read-part.ts';
import { resolveLathe } from '../../../src/core/part/resolve-lathe.ts';
import { resolvePart } from '../../../src/core/part/resolve.ts';

function example(name: string) {
  const file = new URL(`../../../static/examples/${name}.json`, import.meta.url);
  const read = readPart(readFileSync(file, 'utf8'), `${name}.json`);
  if (!read.ok) throw new Error(read.problem.say);
  return resolvePart(read.value);
}

describe('the examples that ship', () => {
  test.each(['blower-shaft', 'idler-axle-open', 'winch-spindle-clash', 'grindstone-spindle-traced'])(
    '%s reads without an error',
    (name) => {
      const part = example(name);
      expect(part.errors).toEqual([]);
      expect(part.warnings).toEqual([]);
    },
  );
});

describe('the lathes that ship', () => {
  test.each([firstLathe, metricLathe])('$name reads as a file and resolves', (lathe) => {
    const read = readLathe(JSON.stringify(lathe), 'lathe.json');
    expect(read).toEqual({ ok: true, value: lathe });
    expect(resolveLathe(lathe).errors).toEqual([]);
  });
});
