export function serve(
  folder: string,
  port?: number | null,
  shared?: boolean,
): Promise<{
  readonly address: string;
  readonly others: readonly string[];
  readonly close: () => Promise<void>;
}>;
