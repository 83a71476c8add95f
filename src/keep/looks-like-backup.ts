/** Largest backup that is written or read, in bytes: a hundred parts or so with traced pictures. */
export const LARGEST_BACKUP = 40_000_000;

/** Whether a text wants to be a backup, by its first field. */
export const looksLikeBackup = (text: string): boolean =>
  /^\s*\{\s*"shaftwright_backup"\s*:/.test(text.slice(0, 200));
