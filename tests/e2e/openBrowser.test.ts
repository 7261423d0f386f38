import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './openBrowser.ts';

let browser: Browser;
let server: Server;

beforeAll(async () => {
  browser = await openBrowser();
  server = createServer((_request, response) => {
    response.setHeader('content-type', 'text/html');
    response.end('<!doctype html><title>Plan</title><p id="length">12 300 mm</p>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

it('shows a page that is served on this machine and draws its text with real glyphs', async () => {
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  expect(await page.title()).toBe('Plan');
  const widthPx = await page.locator('#length').evaluate((paragraph) => {
    const range = document.createRange();
    range.selectNodeContents(paragraph);
    return range.getBoundingClientRect().width;
  });
  expect(widthPx).toBeGreaterThan(40);
});
