import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createPlanReader } from '../../../src/host/reading/createPlanReader.ts';
import { pointsOfPath } from '../../../src/issue/drawing/drawnPath.ts';
import { partOfDrawing } from '../../../src/issue/drawing/partOfDrawing.ts';
import { drawSection } from '../../../src/issue/section/drawSection.ts';
import { sectionScales } from '../../../src/issue/settingOut/papers.ts';
import { type SettingOutPdf, settingOutPdf } from '../../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../../src/measure/scaleOfSheet.ts';
import { decodeLinework } from '../../../src/sheet/lineworkWire.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import {
  demoBackBar,
  demoFrontBar,
  drawScene,
  frontThrough,
  type Scene,
} from '../elevation/elevationScenes.ts';
import { blankPlan, issueFont } from './blankPlan.ts';
import { letterOverlaps } from './letterOverlaps.ts';
import { type FittedProject, projectOf, projectSheetId } from './randomProject.ts';

const reader = createPlanReader();
afterAll(() => reader.close());

let plan: Uint8Array;
let font: Uint8Array;
beforeAll(async () => {
  plan = await blankPlan();
  font = await issueFont();
});

type Issued = Extract<SettingOutPdf, { ok: true }>;
const issue = async (
  { document, alternatives }: FittedProject,
  system: 'iso' | 'us' = 'iso',
): Promise<Issued> => {
  const answer = await settingOutPdf(
    { bytes: plan },
    {
      document,
      sheet: document.sheets[projectSheetId]!,
      scale: scaleOfSheet(document, projectSheetId)!,
      range: demoRange,
      alternatives,
    },
    {
      font,
      at: '2027-03-15T08:00:00.000Z',
      system,
      legalOwner: 'Merrow Stainless Ltd',
      creator: 'A. Person',
      approvalPerson: 'B. Person',
      documentStatus: 'For tender',
      revision: 'C',
    },
  );
  if (!answer.ok) throw new Error(answer.message);
  return answer;
};

/** 30 m round two corners in modules no wider than 750 mm. */
const longBar: Scene = {
  name: 'Long bar with a name that goes on and on round the whole of the cellar',
  frontLine: frontThrough([0, -6_000], [18_000, -6_000], [18_000, 0]),
  ends: ['wall', 'wall'],
  zones: [
    {
      kind: 'blocked',
      name: 'Existing cast iron rainwater riser to remain in its casing',
      straight: 1,
      fromMm: 12_040,
      toMm: 12_400,
    },
  ],
  changes: { maxWidthMm: 750 },
};

const words = (issued: Issued): readonly string[] => issued.letters.flat().map(({ text }) => text);
const plain = (text: string): number => Number(text.replace(/[^0-9.]/g, ''));

describe('an elevation that is longer than its sheet', () => {
  it('goes on in strips at the same scale, with match lines, every piece in one of them, no text over another', async () => {
    const project = projectOf([longBar], 60);
    const issued = await issue(project);
    const parts = words(issued).filter((text) => /, part \d+ of \d+$/.test(text));
    expect(parts.length).toBeGreaterThan(2);
    for (let number = 1; number < parts.length; number += 1)
      expect(words(issued).filter((text) => text === `match line ${number}/${number + 1}`).length).toBe(2);
    const pieces = project.alternatives.values().next().value!.pieces.length;
    expect(pieces).toBeGreaterThan(35);
    const elevations = issued.letters
      .filter((own) => own.some(({ text }) => /, part \d+ of/.test(text)))
      .flat();
    for (let piece = 1; piece <= pieces; piece += 1) {
      const mark = `1.${String(piece).padStart(2, '0')}`;
      expect(elevations.filter(({ text }) => text === mark).length, mark).toBe(1);
    }
    // The middle straight is 18 m by the scene's own figures: what its strips show of it adds up to that.
    const shown = elevations.filter(({ text }, index) => {
      const next = elevations[index + 1]?.text ?? '';
      return /^[\d\s\u00a0\u2009\u202f]+$/.test(text) && next.startsWith('of') && next.includes('18');
    });
    expect(shown.reduce((sum, { text }) => sum + plain(text), 0)).toBe(18_000);
    for (const own of issued.letters) expect(letterOverlaps(own)).toEqual([]);
  }, 60_000);

  it('parts its chains so that they add up to the whole, wherever it is cut', () => {
    const { drawing } = drawScene(demoFrontBar);
    const stops = drawing.chains[0]!.links.map(({ toMm }) => toMm).slice(2, -2);
    for (const cut of stops) {
      const part = (number: number) =>
        partOfDrawing(drawing, {
          fromMm: number === 1 ? drawing.leftMm : cut,
          toMm: number === 1 ? cut : drawing.rightMm,
          number,
          of: 2,
          lengthText: String,
        });
      const lengths = (chain: number) =>
        [1, 2].flatMap((number) =>
          part(number).chains[chain]!.links.map(({ fromMm, toMm }) => toMm - fromMm),
        );
      for (const chain of [0, 1]) {
        const whole = drawing.chains[chain]!.links.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0);
        expect(lengths(chain).reduce((sum, length) => sum + length, 0)).toBeCloseTo(whole, 6);
      }
      expect(lengths(0).length).toBe(drawing.chains[0]!.links.length);
    }
  });
});

describe('a section', () => {
  it('has the range’s heights and the run’s depth at its scale, within 0.1 mm of paper, read back by pdf.js', async () => {
    const issued = await issue(projectOf([demoFrontBar, demoBackBar], 60));
    const sheets = [...issued.letters.keys()].filter((index) =>
      issued.letters[index]!.some(({ text }) => text.startsWith('Section ')),
    );
    const mm = 25.4 / 72;
    const sizes: (readonly [number, number])[] = [];
    for (const sheet of sheets) {
      const linework = decodeLinework((await reader.readPage(issued.bytes, sheet + 1, {})).linework);
      const byPath = new Map<number, number[]>();
      for (let line = 0; line < linework.lineCount; line += 1) {
        const path = linework.linePath[line] ?? 0;
        const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = linework.lines.subarray(line * 4, line * 4 + 4);
        byPath.set(path, [...(byPath.get(path) ?? []), x0 * mm, y0 * mm, x1 * mm, y1 * mm]);
      }
      for (const ends of byPath.values()) {
        const [xs, ys] = [
          ends.filter((_, index) => index % 2 === 0),
          ends.filter((_, index) => index % 2 === 1),
        ];
        sizes.push([Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)]);
      }
    }
    const has = (widthMm: number, heightMm: number) =>
      sizes.some(
        ([width, height]) => Math.abs(width - widthMm / 10) <= 0.1 && Math.abs(height - heightMm / 10) <= 0.1,
      );
    const { topThicknessMm, shelfDepthMm, shelfThicknessMm } = demoRange.heights;
    // Front bar 700 deep, back bar 600: tops, then the serving shelf, then a frame's leg from its foot to its rail.
    expect(has(700, topThicknessMm)).toBe(true);
    expect(has(600, topThicknessMm)).toBe(true);
    expect(has(shelfDepthMm, shelfThicknessMm)).toBe(true);
    expect(has(demoRange.frame.tubeMm, 900 - 40 - 30 - 160)).toBe(true);
    const texts = sheets.flatMap((sheet) => issued.letters[sheet]!.map(({ text }) => text));
    expect(texts.filter((text) => text === '150').length).toBeGreaterThanOrEqual(2);
  });

  it('is marked on the plan at both sides of its run and over the elevation', async () => {
    const issued = await issue(projectOf([demoFrontBar, demoBackBar], 60));
    for (const letter of ['S', 'T']) {
      expect(issued.letters[0]!.filter(({ text }) => text === letter).length).toBe(2);
      expect(words(issued).filter((text) => text === `${letter}–${letter}`).length).toBe(1);
      expect(words(issued).filter((text) => text === `Section ${letter}–${letter}`).length).toBe(1);
    }
  });

  it('is shared by runs of one build, and says so', async () => {
    const issued = await issue(projectOf([demoBackBar, { ...demoBackBar, name: 'Second back bar' }], 60));
    expect(words(issued).filter((text) => /^Section /.test(text))).toEqual(['Section S–S']);
    expect(words(issued).some((text) => text.includes('the same for 2 Second back bar'))).toBe(true);
  });

  it('draws no more than the range and the run state without a star', () => {
    const of = (claddingMm: number, heights: Partial<typeof demoRange.heights>) =>
      drawSection({
        title: 'Section',
        caption: '',
        depthMm: 700,
        claddingMm,
        through: { kind: 'module', item: demoRange.items.find(({ id }) => id === 'module-1800') },
        share: 0,
        range: { ...demoRange, heights: { ...demoRange.heights, ...heights } },
        unit: 'mm',
      });
    const tags = (section: ReturnType<typeof drawSection>) =>
      new Set(section.drawing.shapes.map(({ tag }) => tag));
    expect(tags(of(0, {})).has('cladding')).toBe(false);
    expect(tags(of(24, {})).has('cladding')).toBe(true);
    expect(tags(of(0, { shelfDepthMm: 0 })).has('serving-shelf')).toBe(false);
    expect(tags(of(0, { upstandMm: 0 })).has('upstand')).toBe(false);
    const starred = of(24, {}).labels.filter(({ text }) => text.includes('*'));
    expect(starred.map(({ text }) => text.split(' ')[0])).toEqual([
      'Serving',
      'Bracket',
      'Upstand',
      'Working',
      'Undershelf;',
      'Front',
    ]);
  });

  it('is at a scale of ISO 5455:1979 (1:10, 1:20, 1:50), or of inches to the foot', () => {
    expect(sectionScales.iso.map(({ ratio }) => ratio)).toEqual([10, 20, 50]);
    // ratio = 12 / inches: 1 1/2 in is 1:8, 1 in 1:12, 3/4 in 1:16, 1/2 in 1:24.
    expect(sectionScales.us.map(({ ratio }) => ratio)).toEqual(
      [1.5, 1, 0.75, 0.5].map((inches) => 12 / inches),
    );
  });
});

describe('sections through bays, low sections and falling floors', () => {
  const through = (
    what: Parameters<typeof drawSection>[0]['through'],
    levels: Parameters<typeof drawSection>[0]['levels'] = null,
    share = 0,
  ) =>
    drawSection({
      title: 'Section',
      caption: '',
      depthMm: 700,
      claddingMm: 0,
      through: what,
      levels,
      share,
      range: demoRange,
      unit: 'mm',
    });
  const boxOf = (section: ReturnType<typeof drawSection>, wanted: string) => {
    const points = section.drawing.shapes
      .filter(({ tag }) => tag === wanted)
      .flatMap(({ path }) => pointsOfPath(path));
    const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  };
  const levelsOf = (section: ReturnType<typeof drawSection>) =>
    Object.fromEntries(section.drawing.levels.map(({ word, text }) => [word, text]));

  it('keep the equipment’s height free behind the services gap, and show how far its door swings', () => {
    const clearance = { beforeMm: 25, afterMm: 25, heightMm: 820, doorSwingMm: 450 };
    const section = through({ kind: 'bay', name: 'Glasswasher', clearance });
    expect(boxOf(section, 'equipment')).toEqual([150, 0, 700, 820]);
    expect(boxOf(section, 'door')[2]).toBe(700 + 450);
    expect(section.drawing.shapes.some(({ tag }) => tag === 'frame')).toBe(false);
    expect(section.labels.some(({ text }) => text.startsWith('Glasswasher, by others: 820'))).toBe(true);
  });

  it('show at which heights above the floor of the place services come up to the equipment, on the axis of their gap', () => {
    const services = [
      { kind: 'waste', offsetMm: 480, heightMm: 350, connection: 'DN 50' },
      { kind: 'cold-water', offsetMm: 120, heightMm: 500, connection: 'G 3/4' },
      { kind: 'power', offsetMm: 300, heightMm: 500, connection: '230 V 16 A' },
    ] as const;
    const levels = {
      topHeightMm: null,
      shelfHeightsMm: [],
      floorAtStartMm: 0,
      floorAtEndMm: -40,
      raisedFloorBehindMm: 0,
    };
    const section = through(
      { kind: 'bay', name: 'Glasswasher', clearance: undefined, services },
      levels,
      0.5,
    );
    // The gap is 150 wide behind the front line; half way along the fall the floor lies 20 above the lowest.
    expect(boxOf(section, 'service')).toEqual([75 - 18, 20 + 350 - 18, 75 + 18, 20 + 500 + 18]);
    expect(section.labels.map(({ text }) => text).join(' ')).toContain(
      'waste DN 50 at 350; cold water G 3/4 at 500; power 230 V 16 A at 500. Check with the supplier',
    );
    const bare = through({ kind: 'bay', name: 'Glasswasher, by others', clearance: undefined });
    expect(bare.labels.some(({ text }) => text.startsWith('Glasswasher, by others: height'))).toBe(true);
    expect(bare.drawing.shapes.some(({ tag }) => tag === 'service')).toBe(false);
  });

  it('stand a low top at its height, clear underneath', () => {
    const section = through({ kind: 'low', name: '', topHeightMm: 850 });
    expect(boxOf(section, 'low-section')).toEqual([0, 850 - 40, 700, 850]);
    expect(section.labels.some(({ text }) => text.includes('clear underneath, 810 high'))).toBe(true);
    expect(levelsOf(section)['low top']).toBe('850');
  });

  it('count heights from the sheet’s datum where the run has levels, and let feet and floor follow the fall', () => {
    const levels = {
      topHeightMm: 950,
      shelfHeightsMm: [],
      floorAtStartMm: 0,
      floorAtEndMm: -40,
      raisedFloorBehindMm: 100,
    };
    const item = demoRange.items.find(({ id }) => id === 'module-1800');
    const section = through({ kind: 'module', item }, levels, 0.5);
    // Half way along a fall of 40: 20 below the datum; the working floor 100 above that.
    expect(levelsOf(section)).toMatchObject({ floor: '−20', 'floor behind': '+80', top: '+950' });
    // Drawn above the lowest floor, which is 40 below the datum: the feet stand at 20.
    expect(boxOf(section, 'foot')[1]).toBe(20);
    expect(section.labels.some(({ text }) => text.startsWith('Working floor 100 above'))).toBe(true);
  });

  it('are drawn for every kind that a run has, with their marks on plan and elevation and no text over another', async () => {
    const scene: Scene = {
      ...demoFrontBar,
      zones: [
        { kind: 'bay', name: 'Glasswasher', straight: 1, fromMm: 5_250, toMm: 5_950 },
        { kind: 'low', name: 'Low section', straight: 1, fromMm: 2_000, toMm: 3_200 },
      ],
    };
    for (const system of ['iso', 'us'] as const) {
      const issued = await issue(projectOf([scene, demoBackBar], 60), system);
      const titles = words(issued).filter((text) => /^Section .–.$/.test(text));
      expect(titles).toEqual(['Section S–S', 'Section T–T', 'Section U–U', 'Section V–V']);
      expect(issued.letters[0]!.filter(({ text }) => text === 'U').length).toBe(2);
      for (const own of issued.letters) expect(letterOverlaps(own)).toEqual([]);
    }
  });
});

describe('the title block', () => {
  it('says who owns, made and approved the drawing, its status and its revision', async () => {
    const issued = await issue(projectOf([demoBackBar], 60), 'us');
    for (const own of issued.letters)
      for (const text of ['Merrow Stainless Ltd', 'A. Person', 'B. Person', 'For tender', 'C'])
        expect(own.map((letter) => letter.text)).toContain(text);
  });
});
