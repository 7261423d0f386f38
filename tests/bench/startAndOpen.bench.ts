import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { startHostProcess } from '../e2e/hostProcess.ts';
import { openBrowser } from '../e2e/openBrowser.ts';
import { drawHeavyPlan } from '../fixtures/drawPlan/drawHeavyPlan.ts';

/**
 * Cold start of the loopback host to the first useful paint, as a ratio to an empty page from a bare server in a process
 * of its own; and opening a sheet of 90,000 segments on A1 in the app, as a ratio to pdf.js alone rendering it at the
 * size of the board. Medians of one run. Run with `node tests/bench/startAndOpen.bench.ts`.
 */
const rounds = 5;
const segments = 90_000;
const pdfjs = fileURLToPath(new URL('../../node_modules/pdfjs-dist/build/', import.meta.url));

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;

const shownAfter = async (browser: Browser, url: string, selector: string): Promise<void> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  await page.goto(url);
  await page.locator(selector).first().waitFor();
  await context.close();
};

const bareServer = `require('node:http').createServer((_, r) => { r.setHeader('content-type', 'text/html');
r.end('<p id="ready">ready</p>'); }).listen(0, '127.0.0.1', function () { console.log('http://127.0.0.1:' + this.address().port + '/'); });`;

const coldStart = async (browser: Browser, folder: string): Promise<void> => {
  const { spawn } = await import('node:child_process');
  const bare: number[] = [];
  const app: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    let began = performance.now();
    const server = spawn(process.execPath, ['-e', bareServer], { stdio: ['ignore', 'pipe', 'inherit'] });
    const url = await new Promise<string>((resolve) =>
      server.stdout.once('data', (line) => resolve(String(line).trim())),
    );
    await shownAfter(browser, url, '#ready');
    bare.push(performance.now() - began);
    server.kill();

    began = performance.now();
    const host = await startHostProcess(join(folder, `archive-${round}`));
    await shownAfter(browser, host.url, '.archive-empty');
    app.push(performance.now() - began);
    await host.stop();
  }
  const ratio = median(app) / median(bare);
  console.log(
    `cold start to first useful paint: ${ratio.toFixed(2)} x an empty page from a bare server ` +
      `(${median(app).toFixed(0)} ms to ${median(bare).toFixed(0)} ms)`,
  );
};

/** A page with pdf.js and nothing else, which says how long rendering the plan took. */
const servePdfJs = (plan: Uint8Array) => {
  const page = `<!doctype html><canvas></canvas><script type="module">
    import * as pdfjs from './pdf.mjs';
    pdfjs.GlobalWorkerOptions.workerSrc = './pdf.worker.mjs';
    const bytes = new Uint8Array(await (await fetch('./plan.pdf')).arrayBuffer());
    const began = performance.now();
    const page = await (await pdfjs.getDocument({ data: bytes }).promise).getPage(1);
    const size = page.getViewport({ scale: 1 });
    const viewport = page.getViewport({ scale: Math.min(1112 / size.width, 546 / size.height) });
    const canvas = document.querySelector('canvas');
    canvas.width = viewport.width; canvas.height = viewport.height;
    await page.render({ canvas, viewport }).promise;
    document.title = String(performance.now() - began);
  </script>`;
  return createServer((request, response) => {
    const path = request.url ?? '/';
    if (path.endsWith('.mjs')) {
      response.setHeader('content-type', 'text/javascript');
      response.end(readFileSync(join(pdfjs, path.slice(1))));
    } else if (path === '/plan.pdf') response.end(plan);
    else {
      response.setHeader('content-type', 'text/html');
      response.end(page);
    }
  });
};

const openSheet = async (browser: Browser, folder: string): Promise<void> => {
  const { bytes } = await drawHeavyPlan(segments);
  const file = join(folder, 'heavy.pdf');
  writeFileSync(file, bytes);
  const server = servePdfJs(bytes);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const alone: number[] = [];
  const coarse: number[] = [];
  const sharp: number[] = [];
  const host = await startHostProcess(join(folder, 'archive'));
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const app = await context.newPage();
  await app.goto(host.url);
  for (let round = 0; round < rounds; round += 1) {
    const bare = await context.newPage();
    await bare.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    await bare.waitForFunction('document.title !== ""', undefined, { timeout: 120_000 });
    alone.push(Number(await bare.title()));
    await bare.close();

    await app.getByLabel('New project').fill(`Round ${round}`);
    await app.getByRole('button', { name: 'Start' }).click();
    await app.getByLabel('Plan file').setInputFiles(file);
    await app.getByRole('button', { name: 'Use page 1' }).click({ timeout: 120_000 });
    await app.locator('[data-drawing=sharp]').waitFor({ timeout: 120_000 });
    await app.locator('.rail-keeping [role=status]', { hasText: /^Saved$/ }).waitFor();
    await app.getByRole('button', { name: 'Archive' }).click();
    // Reopening is what happens all day: no file dialog, no upload.
    const began = performance.now();
    await app.getByRole('button', { name: `Round ${round}`, exact: true }).click();
    await app.locator('[data-drawing=sharpening], [data-drawing=sharp]').waitFor({ timeout: 120_000 });
    coarse.push(performance.now() - began);
    await app.locator('[data-drawing=sharp]').waitFor({ timeout: 120_000 });
    sharp.push(performance.now() - began);
    await app.getByRole('button', { name: 'Archive' }).click();
  }
  await context.close();
  await host.stop();
  server.close();
  console.log(
    `opening ${segments} segments on A1: first picture ${(median(coarse) / median(alone)).toFixed(2)} x, sharp ` +
      `${(median(sharp) / median(alone)).toFixed(2)} x pdf.js alone rendering it ` +
      `(${median(coarse).toFixed(0)} and ${median(sharp).toFixed(0)} ms to ${median(alone).toFixed(0)} ms)`,
  );
};

const folder = mkdtempSync(join(tmpdir(), 'footrail-bench-'));
const browser = await openBrowser();
try {
  await coldStart(browser, folder);
  await openSheet(browser, folder);
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
