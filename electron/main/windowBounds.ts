import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { z } from 'zod';

const boundsSchema = z.strictObject({
  x: z.int(),
  y: z.int(),
  width: z.int().min(320).max(32_768),
  height: z.int().min(240).max(32_768),
  maximized: z.boolean(),
});

/** Where the window was, in screen pixels independent of density. */
export type WindowBounds = z.infer<typeof boundsSchema>;

/** A rectangle of the screen that windows can use. */
export interface WorkArea {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The remembered bounds, or undefined where there are none that make sense. */
export const readWindowBounds = (path: string): WindowBounds | undefined => {
  try {
    return boundsSchema.parse(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    // A missing or spoilt note about a window's place costs nothing: the window opens at its first place.
    return undefined;
  }
};

/** Remembers the bounds, in one step. */
export const writeWindowBounds = (path: string, bounds: WindowBounds): void => {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(`${path}.part`, JSON.stringify(bounds));
  renameSync(`${path}.part`, path);
};

const titleBarHeight = 40;
const leastGrip = 120;

/** Whether enough of the window's top edge lies on a screen to take hold of it: screens come and go. */
export const isReachable = (bounds: WindowBounds, areas: readonly WorkArea[]): boolean =>
  areas.some((area) => {
    const shared = Math.min(bounds.x + bounds.width, area.x + area.width) - Math.max(bounds.x, area.x);
    return shared >= leastGrip && bounds.y >= area.y && bounds.y + titleBarHeight <= area.y + area.height;
  });
