import { Helper } from 'dxf';
import DxfParser, {
  type IDimensionEntity,
  type IInsertEntity,
  type ILwpolylineEntity,
  type ITextEntity,
} from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import type { RunId } from '../../../src/document/ids.ts';
import { dxfOfFloorPlan } from '../../../src/issue/dxf/dxfOfFloorPlan.ts';
import { dxfText } from '../../../src/issue/dxf/dxfTags.ts';
import { writeDxf } from '../../../src/issue/dxf/writeDxf.ts';
import { floorPlans } from '../../../src/issue/settingOut/floorPlan.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { demoBackBar, demoFrontBar } from '../elevation/elevationScenes.ts';
import { type FittedProject, projectOf, projectSheetId, randomProject } from '../settingOut/randomProject.ts';

/**
 * The file is read back by two readers that had no part in writing it: dxf-parser 1.1.2 and dxf 5.3.1 (both MIT). It was
 * also read once with ezdxf 1.4.4, whose audit found nothing to mend.
 */
const toleranceMm = 0.01;
const fileOf = ({ document, alternatives }: FittedProject, rotationDeg = 0): string => {
  const [plan] = floorPlans(document, projectSheetId, {
    rotationDeg,
    range: demoRange,
    alternatives,
  });
  if (!plan) throw new Error('a project has a plan');
  return writeDxf(dxfOfFloorPlan(plan, ['Notes: 1:50 ± 0.2 %']));
};
const parsed = (text: string) => {
  const dxf = new DxfParser().parseSync(text);
  if (!dxf) throw new Error('not read');
  return dxf;
};
const ofType = <Entity>(dxf: ReturnType<typeof parsed>, type: string): readonly Entity[] =>
  dxf.entities.filter((entity) => entity.type === type) as unknown as readonly Entity[];
const distance = (a: { x: number; y: number }, b: { x: number; y: number }) =>
  Math.hypot(b.x - a.x, b.y - a.y);

const demo = projectOf([demoFrontBar, demoBackBar], 60);

/** From the stock range: the width that a piece must have, whatever was drawn. */
const stockWidths = ({ alternatives }: FittedProject): readonly number[] =>
  [...alternatives.values()]
    .flatMap(({ pieces }) =>
      pieces.map(({ item }) => demoRange.items.find(({ id }) => id === item)?.widthMm ?? Number.NaN),
    )
    .sort((one, other) => one - other);

const widthsByParser = (text: string): readonly number[] => {
  const dxf = parsed(text);
  return ofType<IInsertEntity>(dxf, 'INSERT')
    .filter(({ layer }) => layer === 'BAR-MODULES' || layer === 'BAR-STATIONS')
    .map(({ name }) => {
      const outline = dxf.blocks[name]?.entities.find(
        ({ type }) => type === 'LWPOLYLINE',
      ) as unknown as ILwpolylineEntity;
      return distance(outline.vertices[0]!, outline.vertices[1]!);
    })
    .sort((one, other) => one - other);
};
const widthsBySecond = (text: string): readonly number[] =>
  new Helper(text)
    .toPolylines()
    .polylines.filter(
      ({ layer, vertices }) =>
        vertices.length >= 4 && (layer?.name === 'BAR-MODULES' || layer?.name === 'BAR-STATIONS'),
    )
    .map(({ vertices }) => Math.hypot(vertices[1]![0] - vertices[0]![0], vertices[1]![1] - vertices[0]![1]))
    .sort((one, other) => one - other);

const expectClose = (found: readonly number[], wanted: readonly number[]): void => {
  expect(found.length).toBe(wanted.length);
  for (const [index, width] of wanted.entries())
    expect(Math.abs((found[index] ?? Number.NaN) - width)).toBeLessThanOrEqual(toleranceMm);
};

describe('the CAD file', () => {
  it('is in millimetres ($INSUNITS 4, Autodesk help), of a version that holds UTF-8 text', () => {
    const dxf = parsed(fileOf(demo));
    expect(dxf.header.$INSUNITS).toBe(4);
    expect(dxf.header.$ACADVER).toBe('AC1021');
    expect(new Helper(fileOf(demo)).parsed.header.insUnits).toBe(4);
  });

  it('holds every piece as wide as the stock range says, within 0.01 mm, in two readers', () => {
    const text = fileOf(demo);
    expect(stockWidths(demo).length).toBeGreaterThan(8);
    expectClose(widthsByParser(text), stockWidths(demo));
    expectClose(widthsBySecond(text), stockWidths(demo));
  });

  it('keeps the widths and the chains’ sums on random projects, whichever way the page is turned', () => {
    const count = campaignSize({ sample: 12, full: 400 });
    for (let seed = 1; seed <= count; seed += 1) {
      const project = randomProject(seed);
      const text = fileOf(project, [0, 90, 180, 270][seed % 4]);
      expectClose(widthsByParser(text), stockWidths(project));
      expectClose(widthsBySecond(text), stockWidths(project));
      const dimensions = ofType<IDimensionEntity>(parsed(text), 'DIMENSION');
      for (const {
        linearOrAngularPoint1: from,
        linearOrAngularPoint2: to,
        actualMeasurement,
        text: figure,
      } of dimensions) {
        expect(Math.abs(actualMeasurement - distance(from, to)), `seed ${seed}`).toBeLessThanOrEqual(
          toleranceMm,
        );
        // The figure says what the dimension measures, to the tenth of a millimetre that it is written to.
        expect(Math.abs(Number.parseFloat(figure) - actualMeasurement), `seed ${seed}`).toBeLessThanOrEqual(
          0.0501,
        );
      }
      const chained = dimensions.filter(({ text: figure }) => !figure.includes('±'));
      const totals = dimensions.filter(({ text: figure }) => figure.includes('±'));
      const straights = Object.values(project.document.runs).reduce(
        (sum, run) => sum + run.frontLine.length - 1,
        0,
      );
      expect(totals.length).toBe(straights);
      // What reaches beyond the traced front (an end that moved out, a through piece) is in the chain, not in the total.
      const sum = chained.reduce((all, { actualMeasurement }) => all + actualMeasurement, 0);
      const total = totals.reduce((all, { actualMeasurement }) => all + actualMeasurement, 0);
      expect(sum).toBeGreaterThanOrEqual(total - 0.05);
    }
  });

  it('sets every piece out at its distance from the datum of its straight', () => {
    const dxf = parsed(fileOf(demo));
    const inserts = ofType<IInsertEntity>(dxf, 'INSERT');
    const datums = new Map(
      ofType<ITextEntity>(dxf, 'TEXT')
        .filter(({ layer, text }) => layer === 'SET-DATUMS' && /^\d+[A-Z]+$/.test(text))
        .map(({ text }, index) => [
          text,
          ofType<{ layer: string; center: { x: number; y: number } }>(dxf, 'CIRCLE').filter(
            ({ layer }) => layer === 'SET-DATUMS',
          )[index]!.center,
        ]),
    );
    expect(datums.get('1A')).toMatchObject({ x: 0, y: 0 });
    // The demo plan is drawn at exactly 1:50, so that its traced front is known without measuring.
    const [first, corner] = demoFrontBar.frontLine;
    const legMm = distance(first!, corner!) * (25.4 / 72) * 50;
    expect(Math.abs(distance(datums.get('1A')!, datums.get('1B')!) - legMm)).toBeLessThanOrEqual(toleranceMm);
    const pieces = demo.alternatives
      .get('run-1' as RunId)!
      .pieces.filter(({ straight, host }) => straight === 1 && host === undefined);
    for (const { fromMm, toMm } of pieces) {
      const near = inserts.some(({ position }) =>
        [fromMm, toMm].some(
          (alongMm) => Math.abs(distance(datums.get('1B')!, position) - alongMm) <= toleranceMm,
        ),
      );
      expect(near, `a block from ${fromMm} to ${toMm}`).toBe(true);
    }
  });

  it('gives each piece its mark, item, name, width and depth as attributes, one block for each item', () => {
    const text = fileOf(demo);
    const inserts = new Helper(text).parsed.entities.filter(
      ({ type, layer }) => type === 'INSERT' && String(layer).startsWith('BAR-'),
    );
    const tags = new Helper(text).parsed.entities
      .filter(({ type }) => type === 'ATTRIB')
      .map(({ tag }) => tag);
    expect(tags.filter((tag) => tag === 'MARK').length).toBe(inserts.length);
    for (const tag of ['WIDTH_MM', 'ITEM', 'NAME', 'DEPTH_MM']) expect(tags).toContain(tag);
    const blocks = new Set(inserts.map(({ block }) => block));
    expect(blocks.size).toBeLessThan(inserts.length);
  });

  it('puts everything on a named layer of its table', () => {
    const dxf = parsed(fileOf(demo));
    const layers = Object.keys(dxf.tables.layer.layers);
    for (const { layer } of dxf.entities) expect(layers).toContain(layer);
  });

  it('writes each handle once', () => {
    const pairs = fileOf(demo).split('\r\n');
    const handles: string[] = [];
    let isHeader = false;
    for (let index = 0; index + 1 < pairs.length; index += 2) {
      const [code, value] = [pairs[index]!.trim(), pairs[index + 1]!];
      if (code === '2' && value === 'HEADER') isHeader = true;
      if (code === '0' && value === 'ENDSEC') isHeader = false;
      if ((code === '5' || code === '105') && !isHeader) handles.push(value);
    }
    expect(handles.length).toBeGreaterThan(100);
    expect(new Set(handles).size).toBe(handles.length);
  });

  it('keeps names from being taken for control codes', () => {
    expect(dxfText('50%%d\nnext ^J \\P end')).toBe('50% %d next ^ J /P end');
    expect(dxfText('6 248 mm')).toBe('6 248 mm');
  });
});
