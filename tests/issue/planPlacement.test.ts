import { PDFDocument } from '@cantoo/pdf-lib';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import { drawPlanPdf } from '../../src/issue/planPdf/drawPlanPdf.ts';
import { settingOutPdf } from '../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { drawRandomPlan } from '../fixtures/drawPlan/drawRandomPlan.ts';
import { awkwardPlans, hasSamplePlans, samplePlan } from '../host/reading/samplePlans.ts';
import {
  isBlue,
  isNear,
  type RenderedPage,
  renderPage,
  tracedDocument,
  tracedSheetId,
} from './planSamples.ts';
import { issueFont } from './settingOut/blankPlan.ts';

/**
 * The overlay is where it belongs when a renderer that had no part in writing (pdf.js) shows it there: marked points of the
 * plan go through pdf.js's own view of /Rotate, UserUnit and the page's boxes.
 */
const pxPerMm = 4;
const pxPerPoint = (pxPerMm * 25.4) / 72;
const at = '2027-03-15T08:00:00.000Z';

let font: Uint8Array;
beforeAll(async () => {
  font = await issueFont();
});

interface Plan {
  readonly bytes: Uint8Array;
  readonly password?: string | undefined;
  readonly frontLine: readonly Point[];
  readonly depthMm: number;
  readonly ratio: number;
  readonly userUnit: number;
}

const drawnOf = (plan: Plan) => {
  const document = tracedDocument(plan);
  return {
    document,
    sheet: document.sheets[tracedSheetId]!,
    scale: scaleOfSheet(document, tracedSheetId)!,
    range: demoRange,
    alternatives: new Map(),
  };
};

/** Places along the front line, clear of its ends and corners, where letters and datums lie. */
const marked = (frontLine: readonly Point[]): readonly Point[] =>
  frontLine.slice(1).flatMap((to, index) => {
    const from = frontLine[index]!;
    return [0.2, 0.45, 0.8].map((share) => ({
      x: from.x + (to.x - from.x) * share,
      y: from.y + (to.y - from.y) * share,
    }));
  });

/** Renders so that no side is longer than some pixels: pages reach metres. */
const rendered = async (
  bytes: Uint8Array,
  most: number,
  password?: string,
  number = 1,
): Promise<RenderedPage & { readonly scale: number }> => {
  const small = await renderPage(bytes, { number, scale: 0.05, password });
  const scale = Math.min(pxPerPoint, (most / Math.max(small.width, small.height)) * 0.05);
  return { ...(await renderPage(bytes, { number, scale, password })), scale };
};

const checkOverPlan = async (plan: Plan): Promise<void> => {
  const answer = await drawPlanPdf({ bytes: plan.bytes, password: plan.password }, drawnOf(plan), {
    font,
    at,
  });
  if (!answer.ok) throw new Error(answer.message);
  const before = await rendered(plan.bytes, 2400, plan.password);
  const after = await rendered(answer.bytes, 2400);
  expect([after.rotate, after.userUnit, ...after.view]).toEqual([
    before.rotate,
    before.userUnit,
    ...before.view,
  ]);
  let blueBefore = 0;
  for (const point of marked(plan.frontLine)) {
    expect(isNear(after, before.toPixel(point), 1, isBlue), `blue at ${point.x}, ${point.y}`).toBe(true);
    blueBefore += isNear(before, before.toPixel(point), 1, isBlue) ? 1 : 0;
  }
  expect(blueBefore).toBeLessThan(marked(plan.frontLine).length);
};

const isInk = ([red, green, blue]: readonly [number, number, number]): boolean =>
  Math.min(red, green, blue) < 248;
const isDark = ([red, green, blue]: readonly [number, number, number]): boolean =>
  Math.max(red, green, blue) < 110;

const checkSettingOut = async (
  plan: Plan,
): Promise<{ readonly here: number; readonly aside: number; readonly of: number }> => {
  const answer = await settingOutPdf({ bytes: plan.bytes, password: plan.password }, drawnOf(plan), {
    font,
    at,
    system: 'iso',
  });
  if (!answer.ok) throw new Error(answer.message);
  const source = await rendered(plan.bytes, 3000, plan.password);
  const sheet = await renderPage(answer.bytes, { scale: pxPerPoint });
  const { ratio, origin, field } = answer.plans[0]!;
  const datum = source.toPixel(plan.frontLine[0]!);
  // pdf.js shows one point of paper (1/72 in) as `scale` pixels, whatever the UserUnit.
  const sheetMmPerPx = (25.4 / 72 / source.scale) * (plan.ratio / ratio);
  const onSheet = ({ x, y }: Point): Point => ({
    x: origin.x + (x - datum.x) * sheetMmPerPx,
    y: origin.y - (y - datum.y) * sheetMmPerPx,
  });
  const toSheetPx = ({ x, y }: Point): Point => ({ x: x * pxPerMm, y: sheet.height - y * pxPerMm });
  for (const point of marked(plan.frontLine))
    expect(isNear(sheet, toSheetPx(onSheet(source.toPixel(point))), 1, isBlue), 'front line').toBe(true);

  // The plan's dark places lie under the sheet where they should, and not a little aside.
  let here = 0;
  let aside = 0;
  let of = 0;
  for (let x = 3; x < source.width; x += 7)
    for (let y = 3; y < source.height; y += 7) {
      if (!isDark(source.colourAt(x, y))) continue;
      const place = onSheet({ x, y });
      if (
        place.x < field.minX + 1 ||
        place.x > field.maxX - 1 ||
        place.y < field.minY + 1 ||
        place.y > field.maxY - 1
      )
        continue;
      of += 1;
      const reach = Math.max(1, Math.ceil((sheetMmPerPx * pxPerMm) / 2));
      if (isNear(sheet, toSheetPx(place), reach, isInk)) here += 1;
      if (isNear(sheet, toSheetPx({ x: place.x + 2.3, y: place.y + 1.9 }), reach, isInk)) aside += 1;
    }
  return { here, aside, of };
};

const expectUnderlay = ({
  here,
  aside,
  of,
}: {
  readonly here: number;
  readonly aside: number;
  readonly of: number;
}): void => {
  expect(of).toBeGreaterThan(10);
  // Grounds under letters hide a little of the plan.
  expect(here / of).toBeGreaterThan(0.93);
  expect(aside / of).toBeLessThan(0.85);
};

const generated = async (seed: number, given: Parameters<typeof drawRandomPlan>[1]): Promise<Plan> => {
  const { bytes, truth } = await drawRandomPlan(seed, {
    raster: false,
    stretchX: 1,
    detailView: false,
    clutterSegments: 0,
    planAngleDeg: 0,
    ...given,
  });
  const counter = truth.counters[0]!;
  return {
    bytes,
    frontLine: counter.frontLine.map(([x, y]) => ({ x, y })),
    depthMm: counter.depthMm,
    ratio: truth.ratio!,
    userUnit: truth.options.userUnit,
  };
};

const frames = [
  { rotate: 0, userUnit: 1, mediaOffset: [0, 0], cropMm: 0, nestedForms: false },
  { rotate: 90, userUnit: 1, mediaOffset: [-310, 220], cropMm: 0, nestedForms: false },
  { rotate: 180, userUnit: 2, mediaOffset: [0, 0], cropMm: 4, nestedForms: true },
  { rotate: 270, userUnit: 10, mediaOffset: [45, -60], cropMm: 3, nestedForms: false },
  { rotate: 90, userUnit: 2, mediaOffset: [500, 500], cropMm: 5, nestedForms: true },
] as const;

describe('runs over a plan', () => {
  it.each(frames)(
    'lie on the traced line: %o',
    async (frame) => {
      await checkOverPlan(await generated(11, frame));
    },
    60_000,
  );

  it('lie on the traced line of a source that needs a password', async () => {
    const plan = await generated(12, frames[1]);
    await checkOverPlan({ ...plan, bytes: await encrypted(plan.bytes, 'open me'), password: 'open me' });
  }, 60_000);

  it('answer a wrong password with a reason', async () => {
    const plan = await generated(12, frames[0]);
    const answer = await drawPlanPdf(
      { bytes: await encrypted(plan.bytes, 'open me'), password: 'wrong' },
      drawnOf(plan),
      { font, at },
    );
    expect(answer).toMatchObject({ ok: false, code: 'plan-not-writable' });
  });
});

describe('the plan under a setting-out drawing', () => {
  it.each(frames)(
    'lies under the runs at the sheet’s scale: %o',
    async (frame) => {
      expectUnderlay(await checkSettingOut(await generated(21, frame)));
    },
    60_000,
  );

  it('lies there from a source that needs a password', async () => {
    const plan = await generated(22, frames[3]);
    expectUnderlay(
      await checkSettingOut({ ...plan, bytes: await encrypted(plan.bytes, 'open me'), password: 'open me' }),
    );
  }, 60_000);

  it('keeps hidden layers hidden', async () => {
    const plan = await generated(23, { ...frames[0], hiddenLayer: true });
    const answer = await settingOutPdf({ bytes: plan.bytes }, drawnOf(plan), { font, at, system: 'iso' });
    if (!answer.ok) throw new Error(answer.message);
    const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
    const task = getDocument({ data: answer.bytes.slice(), verbosity: 0 });
    const groups = await (await task.promise).getOptionalContentConfig();
    const states = [...groups].map(([id, group]) => [
      (group as { readonly name: string }).name,
      groups.isVisible({ type: 'OCG', id }),
    ]);
    await task.destroy();
    expect(states).toContainEqual(['Superseded', false]);
    expect(states).toContainEqual(['Sheet', true]);
  });
});

describe('layers that the operator switched', () => {
  /** Ids, names and default states as pdf.js reads them. */
  const layersOf = async (bytes: Uint8Array) => {
    const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
    const task = getDocument({ data: bytes.slice(), verbosity: 0 });
    const groups = await (await task.promise).getOptionalContentConfig();
    const found = [...groups].map(([id, group]) => ({
      id: String(id),
      name: (group as { readonly name: string }).name,
      isOn: groups.isVisible({ type: 'OCG', id }),
    }));
    await task.destroy();
    return found;
  };

  it('are off and on in what is issued, and what they hold is not drawn', async () => {
    const plan = await generated(23, { ...frames[1], hiddenLayer: true });
    const own = await layersOf(plan.bytes);
    expect(own.length).toBeGreaterThan(1);
    const isOnNow = (name: string) => name === 'Superseded';
    const drawn = drawnOf(plan);
    const switched = {
      ...drawn,
      sheet: { ...drawn.sheet, layers: Object.fromEntries(own.map(({ id, name }) => [id, isOnNow(name)])) },
    };
    const over = await drawPlanPdf({ bytes: plan.bytes }, switched, { font, at });
    const under = await settingOutPdf({ bytes: plan.bytes }, switched, { font, at, system: 'iso' });
    if (!over.ok || !under.ok) throw new Error('drawn');
    for (const bytes of [over.bytes, under.bytes])
      for (const { name, isOn } of await layersOf(bytes)) expect(isOn, name).toBe(isOnNow(name));

    // Every layer but the superseded one is off: of what pdf.js shows of the plan, only what lies on no layer stays dark.
    const off = await drawPlanPdf(
      { bytes: plan.bytes },
      { ...drawn, sheet: { ...drawn.sheet, layers: Object.fromEntries(own.map(({ id }) => [id, false])) } },
      { font, at },
    );
    if (!off.ok) throw new Error('drawn');
    const darkIn = async (bytes: Uint8Array) => {
      const page = await rendered(bytes, 1200);
      let dark = 0;
      for (let x = 0; x < page.width; x += 2)
        for (let y = 0; y < page.height; y += 2) if (isDark(page.colourAt(x, y))) dark += 1;
      return dark;
    };
    expect(await darkIn(off.bytes)).toBeLessThan((await darkIn(plan.bytes)) * 0.7);
  }, 60_000);
});

const encrypted = async (bytes: Uint8Array, password: string): Promise<Uint8Array> => {
  const document = await PDFDocument.load(bytes, { updateMetadata: false });
  document.encrypt({ userPassword: password, ownerPassword: `${password}, owner` });
  return document.save({ useObjectStreams: false });
};

/** A made-up run about the middle of a page, for plans whose rooms we don't know. */
const middleRun = async (bytes: Uint8Array): Promise<Plan> => {
  const page = await renderPage(bytes, { scale: 0.02 });
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = page.view;
  const [width, height] = [x1 - x0, y1 - y0];
  const place = (x: number, y: number): Point => ({ x: x0 + width * x, y: y0 + height * y });
  const mmPerUnit = (25.4 / 72) * page.userUnit;
  return {
    bytes,
    frontLine: [place(0.35, 0.6), place(0.35, 0.42), place(0.62, 0.42)],
    depthMm: 0.04 * height * mmPerUnit * 50,
    ratio: 50,
    userUnit: page.userUnit,
  };
};

describe.skipIf(!hasSamplePlans)('sample plans', () => {
  const samples = [
    { name: 'autocad-a1-cm.pdf' },
    { name: 'counter-run-a2-cm.pdf' },
    { name: 'archicad-a4.pdf' },
    { name: 'feet-letter.pdf' },
    { name: 'outlines-a1-rot270.pdf' },
    { name: 'solvespace-strokes.pdf' },
    { name: 'raster-a0-cm.pdf' },
  ];
  it.each(samples)(
    'carry the overlay in the right place: $name',
    async ({ name }) => {
      const plan = await middleRun(samplePlan(name));
      await checkOverPlan(plan);
      const underlay = await checkSettingOut(plan);
      process.stdout.write(
        `${name}: ${underlay.here} of ${underlay.of} dark places under the sheet, ${underlay.aside} a little aside\n`,
      );
      if (underlay.of > 100) expect(underlay.here / underlay.of).toBeGreaterThan(0.9);
    },
    120_000,
  );
});

describe.skipIf(!hasSamplePlans)('awkward plans', () => {
  it('carry a drawing or are refused with a reason; nothing is thrown', async () => {
    const names = awkwardPlans();
    const step = campaignSize({ sample: 9, full: 1 });
    const counts = { drawn: 0, refused: 0, unreadable: 0 };
    for (const [index, name] of names.entries()) {
      if (index % step !== 0) continue;
      const bytes = samplePlan(name);
      const plan = await middleRun(bytes).catch(() => null);
      // What pdf.js itself can't open never becomes a sheet of a project.
      if (!plan) {
        counts.unreadable += 1;
        continue;
      }
      const over = await drawPlanPdf({ bytes }, drawnOf(plan), { font, at });
      const under = await settingOutPdf({ bytes }, drawnOf(plan), { font, at, system: 'iso' });
      for (const answer of [over, under]) {
        if (answer.ok) {
          counts.drawn += 1;
          await renderPage(answer.bytes, { scale: 0.05 });
        } else {
          counts.refused += 1;
          process.stdout.write(`${name}: ${answer.message}\n`);
          expect(answer.message.length, name).toBeGreaterThan(20);
        }
      }
    }
    process.stdout.write(`awkward plans: ${JSON.stringify(counts)}\n`);
    expect(counts.drawn).toBeGreaterThan(10);
  }, 300_000);
});
