import type { Page } from 'playwright-core';
import type { SheetFrame } from '../../renderer/board/sheetFrame.ts';
import { toScreen, wholeSheet } from '../../renderer/board/viewTransform.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';

/**
 * A hand on pointer and keys that counts what it does: a move to a place, a click, a key are one input event each. Places
 * are paper points of a sheet that shows whole on the board.
 */
export const countedHand = (page: Page, frame: SheetFrame) => {
  const board = page.locator('.sheet-view');
  let events = 0;
  const at = async (place: PaperPoint) => {
    const box = await board.boundingBox();
    if (!box) throw new Error('no sheet is on the board');
    const screen = toScreen(wholeSheet(frame, { widthPx: box.width, heightPx: box.height }), place);
    return { x: box.x + screen.x, y: box.y + screen.y };
  };
  const hand = {
    events: () => events,
    async moveTo(place: PaperPoint): Promise<void> {
      const { x, y } = await at(place);
      await page.mouse.move(x, y);
      events += 1;
    },
    async pick(place: PaperPoint): Promise<void> {
      await hand.moveTo(place);
      await page.mouse.down();
      await page.mouse.up();
      events += 1;
    },
    async drag(
      from: PaperPoint,
      to: PaperPoint,
      onTheWay: () => Promise<void> = async () => undefined,
    ): Promise<void> {
      await hand.moveTo(from);
      await page.mouse.down();
      await hand.moveTo({ ...to, x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 });
      await hand.moveTo(to);
      await onTheWay();
      await page.mouse.up();
      events += 2;
    },
    async key(name: string): Promise<void> {
      await page.keyboard.press(name);
      events += 1;
    },
    /** Types into whatever has the keyboard, as many keys as there are characters. */
    async type(text: string): Promise<void> {
      for (const character of text) await hand.key(character);
    },
    async press(name: string): Promise<void> {
      await page.getByRole('button', { name, exact: true }).click();
      // To the button and onto it.
      events += 2;
    },
  };
  return hand;
};
