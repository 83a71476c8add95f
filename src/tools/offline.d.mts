export function workerFor(folder: string): Promise<string>;
