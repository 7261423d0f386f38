import type { Page } from 'playwright-core';
import { type SheetFrame, shownSizePoints } from '../../renderer/board/sheetFrame.ts';
import { toScreen, wholeSheet } from '../../renderer/board/viewTransform.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';

/** Drives the project screen as an operator does, in sentences. Places are paper points of the sheet on the board. */
export const projectPage = (page: Page, frame: SheetFrame) => {
  const board = page.locator('.sheet-view');

  const at = async (point: PaperPoint): Promise<{ x: number; y: number }> => {
    const box = await board.boundingBox();
    if (!box) throw new Error('no sheet is on the board');
    const view = wholeSheet(frame, { widthPx: box.width, heightPx: box.height });
    const screen = toScreen(view, point);
    return { x: box.x + screen.x, y: box.y + screen.y };
  };

  const entry = page.locator('.entry-field input');

  return {
    board,
    shown: shownSizePoints(frame),
    /** Waits until the sheet can be snapped to and shows in full. */
    async waitForSheet(): Promise<void> {
      await board.waitFor();
    },
    async point(place: PaperPoint): Promise<void> {
      const { x, y } = await at(place);
      await page.mouse.move(x, y, { steps: 2 });
    },
    async pick(place: PaperPoint): Promise<void> {
      const { x, y } = await at(place);
      await page.mouse.move(x, y, { steps: 2 });
      await page.mouse.down();
      await page.mouse.up();
    },
    async type(text: string): Promise<void> {
      await entry.fill(text);
      await entry.press('Enter');
    },
    async confirm(): Promise<void> {
      await board.press('Enter');
    },
    async openStep(word: string): Promise<void> {
      const head = page.locator('.step-head', { hasText: word }).first();
      if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
    },
    async saved(): Promise<void> {
      await page.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
    },
    answer: (word: string) => page.locator('.step-head', { hasText: word }).first().locator('.step-answer'),
    prompt: page.locator('.entry-prompt'),
  };
};
