import axe from 'axe-core';
import type { Page } from 'playwright-core';

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string }[];
  }[];
}

/** What breaks WCAG 2.2 AA on the page, as axe-core, a general-purpose checker, has it: `rule: elements`. */
export const accessFaults = async (page: Page): Promise<readonly string[]> => {
  const isThere = await page.evaluate(() => 'axe' in globalThis);
  if (!isThere) await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run: (options: object) => Promise<AxeResult> } }).axe.run;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
    const { violations: found } = await run({ runOnly: { type: 'tag', values: tags } });
    return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`);
  });
};

/**
 * What can be pressed or typed into and is lower or narrower than 24 CSS pixels. WCAG 2.2, 2.5.8, lets words within a
 * sentence, and what the browser itself draws, be smaller.
 */
export const smallTargets = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('button, summary, select, textarea, input, a[href]')]
      .filter((target) => {
        const { width, height } = target.getBoundingClientRect();
        const isDrawnByBrowser = target.matches('[type=checkbox], [type=radio], [type=file]');
        const isInSentence = getComputedStyle(target).display === 'inline';
        const isSeen = width > 1 && height > 1 && target.closest('.visually-hidden') === null;
        return isSeen && !isDrawnByBrowser && !isInSentence && (width < 23.5 || height < 23.5);
      })
      .map(
        (target) =>
          `${Math.round(target.getBoundingClientRect().height)} px: ${target.outerHTML.slice(0, 120)}`,
      ),
  );
