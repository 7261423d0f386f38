import type { Box } from '../geometry/box.ts';
import type { EmbeddedViewport } from './embeddedViewport.ts';
import type { TextRun } from './textRun.ts';

/** A page of a plan as data, without its linework, which travels on its own. All places in user-space units. */
export interface SheetReading {
  /** Number of pages in the file. */
  readonly pages: number;
  /** This page, counted from 1. */
  readonly page: number;
  readonly mediaBox: Box;
  /** What is shown of the page: its CropBox within its MediaBox. */
  readonly viewBox: Box;
  /** Clockwise turn for display: 0, 90, 180 or 270. */
  readonly rotation: number;
  readonly userUnit: number;
  readonly layers: readonly SheetLayer[];
  readonly text: readonly TextRun[];
  readonly pictures: readonly Box[];
  readonly viewports: readonly EmbeddedViewport[];
  /** What could not be read, in words; the rest stands. */
  readonly warnings: readonly string[];
}

/** An optional-content group. */
export interface SheetLayer {
  readonly id: string;
  readonly name: string;
  readonly visible: boolean;
}
