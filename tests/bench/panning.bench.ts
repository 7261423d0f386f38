import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { startHostProcess } from '../e2e/hostProcess.ts';
import { openBrowser } from '../e2e/openBrowser.ts';
import { drawHeavyPlan } from '../fixtures/drawPlan/drawHeavyPlan.ts';
import { watchMainThread } from './board/mainThread.ts';
import { emptyPlan, keepTracedProject } from './board/tracedProject.ts';

/**
 * Panning, zooming and picking on a sheet of 300,000 segments with 20 traced runs, in a real browser: the same gestures on
 * an empty sheet in the same run, and what the one costs the main thread beside the other. Run with
 * `node tests/bench/panning.bench.ts`.
 */
const segments = 300_000;
const runCount = 20;
const rounds = 4;
/** A pointer reports at this pace, in ms. */
const paceMs = 16;
/** A graphics processor is used where there is one; elsewhere the browser draws without a graphics process. */
const hasGraphics = process.platform !== 'linux' || existsSync('/dev/dri');
const isDetailed = process.argv.includes('--detail');

const percentile = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? 0;

interface Measured {
  readonly tasksMs: readonly number[];
  readonly workMs: readonly number[];
  readonly framesMs: readonly number[];
  readonly inLongTasks: ReadonlyMap<string, number>;
}

const paced = async (page: Page, steps: number, step: (part: number) => Promise<void>): Promise<void> => {
  let next = performance.now();
  for (let count = 0; count <= steps; count += 1) {
    await step(count / steps);
    next += paceMs;
    const rest = next - performance.now();
    if (rest > 0) await page.waitForTimeout(rest);
    else next = performance.now();
  }
};

type Gesture = (page: Page, middle: { readonly x: number; readonly y: number }) => Promise<void>;

const zoom: Gesture = async (page, { x, y }) => {
  await page.mouse.move(x, y);
  await paced(page, 24, () => page.mouse.wheel(0, -100));
  await page.waitForTimeout(400);
  await paced(page, 24, () => page.mouse.wheel(0, 100));
  await page.waitForTimeout(400);
};

const pan: Gesture = async (page, { x, y }) => {
  await page.mouse.move(x, y);
  await paced(page, 10, () => page.mouse.wheel(0, -100));
  await page.waitForTimeout(400);
  await page.mouse.down({ button: 'middle' });
  await paced(page, 120, (part) =>
    page.mouse.move(x + 380 * Math.sin(part * 4 * Math.PI), y + 150 * Math.sin(part * 6 * Math.PI)),
  );
  await page.mouse.up({ button: 'middle' });
  await page.waitForTimeout(400);
  await page.locator('.sheet-view').press('Home');
};

const pick: Gesture = async (page, { x, y }) => {
  await page.getByRole('button', { name: 'Trace', exact: true }).click();
  await page.mouse.move(x - 60, y);
  await page.mouse.down();
  await page.mouse.up();
  await paced(page, 120, (part) =>
    page.mouse.move(x + 300 * Math.sin(part * 4 * Math.PI), y + 120 * Math.sin(part * 6 * Math.PI)),
  );
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
};

const gestures = { zoom, pan, pick } as const;
const measured = async (page: Page, gesture: Gesture): Promise<Measured> => {
  const board = await page.locator('.sheet-view').boundingBox();
  if (!board) throw new Error('No sheet is on the board.');
  const middle = { x: board.x + board.width / 2, y: board.y + board.height / 2 };
  const session = await page.context().newCDPSession(page);
  const frames = await page.evaluateHandle(() => {
    const times: number[] = [];
    const seen = { times, isOver: false };
    const frame = (now: number): void => {
      times.push(now);
      if (!seen.isOver) requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
    return seen;
  });
  const watched = await watchMainThread(session, () => gesture(page, middle));
  const times = await frames.evaluate((seen) => {
    seen.isOver = true;
    return seen.times;
  });
  await session.detach();
  return { ...watched, framesMs: times.slice(1).map((time, at) => time - times[at]!) };
};

const openProject = async (page: Page, url: string, name: string): Promise<void> => {
  await page.goto(url);
  await page.getByRole('button', { name, exact: true }).click();
  await page.locator('[data-drawing=sharp]').waitFor({ timeout: 120_000 });
  // Until the fits and the index of the linework are in.
  await page.waitForTimeout(6_000);
};

/** The gesture on both pages in turn, so that whatever else the machine does meets both alike. */
const inTurn = async (pages: readonly Page[], gesture: Gesture): Promise<readonly Measured[]> => {
  const found = pages.map(() => ({
    tasksMs: [] as number[],
    workMs: [] as number[],
    framesMs: [] as number[],
    inLongTasks: new Map<string, number>(),
  }));
  // The first round runs code that is not compiled yet.
  for (let round = -1; round < rounds; round += 1)
    for (const [place, page] of pages.entries()) {
      await page.bringToFront();
      await page.waitForTimeout(300);
      const one = await measured(page, gesture);
      const all = found[place];
      if (round < 0 || !all) continue;
      all.tasksMs.push(...one.tasksMs);
      all.workMs.push(...one.workMs);
      all.framesMs.push(...one.framesMs);
      for (const [event, ms] of one.inLongTasks)
        all.inLongTasks.set(event, (all.inLongTasks.get(event) ?? 0) + ms);
    }
  return found;
};

/** What draws in this browser: the name of the graphics processor, or that software does. */
const graphics = async (browser: Browser): Promise<string> => {
  const page = await browser.newPage();
  const renderer = await page.evaluate(() => {
    const gl = document.createElement('canvas').getContext('webgl');
    const named = gl?.getExtension('WEBGL_debug_renderer_info');
    return gl && named ? String(gl.getParameter(named.UNMASKED_RENDERER_WEBGL)) : null;
  });
  await page.close();
  return renderer === null || /swiftshader|llvmpipe|software/i.test(renderer)
    ? 'no GPU: software draws, on the same processor as everything else'
    : `GPU: ${renderer}`;
};

const folder = mkdtempSync(join(tmpdir(), 'footrail-bench-'));
const archiveDir = join(folder, 'archive');
const browser = await openBrowser(hasGraphics ? [] : undefined);
try {
  await keepTracedProject(archiveDir, 'Empty sheet', await emptyPlan(), 0);
  await keepTracedProject(archiveDir, 'Full sheet', (await drawHeavyPlan(segments)).bytes, runCount);
  const host = await startHostProcess(archiveDir);
  try {
    console.log(`${segments} segments, ${runCount} runs; ${await graphics(browser)}`);
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const [empty, full] = [await context.newPage(), await context.newPage()];
    await openProject(empty, host.url, 'Empty sheet');
    await openProject(full, new URL('/', host.url).href, 'Full sheet');
    for (const [which, gesture] of Object.entries(gestures)) {
      const [one, other] = await inTurn([empty, full], gesture);
      if (!one || !other) throw new Error('Two pages were measured.');
      const ratio = (of: 'tasksMs' | 'workMs' | 'framesMs'): string => {
        const [much, bare] = [percentile(other[of], 0.99), percentile(one[of], 0.99)];
        return `${(much / bare).toFixed(2)} x (${much.toFixed(1)} ms to ${bare.toFixed(1)} ms)`;
      };
      const long = (measurement: Measured, of: 'tasksMs' | 'workMs'): number =>
        measurement[of].filter((ms) => ms > 50).length;
      console.log(
        `${which}: p99 task ${ratio('tasksMs')}, of that work ${ratio('workMs')}, p99 frame ${ratio('framesMs')}; ` +
          `tasks over 50 ms: ${long(other, 'tasksMs')} of ${other.tasksMs.length}, with as much work ` +
          `${long(other, 'workMs')} (empty sheet: ${long(one, 'tasksMs')} and ${long(one, 'workMs')}); longest ` +
          `${Math.max(...other.tasksMs).toFixed(0)} ms with ${Math.max(...other.workMs).toFixed(0)} ms of work`,
      );
      if (isDetailed)
        for (const [event, ms] of [...other.inLongTasks].sort(([, a], [, b]) => b - a).slice(0, 14))
          console.log(`    ${event}: ${ms.toFixed(0)} ms`);
    }
  } finally {
    await host.stop();
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
