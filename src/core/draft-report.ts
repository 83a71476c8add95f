import { detect } from './chains/detect.ts';
import { reportWith, type Searches } from './first-report.ts';
import type { Part } from './part/types.ts';
import type { Report } from './report-types.ts';
import { stackRequirements } from './stacks/requirements.ts';
import { scanProblems } from './tracing/disagree.ts';

export const searches: Searches = { detect, requirements: stackRequirements, scan: scanProblems };

/**
 * The report but for the plan, which is left null, and for what hangs on the plan or the lathe: chains, requirements and
 * diameters, quick enough for every key that is typed. Nothing in it tells whether a plan can be made.
 */
export const draftReport = (part: Part): Report => reportWith(part, searches, null);
