import { Helper } from 'dxf';
import DxfParser, { type IInsertEntity, type ILineEntity, type ITextEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { architectLines, lineWithin } from '../../../src/issue/dxf/architectLines.ts';
import { architectOfPlans } from '../../../src/issue/dxf/architectOfPlans.ts';
import { dxfOfFloorPlan } from '../../../src/issue/dxf/dxfOfFloorPlan.ts';
import { writeDxf } from '../../../src/issue/dxf/writeDxf.ts';
import { floorPlans } from '../../../src/issue/settingOut/floorPlan.ts';
import { EMPTY_LINEWORK, type Linework, PATH_FLAG } from '../../../src/sheet/linework.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { demoBackBar, demoFrontBar } from '../elevation/elevationScenes.ts';
import { seeded } from '../elevation/randomScene.ts';
import { projectOf, projectSheetId } from '../settingOut/randomProject.ts';

const toleranceMm = 0.01;

/** A page with these lines, black, each a path of its own. */
const pageOf = (lines: readonly (readonly [number, number, number, number])[]): Linework => ({
  ...EMPTY_LINEWORK,
  lineCount: lines.length,
  pathCount: lines.length,
  lines: Float64Array.from(lines.flat()),
  linePath: Uint32Array.from(lines.map((_, index) => index)),
  pathFlags: Uint8Array.from(lines.map(() => PATH_FLAG.stroked)),
  pathWidth: Float32Array.from(lines.map(() => 1)),
  pathStroke: Uint32Array.from(lines.map(() => 0)),
  pathFill: Uint32Array.from(lines.map(() => 0xffffff)),
  pathLayer: Uint16Array.from(lines.map(() => 0xffff)),
});

const demo = projectOf([demoFrontBar, demoBackBar], 60);
const plansOf = (rotationDeg: number) =>
  floorPlans(demo.document, projectSheetId, {
    rotationDeg,
    range: demoRange,
    alternatives: demo.alternatives,
  });
const parsed = (text: string) => {
  const dxf = new DxfParser().parseSync(text);
  if (!dxf) throw new Error('not read');
  return dxf;
};

describe('the architect’s lines in the CAD file', () => {
  const [plan] = plansOf(0);
  const { x, y } = plan!.originPaper;
  const point = 72 / 25.4 / 50;
  /** 1 m right of datum 1A, from 500 mm below to 700 mm above it, at 1:50; and one far away. */
  const page = pageOf([
    [x + 1000 * point, y - 500 * point, x + 1000 * point, y + 700 * point],
    [x - 90_000 * point, y, x - 80_000 * point, y],
    [x - 50_000 * point, y + 200 * point, x + 50_000 * point, y + 200 * point],
  ]);

  it('stand at true size where they lie about the runs, in two readers', () => {
    const plans = plansOf(0);
    const { polylines } = architectOfPlans(plans, plans[0]!, page, 0);
    const text = writeDxf(dxfOfFloorPlan(plans[0]!, [], polylines));
    const own = parsed(text).entities.filter(({ layer }) => layer === 'ARCH-PLAN') as ILineEntity[];
    expect(own.length).toBe(2);
    const [from, to] = own[0]!.vertices;
    for (const [found, wanted] of [
      [from!.x, 1000],
      [from!.y, -500],
      [to!.x, 1000],
      [to!.y, 700],
    ] as const)
      expect(Math.abs(found - wanted)).toBeLessThanOrEqual(toleranceMm);
    const second = new Helper(text)
      .toPolylines()
      .polylines.filter(({ layer }) => layer?.name === 'ARCH-PLAN')
      .map(({ vertices }) =>
        Math.hypot(vertices[1]![0] - vertices[0]![0], vertices[1]![1] - vertices[0]![1]),
      );
    expect(Math.abs(second[0]! - 1200)).toBeLessThanOrEqual(toleranceMm);
    // The long line is cut off 3 m beyond the runs at both sides.
    expect(second[1]!).toBeLessThan(20_000);
  });

  it('turn with the page, as the runs do', () => {
    const plans = plansOf(90);
    const { polylines } = architectOfPlans(plans, plans[0]!, page, 90);
    // A page shown a quarter turn clockwise: what lay 1 m to the right of the datum lies 1 m below it.
    for (const { y: height } of polylines[0]!)
      expect(Math.abs(height + 1000)).toBeLessThanOrEqual(toleranceMm);
  });

  it('keeps the longest where there are too many, and says how many it left out', () => {
    const lines = Array.from({ length: 50 }, (_, index) => [0, index, index + 1, index] as const);
    const box = { minX: -1, minY: -1, maxX: 1000, maxY: 1000 };
    const { polylines, leftOut } = architectLines(pageOf(lines), (at) => at, box, 10);
    expect(polylines.length).toBe(10);
    expect(leftOut).toBe(40);
    expect(Math.min(...polylines.map(([one, other]) => other!.x - one!.x))).toBe(41);
  });

  it('cuts a line off at a box as walking along it in small steps does', () => {
    const random = seeded(5);
    const box = { minX: 0, minY: 0, maxX: 10, maxY: 6 };
    for (let round = 0; round < 500; round += 1) {
      const place = () => ({ x: random() * 20 - 5, y: random() * 14 - 4 });
      const [from, to] = [place(), place()];
      const steps = Array.from({ length: 2001 }, (_, step) => step / 2000).filter((share) => {
        const x = from.x + (to.x - from.x) * share;
        const y = from.y + (to.y - from.y) * share;
        return x >= box.minX && x <= box.maxX && y >= box.minY && y <= box.maxY;
      });
      const within = lineWithin(from, to, box);
      const length = Math.hypot(to.x - from.x, to.y - from.y);
      const walked = steps.length === 0 ? 0 : (steps.at(-1)! - steps[0]!) * length;
      const cut = within ? Math.hypot(within[1].x - within[0].x, within[1].y - within[0].y) : 0;
      expect(Math.abs(cut - walked)).toBeLessThanOrEqual(length / 900);
    }
  });
});

describe('services in the CAD file', () => {
  const [plan] = plansOf(0);
  const text = writeDxf(dxfOfFloorPlan(plan!, []));
  const dxf = parsed(text);

  it('are blocks on their trade’s layer, one block for each kind, with what the trade has to know', () => {
    const inserts = (dxf.entities.filter(({ type }) => type === 'INSERT') as IInsertEntity[]).filter(
      ({ layer }) => layer.startsWith('SERV-'),
    );
    expect(new Set(inserts.map(({ layer }) => layer))).toEqual(
      new Set(['SERV-PLUMBING', 'SERV-DISPENSE', 'SERV-ELECTRICAL']),
    );
    // From the stock range: each service of each placed item is there once.
    const wanted = [...demo.alternatives.values()].flatMap(({ pieces }) =>
      pieces.flatMap(({ item }) => demoRange.items.find(({ id }) => id === item)?.services ?? []),
    );
    expect(inserts.length).toBe(wanted.length);
    const attributes = new Helper(text).parsed.entities.filter(
      ({ type }) => type === 'ATTRIB',
    ) as unknown as {
      readonly tag: string;
      readonly text?: { readonly string: string };
    }[];
    for (const tag of ['CONNECTION', 'HEIGHT_MM', 'DATUM', 'ALONG_MM', 'FOR'])
      expect(attributes.filter((one) => one.tag === tag).length).toBe(wanted.length);
  });

  it('stand at their distance from the datum and at the middle of the services gap', () => {
    const datumAt = new Map(
      (dxf.entities.filter(({ type }) => type === 'TEXT') as ITextEntity[])
        .filter(({ layer }) => layer === 'SET-DATUMS')
        .map(({ text: name }, index) => [
          name,
          (
            dxf.entities.filter(
              ({ layer, type }) => layer === 'SET-DATUMS' && type === 'CIRCLE',
            ) as unknown as {
              center: { x: number; y: number };
            }[]
          )[index]!.center,
        ]),
    );
    const inserts = (dxf.entities.filter(({ type }) => type === 'INSERT') as IInsertEntity[]).filter(
      ({ layer }) => layer.startsWith('SERV-'),
    );
    let checked = 0;
    for (const service of plan!.runs.flatMap(({ services }) => services)) {
      const straight = plan!.runs
        .flatMap(({ straights }) => straights)
        .find(({ index }) => index === service.straight)!;
      const datum = datumAt.get(straight.datum)!;
      // Half the gap of 150 behind the front line, and so far along it: Pythagoras.
      const wanted = Math.hypot(service.alongMm, 75);
      expect(
        inserts.some(
          ({ position }) =>
            Math.abs(Math.hypot(position.x - datum.x, position.y - datum.y) - wanted) <= toleranceMm,
        ),
        service.tag,
      ).toBe(true);
      checked += 1;
    }
    expect(checked).toBeGreaterThan(5);
  });
});
