export type Lock = {
  readonly packages: Readonly<
    Record<
      string,
      {
        readonly version?: string;
        readonly license?: string;
        readonly dev?: boolean;
        readonly devOptional?: boolean;
        readonly dependencies?: Readonly<Record<string, string>>;
      }
    >
  >;
};
export type LockedPackage = {
  readonly name: string;
  readonly version?: string;
  readonly licence: string | null;
  readonly use: 'asked' | 'brought' | 'tool';
};
export const OPEN_TO_ALL: ReadonlySet<string>;
export function packagesOf(lock: Lock): readonly LockedPackage[];
export function thirdPartyText(lock: Lock): string;
export function licenceTexts(folder: string): Promise<string>;
