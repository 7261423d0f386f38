import { join } from 'node:path';
import type { Page } from 'playwright-core';

/** Pictures for a person to look at, where a folder is named for them. */
export const picture = async (page: Page, name: string): Promise<void> => {
  const into = process.env['FOOTRAIL_PICTURES'];
  if (into) await page.screenshot({ path: join(into, `${name}.png`) });
};
