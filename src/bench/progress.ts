/** Where the work at the lathe stopped: the page that was open and the cuts that were ticked, by their numbers. */
export type Progress = { readonly plan: string; readonly at: number; readonly done: readonly number[] };

export const freshProgress = (plan: string): Progress => ({ plan, at: 0, done: [] });

/** Ticks a cut off, or takes its tick back. */
export function tick(progress: Progress, cut: number): Progress {
  const done = progress.done.includes(cut)
    ? progress.done.filter((n) => n !== cut)
    : [...progress.done, cut].sort((a, b) => a - b);
  return { ...progress, done };
}

/** Turns to another page; stays within the pages there are. */
export const turnTo = (progress: Progress, at: number, pages: number): Progress => ({
  ...progress,
  at: Math.max(0, Math.min(at, pages - 1)),
});
