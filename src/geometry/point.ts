/**
 * Points with their coordinate space in the type, so that paper and room never mix silently.
 *
 * A plain `Point` is a position in any one space; kernels take and return it. `PaperPoint` is a position in a page's
 * unrotated PDF user space, in points. `RoomPoint` is in millimetres in the room.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

declare const paperSpace: unique symbol;
declare const roomSpace: unique symbol;

/** A position in the page's unrotated PDF user space, in user-space units (points where UserUnit is 1). */
export type PaperPoint = Point & { readonly [paperSpace]: true };

/** A position in the room, in millimetres. */
export type RoomPoint = Point & { readonly [roomSpace]: true };

/** Names coordinates as paper points. */
export const paperPoint = (x: number, y: number): PaperPoint => ({ x, y }) as PaperPoint;
