import type { DisplayItem } from './displayList.ts';
import type { LabelMove } from './labelBox.ts';
import type { MarkPalette } from './markPalette.ts';
import type { PaintCache } from './paintCache.ts';
import type { ViewTransform } from './viewTransform.ts';

/** What painting needs besides the item. The context's unit is the CSS pixel of the view. */
export interface PaintSetting {
  readonly context: CanvasRenderingContext2D;
  readonly view: ViewTransform;
  readonly palette: MarkPalette;
  readonly cache: PaintCache;
  readonly devicePixelRatio: number;
  /** Where the texts go; a text that is not named here is not drawn. */
  readonly moves: ReadonlyMap<DisplayItem, LabelMove | null>;
}
