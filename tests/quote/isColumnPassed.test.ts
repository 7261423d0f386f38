import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { poseProblem } from '../../src/fitting/poseProblem.ts';
import { zonesOfRun } from '../../src/measure/zonesOfRun.ts';
import { frontStretches } from '../../src/quote/frontStretches.ts';
import { isColumnPassed } from '../../src/quote/isColumnPassed.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { type StockRange, stockRangeSchema } from '../../src/stock/stockSchema.ts';
import { addRun, at, documentAtFifty, edited } from '../document/drawnDocument.ts';

const scale = { ratio: 50, relativeUncertainty: 0, userUnit: 1 };

/** The demo's modules, and the same 450 deep, which stand in front of what takes up to 250 of 700. */
const range: StockRange = stockRangeSchema.parse({
  ...demoRange,
  items: [
    ...demoRange.items,
    ...demoRange.items
      .filter(({ kind }) => kind === 'module')
      .map((item) => ({
        ...item,
        id: `${item.id}-shallow`,
        name: `${item.name}, shallow`,
        depthMm: 450,
        price: 9000,
      })),
  ],
});

const column = (id: string, fromMm: number, toMm: number, columnDepthMm: number) => ({
  type: 'add-zone',
  zone: {
    id,
    runId: 'run-1',
    kind: 'blocked',
    name: 'Column',
    vertexId: 'vertex-1',
    a: at(fromMm),
    b: at(toMm),
    columnDepthMm,
  },
});

const document = edited(
  documentAtFifty,
  addRun([at(0), at(4800)], { allowances: { jointMm: 0, scribeMm: 0, endPanelMm: 0, claddingMm: 0 } }),
  // The later one in the list stands first on the straight, and is too deep for anything to pass it.
  column('zone-a', 2800, 3100, 250),
  column('zone-b', 1200, 1500, 400),
);

// Which column can be passed follows from the depths: 700 - 250 = 450 is left in front of the one, 300 of the other.
describe('columns that take only the back', () => {
  const posed = poseProblem(document, 'run-1' as never, range);
  if (!posed.ok) throw new Error(posed.message);
  const fit = fitRun(posed.problem, { alternatives: 1 }).alternatives[0];
  if (!fit) throw new Error('no fit');
  const zones = zonesOfRun(document, 'run-1' as never, scale);

  it('are passed by shallower pieces, and each is known by its own zone', () => {
    expect(zones.map((zone) => [zone.id, zone.column?.index, isColumnPassed(zone, fit)])).toEqual([
      ['zone-a', 1, true],
      ['zone-b', 0, false],
    ]);
    const inFront = fit.pieces.filter(({ fromMm, toMm }) => fromMm < 3100 && toMm > 2800);
    expect(inFront.length).toBeGreaterThan(0);
    for (const { item } of inFront) expect(item).toMatch(/-shallow$/);
  });

  it('let upstand and shelf run on in front, and stop them where they are not passed', () => {
    expect(frontStretches(posed.problem, fit).map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
      [0, 1200],
      [1500, 4800],
    ]);
  });
});
