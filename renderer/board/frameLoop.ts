/**
 * One animation-frame loop for the whole board: layers say when they are out of date and are drawn together, in order,
 * at most once a frame. Nothing runs while nothing changes.
 */
export interface FrameLoop {
  /** Adds a layer; lower `order` is drawn first. */
  readonly addLayer: (order: number, draw: () => void) => FrameLayer;
}

export interface FrameLayer {
  /** Asks for the layer to be drawn in the next frame. */
  readonly invalidate: () => void;
  readonly remove: () => void;
}

interface Entry {
  readonly order: number;
  readonly draw: () => void;
  dirty: boolean;
}

/** Makes a loop. `requestFrame` is the window's `requestAnimationFrame` unless a test passes its own. */
export function createFrameLoop(
  requestFrame: (callback: () => void) => unknown = (callback) => requestAnimationFrame(callback),
): FrameLoop {
  const entries: Entry[] = [];
  let requested = false;

  const runFrame = (): void => {
    requested = false;
    for (const entry of [...entries]) {
      if (!entry.dirty) continue;
      entry.dirty = false;
      entry.draw();
    }
  };

  return {
    addLayer(order, draw) {
      const entry: Entry = { order, draw, dirty: false };
      entries.push(entry);
      entries.sort((a, b) => a.order - b.order);
      return {
        invalidate() {
          entry.dirty = true;
          if (requested) return;
          requested = true;
          requestFrame(runFrame);
        },
        remove() {
          entry.dirty = false;
          const index = entries.indexOf(entry);
          if (index >= 0) entries.splice(index, 1);
        },
      };
    },
  };
}
