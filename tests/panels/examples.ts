import { readFileSync } from 'node:fs';
import { firstLathe } from '../../src/core/part/first-lathe.ts';
import { readPart } from '../../src/core/part/read-part.ts';
import type { Part } from '../../src/core/part/types.ts';
import type { Report } from '../../src/core/report-types.ts';
import { report } from '../../src/core/report.ts';

/** An example of the app with its whole report on the first lathe. */
export function example(name: 'blower-shaft' | 'idler-axle-open' | 'winch-spindle-clash'): {
  part: Part;
  report: Report;
} {
  const read = readPart(readFileSync(`static/examples/${name}.json`, 'utf8'), name);
  if (!read.ok) throw new Error(read.problem.say);
  return { part: read.value, report: report(read.value, firstLathe) };
}
