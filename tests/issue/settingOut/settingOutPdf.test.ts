import { PageSizes, PDFDict, PDFDocument, PDFName } from '@cantoo/pdf-lib';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createPlanReader } from '../../../src/host/reading/createPlanReader.ts';
import { floorPlans } from '../../../src/issue/settingOut/floorPlan.ts';
import { besideOneAnother } from '../../../src/issue/settingOut/movedPlan.ts';
import { type PaperSystem, papers, preferredScales } from '../../../src/issue/settingOut/papers.ts';
import { type SettingOutPdf, settingOutPdf } from '../../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../../src/measure/scaleOfSheet.ts';
import { decodeLinework } from '../../../src/sheet/lineworkWire.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { demoBackBar, demoFrontBar } from '../elevation/elevationScenes.ts';
import { blankPlan, issueFont } from './blankPlan.ts';
import { letterOverlaps } from './letterOverlaps.ts';
import { type FittedProject, projectOf, projectSheetId, randomProject } from './randomProject.ts';

const reader = createPlanReader();
afterAll(() => reader.close());

let plan: Uint8Array;
let font: Uint8Array;
beforeAll(async () => {
  plan = await blankPlan();
  font = await issueFont();
});

const issue = async (
  { document, alternatives }: FittedProject,
  system: PaperSystem = 'iso',
): Promise<Extract<SettingOutPdf, { ok: true }>> => {
  const answer = await settingOutPdf(
    { bytes: plan },
    {
      document,
      sheet: document.sheets[projectSheetId]!,
      scale: scaleOfSheet(document, projectSheetId)!,
      range: demoRange,
      alternatives,
    },
    { font, at: '2027-03-15T08:00:00.000Z', system },
  );
  if (!answer.ok) throw new Error(answer.message);
  return answer;
};

describe('the setting-out drawing', () => {
  it('gives the same bytes for the same input', async () => {
    const project = projectOf([demoFrontBar, demoBackBar], 60);
    const [one, other] = [await issue(project), await issue(project)];
    expect(Buffer.from(one.bytes).equals(Buffer.from(other.bytes))).toBe(true);
  });

  it('lays no text over another on random projects, on ISO and on US sheets', async () => {
    const count = campaignSize({ sample: 10, full: 50 });
    const troubles: string[] = [];
    let texts = 0;
    for (let seed = 1; seed <= count; seed += 1)
      for (const system of ['iso', 'us'] as const) {
        const { letters } = await issue(randomProject(seed), system);
        for (const [sheet, own] of letters.entries()) {
          texts += own.length;
          for (const overlap of letterOverlaps(own))
            troubles.push(`seed ${seed} ${system} sheet ${sheet + 1}: ${overlap}`);
        }
      }
    process.stdout.write(`${count} projects, ${texts} texts, ${troubles.length} overlaps\n`);
    expect(troubles).toEqual([]);
    expect(texts).toBeGreaterThan(count * 100);
  }, 120_000);
});

/** What pdf.js finds on a page, in mm of paper from its lower left corner. */
const readSheet = async (bytes: Uint8Array, number: number) => {
  const task = getDocument({ data: bytes.slice(), verbosity: 0 });
  const document = await task.promise;
  const page = await document.getPage(number);
  const mm = 25.4 / 72;
  const content = await page.getTextContent();
  const texts = content.items.flatMap((item) =>
    'str' in item && item.str.trim() !== ''
      ? [{ text: item.str, x: item.transform[4] * mm, y: item.transform[5] * mm, width: item.width * mm }]
      : [],
  );
  const linework = decodeLinework((await reader.readPage(bytes, number, {})).linework);
  const rings: number[][] = [];
  const lines: (readonly [number, number, number, number])[] = [];
  const byPath = new Map<number, number[]>();
  for (let line = 0; line < linework.lineCount; line += 1) {
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = linework.lines.subarray(line * 4, line * 4 + 4);
    lines.push([x0 * mm, y0 * mm, x1 * mm, y1 * mm]);
    const path = linework.linePath[line] ?? 0;
    byPath.set(path, [...(byPath.get(path) ?? []), Math.hypot(x1 - x0, y1 - y0) * mm]);
  }
  for (const edges of byPath.values()) if (edges.length === 4) rings.push(edges);
  const pages = document.numPages;
  const info = (await document.getMetadata()).info as { readonly Title?: string };
  await task.destroy();
  return { texts, rings, lines, pages, title: info.Title };
};

describe('the setting-out drawing, read back by pdf.js', () => {
  const project = projectOf([demoFrontBar, demoBackBar], 60);
  const toleranceMm = 0.1;

  it('shows every piece as wide and as deep as it is at the sheet’s scale, within 0.1 mm of paper', async () => {
    const issued = await issue(project);
    const { rings } = await readSheet(issued.bytes, 1);
    const { ratio } = issued.plans[0]!;
    const depths = [700, 600];
    for (const [index, { pieces }] of [...project.alternatives.values()].entries())
      for (const { item, host } of pieces) {
        // The truth is the stock range's, not the drawing's.
        const widthMm = demoRange.items.find(({ id }) => id === item)!.widthMm;
        const found = rings.some(
          ([width = 0, depth = 0]) =>
            Math.abs(width - widthMm / ratio) <= toleranceMm &&
            (host !== undefined || Math.abs(depth - depths[index]! / ratio) <= toleranceMm),
        );
        expect(found, `${item}, ${widthMm} wide`).toBe(true);
      }
  });

  it('writes chains that add up to their straight, and running figures at their distance from the datum', async () => {
    const issued = await issue(project);
    const { ratio, origin } = issued.plans[0]!;
    const { texts } = await readSheet(issued.bytes, 1);
    const front = [...project.alternatives.values()][0]!;
    // The demo's second straight runs level from datum 1B; its running figures stand across, at their joints.
    const [first, corner] = demoFrontBar.frontLine;
    const mm = 25.4 / 72;
    const datumX = origin.x + (corner!.x - first!.x) * mm * (50 / ratio);
    const plain = (text: string) => text.replace(/[^0-9.-]/g, '');
    for (const { straight, toMm, host } of front.pieces) {
      if (straight !== 1 || host !== undefined) continue;
      const figure = String(Math.round(toMm));
      const near = texts.filter(
        ({ text, x }) => plain(text) === figure && Math.abs(x - (datumX + toMm / ratio)) < 2.5,
      );
      expect(near.length, figure).toBeGreaterThan(0);
    }
    const chained = front.pieces
      .filter(({ straight, host }) => straight === 1 && host === undefined)
      .reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0);
    const others = issued.letters[0]!.map(({ text }) => plain(text));
    expect(others).toContain('8700');
    // Pieces, leftovers, zones, end panel and give of the level straight make its 8700, by the demo plan's own figures.
    const leftovers = front.leftovers
      .filter(({ straight }) => straight === 1)
      .reduce((sum, { widthMm }) => sum + widthMm, 0);
    const zones = 400 + 700 + 800;
    expect(Math.abs(chained + leftovers + zones + 20 + 50 - 8700)).toBeLessThanOrEqual(0.5);
  });

  it('carries a line of 100 mm on every sheet, and says which sheet of how many it is', async () => {
    const issued = await issue(project);
    const { pages, title } = await readSheet(issued.bytes, 1);
    expect(title).toContain('setting-out drawing');
    expect(pages).toBe(issued.letters.length);
    for (let number = 1; number <= pages; number += 1) {
      const { lines, texts } = await readSheet(issued.bytes, number);
      const level = lines.filter(
        ([x0, y0, x1, y1]) => Math.abs(y1 - y0) < 1e-3 && Math.abs(Math.abs(x1 - x0) - 100) < 0.05,
      );
      expect(level.length).toBeGreaterThan(0);
      expect(texts.map(({ text }) => text)).toContain(`${number} of ${pages}`);
    }
  });

  it('has the fields that ISO 7200:2004 (from memory) makes mandatory', async () => {
    const { letters } = await issue(project);
    const words = letters[0]!.map(({ text }) => text);
    for (const field of [
      'Legal owner',
      'Identification number',
      'Date of issue',
      'Sheet',
      'Title',
      'Approved by',
      'Created by',
      'Document type',
    ])
      expect(words).toContain(field);
    expect(words).toContain('2027-03-15');
    expect(words.some((text) => text.includes('check every dimension on site'))).toBe(true);
  });

  it('keeps its own account of the letters: each text is where pdf.js finds it', async () => {
    const { bytes, letters } = await issue(project);
    const { texts } = await readSheet(bytes, 1);
    const flat = (words: string) => words.replace(/\s+/g, ' ').trim();
    let met = 0;
    for (const { text, ring } of letters[0]!) {
      const near = texts.some(
        (one) =>
          flat(text).startsWith(flat(one.text)) && Math.hypot(one.x - ring[0]!.x, one.y - ring[0]!.y) < 1.1,
      );
      if (near) met += 1;
    }
    // pdf.js parts a text at wide spaces, and joins a few that stand side by side.
    expect(met / letters[0]!.length).toBeGreaterThan(0.9);
  });

  it('embeds its font', async () => {
    const { bytes } = await issue(project);
    const document = await PDFDocument.load(bytes);
    const fonts = document.context
      .enumerateIndirectObjects()
      .filter(
        ([, object]) =>
          object instanceof PDFDict && object.get(PDFName.of('Type')) === PDFName.of('FontDescriptor'),
      );
    expect(fonts.length).toBeGreaterThan(0);
    for (const [, font] of fonts) expect((font as PDFDict).has(PDFName.of('FontFile2'))).toBe(true);
  });
});

describe('sheets and scales', () => {
  it('are those of ISO 216, as pdf-lib’s page sizes have them (points, rounded)', () => {
    for (const { name, widthMm, heightMm } of papers.iso) {
      const [short, long] = PageSizes[name as 'A3'];
      expect(Math.abs((widthMm * 72) / 25.4 - long)).toBeLessThan(0.01);
      expect(Math.abs((heightMm * 72) / 25.4 - short)).toBeLessThan(0.01);
    }
  });

  it('take their reductions from ISO 5455:1979, clause 5 (list read in a copy), and from fractions of an inch to the foot', () => {
    expect(preferredScales.iso.slice(0, 6).map(({ ratio }) => ratio)).toEqual([20, 50, 100, 200, 500, 1000]);
    // ratio = 12 / fraction: 1/2 in is 1:24, 1/4 in 1:48, 1/8 in 1:96, 1/16 in 1:192.
    expect(preferredScales.us.slice(0, 4).map(({ ratio }) => ratio)).toEqual(
      [0.5, 0.25, 0.125, 0.0625].map((inch) => 12 / inch),
    );
  });

  it('are chosen so that all runs fit, and refused where the runs are too far apart for any', async () => {
    const far = projectOf([demoFrontBar, demoBackBar], 4_000_000);
    const answer = await settingOutPdf(
      { bytes: plan },
      {
        document: far.document,
        sheet: far.document.sheets[projectSheetId]!,
        scale: scaleOfSheet(far.document, projectSheetId)!,
        range: demoRange,
        alternatives: far.alternatives,
      },
      { font, at: '2027-03-15T08:00:00.000Z', system: 'iso' },
    );
    expect(answer.ok ? answer.plans.length : answer.code).toBe(2);
  });
});

describe('runs in views of different scale', () => {
  it('stand on sheets of their own, each at its view’s scale', async () => {
    const { document } = projectOf([demoFrontBar, demoBackBar], 60);
    const back = Object.values(document.runs)[1]!;
    const [from, to] = back.frontLine.map(({ at }) => at);
    const sheet = document.sheets[projectSheetId]!;
    const viewed = {
      ...document,
      sheets: {
        [projectSheetId]: {
          ...sheet,
          acceptedScale: {
            ...sheet.acceptedScale!,
            views: [
              {
                name: 'Detail',
                bbox: [from!.x - 20, from!.y - 20, to!.x + 20, to!.y + 20] as const,
                ratio: 25,
                relativeUncertainty: 0.002,
              },
            ],
          },
        },
      },
    };
    const plans = floorPlans(viewed, projectSheetId, {
      rotationDeg: 0,
      range: demoRange,
      alternatives: new Map(),
    });
    // The same paper at 1:25 is half as long in the room as at 1:50: 6400 becomes 3200.
    expect(plans.map(({ scale }) => scale.ratio)).toEqual([50, 25]);
    expect(plans[1]!.runs[0]!.straights[0]!.lengthMm).toBeCloseTo(3200, 3);
    const issued = await issue({ document: viewed, alternatives: new Map() });
    expect(issued.plans.length).toBe(2);
    expect(issued.letters.flatMap((own) => letterOverlaps(own))).toEqual([]);
    const side = besideOneAnother(plans);
    expect(side.runs.length).toBe(2);
    expect(side.runs[1]!.straights[0]!.start.x).toBeGreaterThan(8700);
  });
});
