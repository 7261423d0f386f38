import { describe, expect, it } from 'vitest';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { poseProblem } from '../../src/fitting/poseProblem.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import {
  addRun,
  at,
  bareDocument,
  documentAtFifty,
  documentWithSheet,
  edited,
} from '../document/drawnDocument.ts';

const runId = 'run-1';

/** A run through points of the room, in mm. */
const runThrough = (points: readonly (readonly [xMm: number, yMm: number])[], changes: object = {}) =>
  addRun(
    points.map(([xMm, yMm]) => at(xMm, yMm)),
    changes,
  );
const straightRun = edited(
  documentAtFifty,
  runThrough([
    [0, 0],
    [6248, 0],
  ]),
);
const posedOf = (document: ProjectDocument, range = demoRange) => {
  const posed = poseProblem(document, runId as never, range);
  if (!posed.ok) throw new Error(`${posed.code}: ${posed.message}`);
  return posed;
};

describe('the problem that a run poses', () => {
  it('has the length that the scale makes of the traced line, in whole micrometres', () => {
    const { problem } = posedOf(straightRun);
    expect(problem.straights[0]?.lengthMm).toBe(6248);
    expect(problem.depthMm).toBe(700);
    expect(problem.allowances).toEqual(demoRange.allowances);
    expect(problem.fillerMaxMm).toBe(demoRange.fillers.maxMm);
  });

  it('answers as the worked example of the design does: 2 400 + 2 400 + 1 200 and 248 at two walls', () => {
    const bare = edited(straightRun, {
      type: 'change-run',
      runId,
      changes: { allowances: { jointMm: 0, scribeMm: 0, endPanelMm: 0, claddingMm: 0 } },
    });
    // Without prices the widest pieces come first, as in the example.
    const unpriced = { ...demoRange, items: demoRange.items.map(({ price: _, ...item }) => item) };
    const [best] = fitRun(posedOf(bare, unpriced).problem).alternatives;
    expect(best?.pieces.map(({ item }) => item)).toEqual(['module-2400', 'module-2400', 'module-1200']);
    expect(best?.leftovers.map(({ widthMm }) => widthMm)).toEqual([124, 124]);
  });

  it('lays zones and wanted stations where they are drawn, along the straight that they are on', () => {
    const document = edited(
      documentAtFifty,
      runThrough([
        [0, 0],
        [4000, 0],
        [4000, 3000],
      ]),
      {
        type: 'add-zone',
        zone: {
          id: 'zone-1',
          runId,
          kind: 'opening',
          name: 'Flap',
          vertexId: 'vertex-2',
          a: at(4000, 2000),
          b: at(4000, 1200),
        },
      },
      {
        type: 'want-station',
        station: {
          id: 'station-1',
          runId,
          item: 'beer-station-600',
          vertexId: 'vertex-1',
          at: at(1750, 40),
          withinMm: 300,
        },
      },
      { type: 'pin-corner', runId, vertexId: 'vertex-2', treatment: 'corner-unit' },
    );
    const { problem } = posedOf(document);
    expect(problem.straights.map(({ lengthMm }) => lengthMm)).toEqual([4000, 3000]);
    expect(problem.straights[1]?.openings).toEqual([[1200, 2000]]);
    expect(problem.straights[0]?.openings).toEqual([]);
    expect(problem.wanted).toEqual([
      { id: 'station-1', item: 'beer-station-600', straight: 0, nearMm: 1750, withinMm: 300 },
    ]);
    expect(problem.corners).toMatchObject([{ treatment: 'corner-unit' }]);
    expect(Math.abs(problem.corners?.[0]?.turnDeg ?? 0)).toBeCloseTo(90, 9);
  });

  it('takes the range that it is given: another version poses another problem, under another key', () => {
    const dearer = {
      ...demoRange,
      version: 2,
      items: demoRange.items.map((item) => (item.id === 'module-900' ? { ...item, price: 999 } : item)),
    };
    expect(posedOf(straightRun, dearer).key).not.toBe(posedOf(straightRun).key);
    expect(posedOf(straightRun, { ...demoRange, version: 2 }).key).toBe(posedOf(straightRun).key);
  });

  it('carries the range’s rules of what stands beside what, and what keeps clear of what', () => {
    const ruled = {
      ...demoRange,
      items: demoRange.items.map((item) =>
        item.id === 'glass-rinser'
          ? { ...item, clearOf: [{ item: 'hand-basin-11l', distanceMm: 1500 }] }
          : item.id === 'blender-station-400'
            ? { ...item, beside: ['basket-unit-650'] }
            : item,
      ),
    };
    const wants = [
      ['glass-rinser', 2000],
      ['hand-basin-11l', 2600],
    ].map(([item, place], index) => ({
      type: 'want-station',
      station: {
        id: `station-${index}`,
        runId,
        item,
        vertexId: 'vertex-1',
        at: at(Number(place), 0),
        withinMm: 1500,
      },
    }));
    const { problem } = posedOf(edited(straightRun, ...wants), ruled);
    expect(problem.stock.find(({ id }) => id === 'blender-station-400')?.beside).toEqual(['basket-unit-650']);
    const [best] = fitRun(problem).alternatives;
    const rinser = best?.pieces.find(({ item }) => item === 'glass-rinser');
    const basin = best?.pieces.find(({ item }) => item === 'hand-basin-11l');
    if (!rinser || !basin) throw new Error('a station is left out');
    expect(Math.max(basin.fromMm - rinser.toMm, rinser.fromMm - basin.toMm)).toBeGreaterThanOrEqual(1500);
  });

  it('is the same for the same project, whatever the order in which stations were wanted', () => {
    const wants = ['station-1', 'station-2'].map((id, index) => ({
      type: 'want-station',
      station: {
        id,
        runId,
        item: 'glass-rinser',
        vertexId: 'vertex-1',
        at: at(1000 + 2000 * index, 0),
        withinMm: 600,
      },
    }));
    const one = edited(straightRun, ...wants);
    const other = edited(straightRun, ...wants.toReversed());
    expect(posedOf(one).key).toBe(posedOf(other).key);
  });

  it('names the order that was asked for in its key, because it is part of the answer', () => {
    const cheap = edited(straightRun, { type: 'change-run', runId, changes: { order: 'price' } });
    expect(posedOf(cheap).order).toBe('price');
    expect(posedOf(cheap).key).not.toBe(posedOf(straightRun).key);
  });

  it.each([
    ['run-missing', bareDocument],
    [
      'scale-missing',
      edited(
        documentWithSheet,
        runThrough([
          [0, 0],
          [3000, 0],
        ]),
      ),
    ],
    [
      'run-deeper-than-its-straight',
      edited(
        documentAtFifty,
        runThrough(
          [
            [0, 0],
            [3000, 0],
            [3000, 300],
            [6000, 300],
          ],
          { depthMm: 4000 },
        ),
      ),
    ],
    [
      'station-not-in-range',
      edited(straightRun, {
        type: 'want-station',
        station: {
          id: 'station-1',
          runId,
          item: 'no-such-station',
          vertexId: 'vertex-1',
          at: at(100, 0),
          withinMm: 100,
        },
      }),
    ],
  ])('is refused as %s, with a sentence that says what to do', (code, document) => {
    const posed = poseProblem(document, runId as never, demoRange);
    expect(posed).toMatchObject({ ok: false, code });
    expect(posed.ok ? '' : posed.message).toMatch(/\w+ \w+ \w+.*\.$/);
  });

  it('takes a length measured on site in place of the drawing’s; what is marked keeps its width and its share of what is free', () => {
    const { problem } = posedOf(
      edited(
        straightRun,
        {
          type: 'add-zone',
          zone: {
            id: 'zone-1',
            runId,
            kind: 'opening',
            name: 'Flap',
            vertexId: 'vertex-1',
            a: at(3124, 0),
            b: at(4124, 0),
          },
        },
        {
          type: 'measure-on-site',
          runId,
          vertexId: 'vertex-1',
          siteMeasure: {
            lengthMm: 6200,
            plusMinusMm: 2,
            measuredBy: 'Ines Holt',
            measuredOn: '2027-03-01',
          },
        },
      ),
    );
    expect(problem.straights[0]).toMatchObject({ lengthMm: 6200, uncertaintyMm: 2 });
    // Of 6 248, 5 248 is free beside the opening of 1 000; of 6 200, 5 200: each free length by 5 200 / 5 248.
    const [[fromMm, toMm]] = problem.straights[0]!.openings as [[number, number]];
    expect(fromMm).toBeCloseTo((3124 * 5200) / 5248, 3);
    expect(toMm - fromMm).toBeCloseTo(1000, 3);
  });

  it('passes on an end that meets another run, and asks for symmetry about a wanted station', () => {
    const { problem } = posedOf(
      edited(
        straightRun,
        {
          type: 'want-station',
          station: {
            id: 'station-1',
            runId,
            item: demoRange.items.find(({ kind, support }) => kind === 'station' && support === 'standing')!
              .id,
            vertexId: 'vertex-1',
            at: at(3124, 0),
            withinMm: 500,
          },
        },
        {
          type: 'change-run',
          runId,
          changes: {
            ends: [
              { kind: 'meets', giveInMm: 0, giveOutMm: 0 },
              { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
            ],
            symmetrical: [{ vertexId: 'vertex-1', aboutStationId: 'station-1' }],
          },
        },
      ),
    );
    expect(problem.ends[0].kind).toBe('meets');
    expect(problem.symmetrical).toEqual([{ straight: 0, about: 'station-1' }]);
  });
});

describe('what a kept fit is known by', () => {
  it('says nothing of made-to-measure prices and empty lists, so that a fit kept before they were posed holds', () => {
    const { key, problem } = posedOf(straightRun);
    expect(problem.madeToMeasure).toBeDefined();
    expect(key).not.toMatch(/madeToMeasure|"bays"|"columns"/);
    const dearer = { ...demoRange, madeToMeasure: { ...demoRange.madeToMeasure, price: 9000 } };
    expect(posedOf(straightRun, dearer).key).toBe(key);
  });

  it('says what a bay keeps free', () => {
    const bay = {
      id: 'zone-9',
      runId,
      kind: 'bay',
      name: 'Cooler',
      vertexId: 'vertex-1',
      a: at(1000, 0),
      b: at(1600, 0),
    };
    const { key } = posedOf(edited(straightRun, { type: 'add-zone', zone: bay }));
    expect(key).toContain('"bays":[{"fromMm":1000,"id":"zone-9","toMm":1600}]');
  });
});

describe('a run with an arc', () => {
  const radiusMm = 3200;
  const half = radiusMm * Math.SQRT1_2;
  const points = [
    [0, 0],
    [4000, 0],
    [4000 + radiusMm, radiusMm],
    [4000 + radiusMm, radiusMm + 3000],
  ] as const;
  const bend = {
    type: 'bend-straight',
    runId,
    vertexId: 'vertex-2',
    through: at(4000 + half, radiusMm - half),
  };
  const pose = (...commands: readonly unknown[]) =>
    poseProblem(edited(documentAtFifty, runThrough(points), bend, ...commands), runId as never, demoRange);

  it('poses its length along the arc, its radius, plain joints and how far a top may overhang', () => {
    const posed = pose();
    if (!posed.ok) throw new Error(posed.message);
    const { straights, corners, overhangMaxMm } = posed.problem;
    // A quarter of the circumference.
    expect(straights[1]!.lengthMm).toBeCloseTo((Math.PI / 2) * radiusMm, 3);
    expect(straights[1]!.arc).toEqual({ radiusMm, front: 'outside' });
    expect(straights[0]!.arc).toBeUndefined();
    expect(corners!.map(({ turnDeg }) => turnDeg)).toEqual([0, 0]);
    expect(overhangMaxMm).toBeGreaterThan(0);
  });

  it('forgets a pin on a corner that is none any more', () => {
    const posed = pose({ type: 'pin-corner', runId, vertexId: 'vertex-2', treatment: 'corner-unit' });
    expect(posed.ok && posed.problem.corners![0]!.treatment).toBeUndefined();
  });

  it('puts a wanted station at its place along the arc', () => {
    const angle = 0.7;
    const posed = pose({
      type: 'want-station',
      station: {
        id: 'station-1',
        runId,
        item: demoRange.items.find(({ kind, support }) => kind === 'station' && support === 'standing')!.id,
        vertexId: 'vertex-2',
        at: at(4000 + radiusMm * Math.sin(angle), radiusMm * (1 - Math.cos(angle))),
        withinMm: 300,
      },
    });
    if (!posed.ok) throw new Error(posed.message);
    expect(posed.problem.wanted![0]!.nearMm).toBeCloseTo(angle * radiusMm, 2);
  });

  it('is refused in words where the bar is deeper than its radius', () => {
    const posed = pose({ type: 'change-run', runId, changes: { depthMm: 3300 } });
    expect(posed).toMatchObject({ ok: false, code: 'run-bend-too-tight' });
  });

  it('changes nothing in what a run without an arc poses', () => {
    const posed = poseProblem(straightRun, runId as never, demoRange);
    expect(posed.ok && 'overhangMaxMm' in posed.problem).toBe(false);
  });
});
