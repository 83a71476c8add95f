import type { Component, ComponentProps } from 'svelte';
import type ScanBar from './ScanBar.svelte';
import type { Scan } from '../core/tracing/scan.ts';

/** The picture that is traced, as the board needs it. */
export type Tracing = {
  readonly scan: Scan | null;
  /** Null while it is fetched, and where it is not to be had. */
  readonly bitmap: ImageBitmap | null;
  /** Whether the part names a picture that this browser does not have. */
  readonly lost: boolean;
  /** Whether it can be placed and faded here, or is only looked at. */
  readonly tools: boolean;
  /** What places and fades it; null while it is fetched, and where it is not wanted. */
  readonly Bar: Component<ComponentProps<typeof ScanBar>> | null;
  /** Asks for a picture. */
  readonly onopen: () => void;
};

/** A picture that is to be drawn under the drawing. */
export type Laid = { readonly scan: Scan; readonly bitmap: ImageBitmap };
