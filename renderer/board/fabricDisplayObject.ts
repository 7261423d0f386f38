import { FabricObject } from 'fabric';
import type { DisplayItem } from './displayList.ts';
import { itemExtent, meets, type PaperExtent } from './itemExtent.ts';
import { paintDisplayItem } from './paintDisplayItem.ts';
import type { PaintSetting } from './paintSetting.ts';

/** What an object asks its layer for while painting: the setting and the paper in sight. */
export interface Painting {
  readonly setting: PaintSetting;
  readonly seen: PaperExtent;
}

/**
 * One item of a display list as a fabric object. Its place follows from the item's paper points and the current view,
 * not from fabric's own left and top, so nothing has to be updated when the view moves.
 */
export class FabricDisplayObject extends FabricObject {
  #item: DisplayItem;
  #extent: PaperExtent;
  readonly #painting: () => Painting | null;

  constructor(item: DisplayItem, painting: () => Painting | null) {
    super({ objectCaching: false, selectable: false, evented: false });
    this.#item = item;
    this.#extent = itemExtent(item);
    this.#painting = painting;
  }

  /** Takes another state of the item: much cheaper than a new fabric object. */
  show(item: DisplayItem): void {
    if (item === this.#item) return;
    this.#item = item;
    this.#extent = itemExtent(item);
  }

  override render(_context: CanvasRenderingContext2D): void {
    const painting = this.#painting();
    if (painting !== null && meets(this.#extent, painting.seen))
      paintDisplayItem(painting.setting, this.#item);
  }
}
