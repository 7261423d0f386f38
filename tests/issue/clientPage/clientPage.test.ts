import { PDFDocument } from '@cantoo/pdf-lib';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { exportOffer, offerInput } from '../../../src/app/offerExport.ts';
import type { WantedWorkbook } from '../../../src/app/workbookExports.ts';
import { emptyHistory } from '../../../src/document/history.ts';
import { clientPagePdf } from '../../../src/issue/clientPage/clientPagePdf.ts';
import { isometricFaces, isometricPoint } from '../../../src/issue/clientPage/isometric.ts';
import type { PrismStack } from '../../../src/issue/clientPage/prism.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { edited } from '../../document/drawnDocument.ts';
import { demoBackBar, demoFrontBar } from '../elevation/elevationScenes.ts';
import { issueFont } from '../settingOut/blankPlan.ts';
import { letterOverlaps } from '../settingOut/letterOverlaps.ts';
import { type FittedProject, projectOf, randomProject } from '../settingOut/randomProject.ts';

let font: Uint8Array;
beforeAll(async () => {
  font = await issueFont();
});

const square = (x: number, y: number, side: number) => [
  { x, y },
  { x: x + side, y },
  { x: x + side, y: y + side },
  { x, y: y + side },
];
const block = (x: number, y: number, side = 100): PrismStack => ({
  footprint: square(x, y, side),
  prisms: [{ footprint: square(x, y, side), fromMm: 0, toMm: 100, look: 'body' }],
});

describe('the isometric picture', () => {
  it('shows lengths along the three axes at one scale and 120 degrees apart (ISO 5456-3, isometric)', () => {
    const origin = isometricPoint({ x: 0, y: 0 }, 0, 0);
    const axes = [
      isometricPoint({ x: 1, y: 0 }, 0, 0),
      isometricPoint({ x: 0, y: 1 }, 0, 0),
      isometricPoint({ x: 0, y: 0 }, 1, 0),
    ];
    const angles = axes.map(({ x, y }) => (Math.atan2(y - origin.y, x - origin.x) * 180) / Math.PI);
    for (const { x, y } of axes) expect(Math.hypot(x, y)).toBeCloseTo(1, 12);
    expect(angles[0]).toBeCloseTo(-30, 9);
    expect(angles[1]).toBeCloseTo(30, 9);
    expect(angles[2]).toBeCloseTo(90, 9);
  });

  it('draws of random rows and islands nothing nearer before what it hides: by the depth of every pair', () => {
    let seed = 7;
    const random = () => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed / 2_147_483_647;
    };
    for (let round = 0; round < campaignSize({ sample: 40, full: 1000 }); round += 1) {
      // Cells of a grid, so that none overlap; the viewer stands at large x and small y.
      const cells = Array.from({ length: 25 }, (_, index) => index).filter(() => random() < 0.5);
      const stacks = cells.map((cell) => block((cell % 5) * 100, Math.floor(cell / 5) * 100));
      const tops = isometricFaces(stacks, 0).filter(({ facing }) => facing === 'up');
      const orderOf = (stack: PrismStack) => {
        const corner = isometricPoint(stack.footprint[0]!, 100, 0);
        return tops.findIndex(
          ({ ring }) =>
            ring.some(({ x, y }) => Math.hypot(x - corner.x, y - corner.y) < 1e-6) &&
            ring.some(({ x, y }) => {
              const other = isometricPoint(stack.footprint[2]!, 100, 0);
              return Math.hypot(x - other.x, y - other.y) < 1e-6;
            }),
        );
      };
      for (const one of stacks)
        for (const other of stacks) {
          const right = one.footprint[0]!.x - other.footprint[0]!.x;
          const down = other.footprint[0]!.y - one.footprint[0]!.y;
          // `one` is nearer on both axes: it may hide `other` and is drawn later.
          if (right >= 0 && down >= 0 && right + down > 0)
            expect(orderOf(one)).toBeGreaterThan(orderOf(other));
        }
    }
  });
});

const wantedOf = (project: FittedProject, paper: 'a4' | 'letter' = 'a4'): WantedWorkbook => ({
  project: {
    projectId: 'project-1' as never,
    revision: 1,
    document: {
      ...project.document,
      job: { ...project.document.job, client: 'Harbour Rooms', site: 'Invented Quay 3', number: 'J-7' },
    },
    history: emptyHistory,
  },
  range: demoRange,
  at: '2027-03-15T08:00:00.000Z',
  paper,
});
const exported = (project: FittedProject, paper?: 'a4' | 'letter') =>
  exportOffer(wantedOf(project, paper), { font: async () => font });

/** All words of a PDF, as pdf.js reads them. */
const wordsOf = async (bytes: Uint8Array): Promise<string> => {
  const task = getDocument({ data: bytes.slice() });
  const pdf = await task.promise;
  const words: string[] = [];
  for (let page = 1; page <= pdf.numPages; page += 1) {
    const { items } = await (await pdf.getPage(page)).getTextContent();
    words.push(...items.map((item) => ('str' in item ? item.str : '')));
  }
  await task.destroy();
  return words.join(' ').replace(/\s+/g, ' ');
};

describe('the client’s page', () => {
  it('names the job, the total and the day until which it holds, as pdf.js reads it back', async () => {
    const { bytes } = await exported(projectOf([demoFrontBar, demoBackBar], 60));
    const text = await wordsOf(bytes);
    expect(text).toContain('Harbour Rooms');
    expect(text).toContain('holds until 2027-04-14');
    expect(text).toMatch(/Total without tax EUR [\d ]+\.\d\d/);
    expect(text).toContain('Accepted for the client');
    expect(text).not.toContain('Not in the total');
  });

  it('says by the total that it is not complete, and names the run and the station that are not in it', async () => {
    const project = projectOf([demoFrontBar, demoBackBar], 60);
    const [run] = Object.values(project.document.runs);
    const [first, second] = run!.frontLine;
    // Between two exposed ends nothing may be left over, and no stock piece is 1 mm wide.
    const exposed = { kind: 'exposed', giveInMm: 0, giveOutMm: 0 };
    const share = (key: 'x' | 'y') => first!.at[key] + (second!.at[key] - first!.at[key]) / 3.7;
    const document = edited(
      project.document,
      {
        type: 'add-run',
        run: {
          ...run,
          id: 'run-exposed',
          name: 'Snug bar',
          ends: [exposed, exposed],
          frontLine: [
            { ...first, id: 'vertex-exposed-1', treatment: null },
            { id: 'vertex-exposed-2', at: { x: share('x'), y: share('y') }, treatment: null },
          ],
        },
      },
      ...[1, 2].map((turn) => ({
        type: 'want-station',
        station: {
          id: `station-crowded-${turn}`,
          runId: run!.id,
          item: 'cocktail-station-1200',
          vertexId: first!.id,
          at: first!.at,
          withinMm: 0,
        },
      })),
    );
    const text = await wordsOf((await exported({ ...project, document })).bytes);
    expect(text).toMatch(/Total without tax, not complete EUR [\d ]+\.\d\d/);
    const missing = /Not in the total(.*?)Terms/.exec(text)?.[1] ?? '';
    expect(missing).toContain('Snug bar: ');
    expect(missing).toMatch(/Cocktail station 1200 has no place in it\./);
  });

  it('is the same to the last byte for the same input, on A4 and on Letter', async () => {
    const project = projectOf([demoFrontBar, demoBackBar], 60);
    const [one, other] = [await exported(project), await exported(project)];
    expect(Buffer.from(one.bytes).equals(Buffer.from(other.bytes))).toBe(true);
    const { width, height } = (await PDFDocument.load((await exported(project, 'letter')).bytes))
      .getPage(0)
      .getSize();
    expect([Math.round(width), Math.round(height)]).toEqual([612, 792]);
  });

  it('lays no text over another on random projects', async () => {
    const count = campaignSize({ sample: 6, full: 50 });
    const troubles: string[] = [];
    for (let seed = 1; seed <= count; seed += 1) {
      const { letters } = await clientPagePdf(offerInput(wantedOf(randomProject(seed))), {
        font,
        at: '2027-03-15T08:00:00.000Z',
        system: seed % 2 ? 'iso' : 'us',
      });
      for (const [page, own] of letters.entries())
        troubles.push(...letterOverlaps(own).map((found) => `seed ${seed}, page ${page + 1}: ${found}`));
    }
    expect(troubles).toEqual([]);
  });
});
