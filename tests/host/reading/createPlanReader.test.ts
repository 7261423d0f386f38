import { PDFDocument, PDFName } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { PlanError } from '../../../src/app/ports.ts';
import { createPlanReader } from '../../../src/host/reading/createPlanReader.ts';
import { readAnswerSchema } from '../../../src/scale/readContract.ts';
import { decodeLinework } from '../../../src/sheet/lineworkWire.ts';
import { pdfWithContent } from '../../sheet/readPdfContent.ts';

const reader = createPlanReader();

const codeOf = async (reading: Promise<unknown>): Promise<string> => {
  try {
    await reading;
    return 'read';
  } catch (error) {
    if (error instanceof PlanError) return error.code;
    throw error;
  }
};

const worker = (source: string): URL => new URL(`data:text/javascript,${encodeURIComponent(source)}`);

describe('reading a plan in its own thread', () => {
  it('answers the read contract and the linework of the page', async () => {
    const bytes = await pdfWithContent('10 20 m 110 20 l S');
    const progress: number[] = [];
    const { answer, linework } = await reader.readPage(bytes, 1, {
      onProgress: (done) => progress.push(done),
    });
    const read = readAnswerSchema.parse(answer);
    expect(read).toMatchObject({
      pages: 1,
      page: 1,
      linework: { segments: 1, curves: 0 },
      scale: { status: 'none', ratio: null },
    });
    expect(read.sheet.widthMm).toBeCloseTo((400 / 72) * 25.4, 6);
    expect([...decodeLinework(linework).lines]).toEqual([10, 20, 110, 20]);
    expect(progress).toEqual([1, 2, 3]);
    expect(bytes.byteLength, 'the caller keeps its bytes').toBeGreaterThan(0);
  });

  it('lists the pages with their sizes', async () => {
    const document = await PDFDocument.create();
    document.addPage([1683.78, 1190.55]);
    document.addPage([612, 792]);
    const pages = await reader.pages(await document.save(), {});
    expect(pages.map(({ page, sizeName }) => `${page} ${sizeName}`)).toEqual(['1 A2', '2 ANSI A']);
  });

  it('asks for a password, refuses a wrong one, and opens with the right one', async () => {
    const document = await PDFDocument.create();
    document.addPage([300, 200]);
    document.encrypt({ userPassword: 'counter', ownerPassword: 'front of house' });
    const bytes = await document.save({ useObjectStreams: false });
    expect(await codeOf(reader.readPage(bytes, 1, {}))).toBe('password-needed');
    expect(await codeOf(reader.pages(bytes, {}))).toBe('password-needed');
    expect(await codeOf(reader.readPage(bytes, 1, { password: 'bar' }))).toBe('password-wrong');
    expect(await codeOf(reader.readPage(bytes, 1, { password: 'counter' }))).toBe('read');
  });

  // The library that writes this file leaves its strings unencrypted, so that no reader can read them back: only the
  // numbers and names of the dictionaries are looked at here, and the unit counts as blank.
  it('reads boxes and embedded measures of an encrypted file too', async () => {
    const document = await PDFDocument.create();
    const page = document.addPage([300, 200]);
    page.setCropBox(50, 50, 100, 100);
    const format = { C: 0.0176389 };
    const measure = { Type: 'Measure', Subtype: 'RL', X: [format], D: [format], A: [format] };
    page.node.set(
      PDFName.of('VP'),
      document.context.obj([{ Type: 'Viewport', BBox: [10, 10, 290, 190], Measure: measure }]),
    );
    document.encrypt({ userPassword: 'counter', ownerPassword: 'front of house' });
    const { answer } = await reader.readPage(await document.save(), 1, { password: 'counter' });
    const { sheet, remarks } = readAnswerSchema.parse(answer);
    expect(sheet.mediaBox).toEqual([0, 0, 300, 200]);
    expect(sheet.viewBox).toEqual([50, 50, 150, 150]);
    expect(remarks?.map(({ code }) => code)).toEqual(['measure-unit-blank']);
  });

  it('refuses what is no PDF, damaged, or has no such page, each by its code', async () => {
    const bytes = await pdfWithContent('0 0 m 1 1 l S');
    expect(await codeOf(reader.readPage(new Uint8Array(), 1, {}))).toBe('not-a-pdf');
    expect(await codeOf(reader.readPage(new TextEncoder().encode('a letter'), 1, {}))).toBe('not-a-pdf');
    expect(await codeOf(reader.readPage(bytes.slice(0, 60), 1, {}))).toBe('damaged');
    expect(await codeOf(reader.readPage(bytes, 2, {}))).toBe('no-such-page');
    expect(await codeOf(reader.readPage(bytes, 0, {}))).toBe('no-such-page');
  });

  it('opens a PDF of one page whose tree points at itself, or refuses it', async () => {
    const text = new TextDecoder('latin1').decode(await pdfWithContent('0 0 m 1 1 l S'));
    const cyclic = new TextEncoder().encode(
      text.replace(/\/Kids \[[^\]]*\]/, (kids) => kids.replace(/\d+ 0 R/, '2 0 R')),
    );
    expect(['read', 'damaged', 'no-pages', 'page-damaged', 'no-such-page']).toContain(
      await codeOf(reader.readPage(cyclic, 1, {})),
    );
  });

  it('ends when cancelled, before and during the reading', async () => {
    const bytes = await pdfWithContent('0 0 m 1 1 l S');
    const early = new AbortController();
    early.abort();
    expect(await codeOf(reader.readPage(bytes, 1, { signal: early.signal }))).toBe('reading-cancelled');
    const late = new AbortController();
    const reading = codeOf(
      createPlanReader({ workerUrl: worker('while (true);') }).readPage(bytes, 1, { signal: late.signal }),
    );
    late.abort();
    expect(await reading).toBe('reading-cancelled');
  });

  it('ends a hang at the deadline, and survives a crash and a lack of memory', async () => {
    const bytes = new Uint8Array([1]);
    const hanging = createPlanReader({ workerUrl: worker('while (true);'), deadlineMs: 300 });
    expect(await codeOf(hanging.readPage(bytes, 1, {}))).toBe('reading-timed-out');
    const crashing = createPlanReader({ workerUrl: worker('throw new Error("struck");') });
    expect(await codeOf(crashing.readPage(bytes, 1, {}))).toBe('reading-crashed');
    const leaving = createPlanReader({ workerUrl: worker('process.exit(3);') });
    expect(await codeOf(leaving.readPage(bytes, 1, {}))).toBe('reading-crashed');
    const greedy = createPlanReader({
      workerUrl: worker('const kept = []; while (true) kept.push(new Array(1e5).fill(1.5 + kept.length));'),
      memoryMb: 64,
    });
    expect(await codeOf(greedy.readPage(bytes, 1, {}))).toBe('reading-out-of-memory');
  });

  it('reads two pages at one time and no more; the others wait in their order, and who gives up is forgotten', async () => {
    // Tells of the page when it begins, answers a while later.
    const slow = createPlanReader({
      workerUrl: worker(`
        import { parentPort } from 'node:worker_threads';
        parentPort.on('message', ({ page }) => {
          parentPort.postMessage({ kind: 'progress', done: page, of: 9 });
          setTimeout(() => parentPort.postMessage(
            { kind: 'page', answer: { page }, linework: new Uint8Array(), text: '' }), 60);
        });`),
    });
    const events: string[] = [];
    const read = async (page: number, signal?: AbortSignal): Promise<void> => {
      try {
        await slow.readPage(new Uint8Array([1]), page, { signal, onProgress: () => events.push(`+${page}`) });
        events.push(`-${page}`);
      } catch (error) {
        events.push(`${(error as PlanError).code} ${page}`);
      }
    };
    const leaving = new AbortController();
    const all = [read(1), read(2), read(3, leaving.signal), read(4), read(5), read(6)];
    leaving.abort();
    await Promise.all(all);
    await slow.close();
    let atOnce = 0;
    let most = 0;
    for (const event of events) {
      atOnce += event.startsWith('+') ? 1 : event.startsWith('-') ? -1 : 0;
      most = Math.max(most, atOnce);
    }
    expect(most).toBeLessThanOrEqual(2);
    expect(events[0]).toBe('reading-cancelled 3');
    const begun = events.filter((event) => event.startsWith('+'));
    // A thread that starts late may let the other one finish a page first, never a later page be the first.
    expect(['+1', '+2']).toContain(begun[0]);
    expect(begun.slice().sort()).toEqual(['+1', '+2', '+4', '+5', '+6']);
  });
});
