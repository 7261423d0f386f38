import DxfParser, { type IArcEntity, type IInsertEntity, type ILwpolylineEntity } from 'dxf-parser';
import { beforeAll, describe, expect, it } from 'vitest';
import type { RunId } from '../../src/document/ids.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { dxfOfFloorPlan } from '../../src/issue/dxf/dxfOfFloorPlan.ts';
import { writeDxf } from '../../src/issue/dxf/writeDxf.ts';
import { elevationOfRun } from '../../src/issue/elevation/elevationOfRun.ts';
import { floorPlans } from '../../src/issue/settingOut/floorPlan.ts';
import { settingOutPdf } from '../../src/issue/settingOut/settingOutPdf.ts';
import { scaleOfSheet } from '../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { frontThrough, type Scene } from './elevation/elevationScenes.ts';
import { seeded } from './elevation/randomScene.ts';
import { blankPlan, issueFont } from './settingOut/blankPlan.ts';
import { letterOverlaps } from './settingOut/letterOverlaps.ts';
import { type FittedProject, projectOf, projectSheetId } from './settingOut/randomProject.ts';

const runId = 'run-1' as RunId;

/** A straight, an arc that goes on without a turn, a straight; the back on the side of the centre or away from it. */
const curvedScene = (radiusMm: number, sweepDeg: number, backSide: 'left' | 'right' = 'left'): Scene => {
  const sweep = (sweepDeg * Math.PI) / 180;
  const on = (angle: number) =>
    [4500 + radiusMm * Math.sin(angle), radiusMm * (1 - Math.cos(angle))] as const;
  const [endX, endY] = on(sweep);
  const [, , bend] = frontThrough([4500, 0], on(sweep / 2));
  return {
    name: 'Curved bar',
    backSide,
    depthMm: 620,
    frontLine: frontThrough(
      [4500, 0],
      [endX, endY],
      [endX + 3600 * Math.cos(sweep), endY + 3600 * Math.sin(sweep)],
    ),
    bends: [undefined, paperPoint(bend!.x, bend!.y)],
    ends: ['wall', 'wall'],
  };
};

const radiusMm = 3200;
const project = projectOf([curvedScene(radiusMm, 90)], 60);
const planOf = ({ document, alternatives }: FittedProject) =>
  floorPlans(document, projectSheetId, { rotationDeg: 0, range: demoRange, alternatives })[0]!;

let plan: Uint8Array;
let font: Uint8Array;
beforeAll(async () => {
  plan = await blankPlan();
  font = await issueFont();
});

describe('a curved bar in the CAD file, read back by dxf-parser', () => {
  const dxf = new DxfParser().parseSync(writeDxf(dxfOfFloorPlan(planOf(project), [])))!;

  it('has its front and its back as true arcs about one centre, a depth apart', () => {
    const arcs = dxf.entities.filter(({ type }) => type === 'ARC') as unknown as readonly IArcEntity[];
    expect(arcs.map(({ radius }) => Math.round(radius * 100) / 100).sort((a, b) => a - b)).toEqual([
      radiusMm - 620,
      radiusMm,
    ]);
    const [one, other] = arcs;
    expect(one!.center.x).toBeCloseTo(other!.center.x, 2);
    expect(one!.center.y).toBeCloseTo(other!.center.y, 2);
    // A quarter of a circle, anticlockwise from the first angle to the second.
    for (const { startAngle, endAngle } of arcs)
      expect((endAngle - startAngle + 2 * Math.PI) % (2 * Math.PI)).toBeCloseTo(Math.PI / 2, 4);
  });

  it('has its modules as straight blocks of their stock width', () => {
    const widths = (dxf.entities as unknown as readonly IInsertEntity[])
      .filter(({ type, layer }) => type === 'INSERT' && layer === 'BAR-MODULES')
      .map(({ name }) => {
        const outline = dxf.blocks[name]!.entities.find(({ type }) => type === 'LWPOLYLINE');
        const [a, b] = (outline as unknown as ILwpolylineEntity).vertices;
        return Math.hypot(b!.x - a!.x, b!.y - a!.y);
      });
    const stock = new Set(demoRange.items.map(({ widthMm }) => widthMm));
    expect(widths.length).toBeGreaterThan(5);
    for (const width of widths) expect(stock.has(Math.round(width * 1000) / 1000)).toBe(true);
  });
});

describe('a curved bar on the setting-out drawing', () => {
  it('is dimensioned along its chord: the figures add up to it', () => {
    const [run] = planOf(project).runs;
    const arc = run!.straights[1]!;
    // Chord c = 2 r sin(angle / 2).
    expect(arc.lengthMm).toBeCloseTo(radiusMm * Math.SQRT2, 3);
    const sum = arc.spans.reduce((total, { fromMm, toMm }) => total + toMm - fromMm, 0);
    expect(sum).toBeCloseTo(arc.lengthMm, 3);
    expect(arc.bend!.arcMm).toBeCloseTo((radiusMm * Math.PI) / 2, 3);
  });

  it('lays no text over another, whatever the radius and the side of the back', async () => {
    const troubles: string[] = [];
    for (let seed = 1; seed <= 8; seed += 1) {
      const random = seeded(seed + 5);
      const scene = curvedScene(
        1800 + random() * 5000,
        30 + random() * 110,
        random() < 0.5 ? 'left' : 'right',
      );
      const { document, alternatives } = projectOf([scene], 60);
      const answer = await settingOutPdf(
        { bytes: plan },
        {
          document,
          sheet: document.sheets[projectSheetId]!,
          scale: scaleOfSheet(document, projectSheetId)!,
          range: demoRange,
          alternatives,
        },
        { font, at: '2027-03-15T08:00:00.000Z', system: 'iso' },
      );
      if (!answer.ok) throw new Error(answer.message);
      for (const [sheet, own] of answer.letters.entries())
        for (const overlap of letterOverlaps(own))
          troubles.push(`seed ${seed} sheet ${sheet + 1}: ${overlap}`);
    }
    expect(troubles).toEqual([]);
  }, 120_000);
});

describe('a curved bar in the developed elevation', () => {
  const { document, alternatives } = project;
  const alternative = alternatives.get(runId)!;
  const drawing = elevationOfRun(document, runId, {
    range: demoRange,
    unit: 'mm',
    problem: null,
    alternative,
  })!;

  it('is as long as its front: straights and arc one beside the other', () => {
    const links = drawing.chains.at(-1)!.links;
    const long = Math.max(...links.map(({ toMm }) => toMm)) - Math.min(...links.map(({ fromMm }) => fromMm));
    expect(long).toBeCloseTo(4500 + (Math.PI / 2) * radiusMm + 3600, 1);
  });

  it('names the arc and can point at every wedge', () => {
    expect(drawing.callouts.map(({ text }) => text).join(' ')).toMatch(/arc R 3.200, 90\.0°/);
    const wedges = drawing.parts.filter(({ part }) => part.startsWith('wedge:'));
    expect(wedges).toHaveLength(alternative.wedges!.length);
  });

  it('writes the width of each module, not what it takes of the arc', () => {
    const texts = drawing.chains[0]!.links.map(({ text }) => text.replaceAll(/\D/g, ''));
    for (const piece of alternative.pieces) if (piece.widthMm) expect(texts).toContain(String(piece.widthMm));
  });
});
