import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { degrees, PDFDocument, PDFName, PDFNumber } from '@cantoo/pdf-lib';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BoardPage } from '../renderer/board/page/main.tsx';
import { openBrowser } from './openBrowser.ts';

declare const window: Window & { readonly boardPage: BoardPage };

const inRepo = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));
const types: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.mjs': 'text/javascript',
  '.css': 'text/css',
};
const sharedPlans = [
  'autocad-a1-cm',
  'counter-run-a2-cm',
  'archicad-a4',
  'feet-letter',
  'outlines-a1-rot270',
];

let browser: Browser;
let server: Server;
let address: string;
const built = mkdtempSync(join(tmpdir(), 'footrail-board-'));
const plans = new Map<string, Uint8Array>();

beforeAll(async () => {
  await build({
    root: inRepo('tests/renderer/board/page'),
    base: './',
    configFile: false,
    logLevel: 'error',
    build: { outDir: built, emptyOutDir: true, target: 'chrome140', minify: false },
  });
  server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname.slice(1) || 'index.html';
    const body = plans.get(path) ?? (existsSync(join(built, path)) ? readFileSync(join(built, path)) : null);
    response.writeHead(body ? 200 : 404, {
      'content-type': types[extname(path)] ?? 'application/octet-stream',
    });
    response.end(body);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(built, { recursive: true, force: true });
});

async function openPlan(plan: string, bytes: Uint8Array, devicePixelRatio = 1, more = ''): Promise<Page> {
  plans.set(plan, bytes);
  const page = await browser.newPage({
    viewport: { width: 1000, height: 700 },
    deviceScaleFactor: devicePixelRatio,
  });
  await page.goto(`${address}?plan=${plan}${more}`);
  return page;
}

const untilSharp = (page: Page) =>
  page.waitForFunction(() => window.boardPage.drawing?.status === 'sharp', null, { polling: 20 });

/** Shows a paper point in the middle, with a fraction of a pixel more, at so many pixels a point. */
async function look(page: Page, x: number, y: number, pxPerPoint: number): Promise<void> {
  await page.evaluate(
    ([x, y, pxPerPoint]) => {
      const { board, viewTransform, screenPoint } = window.boardPage;
      window.boardPage.drawing = null;
      const zoomed = viewTransform.zoomTo(board.view.get()!, screenPoint(400, 300), pxPerPoint!);
      const point = { x, y } as Parameters<typeof viewTransform.centredOn>[1];
      board.view.set(viewTransform.panBy(viewTransform.centredOn(zoomed, point), 13.37, -7.21));
    },
    [x, y, pxPerPoint],
  );
  await untilSharp(page);
}

const crosses = [
  [-200, 250],
  [333.25, 411.75],
  [-240.5, 690.5],
] as const;

/** A page with crosses at known user-space points: offset MediaBox, CropBox within, rotated, with a unit. */
async function pageOfCrosses(rotation: number, userUnit: number): Promise<Uint8Array> {
  const pdf = await PDFDocument.create();
  const page = pdf.addPage([1200, 800]);
  page.setMediaBox(-300, 150, 1200, 800);
  page.setCropBox(-250, 200, 1000, 700);
  page.setRotation(degrees(rotation));
  page.node.set(PDFName.of('UserUnit'), PDFNumber.of(userUnit));
  for (const [x, y] of crosses) {
    page.drawLine({ start: { x: x - 6, y }, end: { x: x + 6, y }, thickness: 0.5 });
    page.drawLine({ start: { x, y: y - 6 }, end: { x, y: y + 6 }, thickness: 0.5 });
  }
  return pdf.save();
}

/** From where the view says that a cross lies to the middle of its ink, in canvas pixels, on both canvases. */
const inkOffset = (page: Page, x: number, y: number) =>
  page.evaluate(
    ([x, y]) => {
      const { board, viewTransform } = window.boardPage;
      const view = board.view.get()!;
      const at = viewTransform.toScreen(view, { x, y } as Parameters<typeof viewTransform.toScreen>[1]);
      const picture = board.picture.get()!;
      return [picture.coarse, picture.detail!].flatMap(({ canvas, area }) => {
        const scale = area.pxPerPoint / view.pxPerPoint;
        const middleX = (at.x - view.originX) * scale - area.left;
        const middleY = (at.y - view.originY) * scale - area.top;
        const unitPx = area.pxPerPoint * view.frame.userUnit;
        const aside = Math.round(4 * unitPx);
        const reach = Math.max(3, Math.ceil(2 * unitPx));
        const context = canvas.getContext('2d')!;
        return [true, false].map((isAcross) => {
          let ink = 0;
          let moment = 0;
          for (let step = -reach; step <= reach; step += 1) {
            const px = Math.floor(middleX) + (isAcross ? step : aside);
            const py = Math.floor(middleY) + (isAcross ? aside : step);
            const dark = 255 - context.getImageData(px, py, 1, 1).data[0]!;
            ink += dark;
            moment += dark * ((isAcross ? px : py) + 0.5);
          }
          return moment / ink - (isAcross ? middleX : middleY);
        });
      });
    },
    [x, y],
  );

/** From where a canvas of its area belongs on the screen to where it stands, in CSS pixels: left, top, width, height. */
const placeOffset = (page: Page) =>
  page.evaluate(() => {
    const { board } = window.boardPage;
    const view = board.view.get()!;
    const picture = board.picture.get()!;
    return [picture.coarse, picture.detail!].flatMap(({ canvas, area }) => {
      const box = canvas.getBoundingClientRect();
      const scale = view.pxPerPoint / area.pxPerPoint;
      return [
        box.left - (view.originX + area.left * scale),
        box.top - (view.originY + area.top * scale),
        box.width - area.width * scale,
        box.height - area.height * scale,
      ];
    });
  });

describe('the sheet as drawn', () => {
  it.each([0, 90, 180, 270])('lies where the view says on a page rotated by %i degrees', async (rotation) => {
    for (const userUnit of [1, 2.5]) {
      const page = await openPlan(
        'crosses.pdf',
        await pageOfCrosses(rotation, userUnit),
        userUnit === 1 ? 1 : 2,
      );
      await untilSharp(page);
      for (const pxPerPoint of [3, 12.34]) {
        for (const [x, y] of crosses) {
          await look(page, x, y, pxPerPoint);
          for (const offset of await inkOffset(page, x, y)) expect(Math.abs(offset)).toBeLessThan(0.25);
          for (const offset of await placeOffset(page)) expect(Math.abs(offset)).toBeLessThan(0.02);
        }
      }
      await page.close();
    }
  });

  const sheets: [string, () => Promise<Uint8Array>][] = [['crosses', () => pageOfCrosses(90, 1)]];
  for (const name of sharedPlans) {
    const path = inRepo(`../shared/plans/${name}.pdf`);
    if (existsSync(path)) sheets.push([name, async () => new Uint8Array(readFileSync(path))]);
    else process.stdout.write(`Skipped: ${name}.pdf is not here.\n`);
  }

  it.each(sheets)('shows of %s in part exactly what drawing everything would show', async (name, bytesOf) => {
    const page = await openPlan(`${name}.pdf`, await bytesOf());
    await untilSharp(page);
    const [xMin, yMin, xMax, yMax] = await page.evaluate(
      () => window.boardPage.board.view.get()!.frame.viewBox,
    );
    for (const [across, up, pxPerPoint] of [
      [0.3, 0.3, 4],
      [0.62, 0.55, 4],
      [0.45, 0.5, 20],
    ] as const) {
      await look(page, xMin + across * (xMax - xMin), yMin + up * (yMax - yMin), pxPerPoint);
      const differing = await page.evaluate(async () => {
        const { canvas, area } = window.boardPage.board.picture.get()!.detail!;
        const whole = document.createElement('canvas');
        whole.width = area.width;
        whole.height = area.height;
        const pdfPage = window.boardPage.page!;
        const viewport = pdfPage.getViewport({
          scale: area.pxPerPoint,
          offsetX: -area.left,
          offsetY: -area.top,
        });
        await pdfPage.render({ canvas: whole, viewport }).promise;
        const pixels = (of: HTMLCanvasElement) =>
          of.getContext('2d')!.getImageData(0, 0, of.width, of.height).data;
        const shown = pixels(canvas);
        return pixels(whole).filter((channel, index) => channel !== shown[index]).length;
      });
      expect(differing).toBe(0);
    }
    await page.close();
  });
});

describe('opening a PDF in the browser', () => {
  const status = (page: Page, wanted: string) =>
    page.waitForFunction((wanted) => window.boardPage.document.status === wanted, wanted, { polling: 20 });

  it('asks for the password, says that a wrong one is wrong, and opens with the right one', async () => {
    const pdf = await PDFDocument.create();
    pdf.addPage([300, 200]);
    pdf.encrypt({ userPassword: 'counter', ownerPassword: 'front' });
    const page = await openPlan('locked.pdf', await pdf.save());
    const submit = (password: string) =>
      page.evaluate((password) => {
        const { document } = window.boardPage;
        if (document.status !== 'password') throw new Error(`Expected a question, found ${document.status}.`);
        document.submit(password);
        return document.isWrong;
      }, password);
    await status(page, 'password');
    expect(await submit('stool')).toBe(false);
    await page.waitForFunction(() => {
      const { document } = window.boardPage;
      return document.status === 'password' && document.isWrong;
    });
    expect(await submit('counter')).toBe(true);
    await status(page, 'ready');
    await untilSharp(page);
    await page.close();
  });

  it.each([
    ['not-a-pdf', 'Dear sirs, please find the plan attached.'],
    ['damaged-pdf', '%PDF-1.7\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>'],
  ])('refuses a file as %s', async (code, content) => {
    const page = await openPlan(`${code}.pdf`, new TextEncoder().encode(content));
    await status(page, 'failed');
    const refusal = await page.evaluate(() => {
      const { document } = window.boardPage;
      return document.status === 'failed' ? document.refusal : null;
    });
    expect(refusal).toMatchObject({ code, message: expect.stringMatching(/plan/) });
    await page.close();
  });
});

describe('gestures', () => {
  it('zooms by a wheel notch under the pointer, pans by the middle button, shows the whole sheet by Home', async () => {
    const page = await openPlan('crosses.pdf', await pageOfCrosses(0, 1), 1, '&tool');
    await untilSharp(page);
    const view = () => page.evaluate(() => window.boardPage.board.view.get()!);
    const whole = await view();
    await page.mouse.move(600, 400);
    await page.mouse.wheel(0, -100);
    await expect.poll(async () => (await view()).pxPerPoint / whole.pxPerPoint).toBeCloseTo(1.197, 2);
    const zoomed = await view();
    const factor = zoomed.pxPerPoint / whole.pxPerPoint;
    expect(zoomed.originX).toBeCloseTo(600 - (600 - whole.originX) * factor, 6);
    await page.mouse.down({ button: 'middle' });
    await page.mouse.move(650, 380, { steps: 4 });
    await page.mouse.up({ button: 'middle' });
    const panned = await view();
    expect([panned.originX - zoomed.originX, panned.originY - zoomed.originY]).toEqual([
      expect.closeTo(50, 6),
      expect.closeTo(-20, 6),
    ]);
    await page.keyboard.press('Home');
    expect((await view()).pxPerPoint).toBeCloseTo(whole.pxPerPoint, 9);
    await page.close();
  });

  it('gives a drag of the main button to the tool and moves nothing', async () => {
    const page = await openPlan('crosses.pdf', await pageOfCrosses(0, 1), 1, '&tool');
    await untilSharp(page);
    const before = await page.evaluate(() => window.boardPage.board.view.get()!);
    await page.mouse.move(300, 300);
    await page.mouse.down();
    await page.mouse.move(360, 330, { steps: 2 });
    await page.mouse.up();
    expect(await page.evaluate(() => window.boardPage.board.view.get()!)).toEqual(before);
    const heard = await page.evaluate(() => window.boardPage.pointers.map(({ type }) => type));
    expect(heard.slice(-4)).toEqual(['down', 'move', 'move', 'up']);
    await page.close();
  });
});
