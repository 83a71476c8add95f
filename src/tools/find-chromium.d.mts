export const noChromium: string;
export function findChromium(): string | null;
