export function serve(
  folder: string,
  port?: number | null,
): Promise<{ readonly address: string; readonly close: () => Promise<void> }>;
