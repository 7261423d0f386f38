import { describe, expect, it } from 'vitest';
import type { RunId, ZoneId } from '../../../src/document/ids.ts';
import type { ProjectDocument, Run, Zone } from '../../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { pointsOfPath } from '../../../src/issue/drawing/drawnPath.ts';
import { elevationOfRun } from '../../../src/issue/elevation/elevationOfRun.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { documentOf, frontThrough, type Scene } from './elevationScenes.ts';

const runId = 'run-1' as RunId;

/** 6 m between two walls, with a zone from 2 400 to 3 000 and whatever else is said. */
const sceneOf = (
  kind: Zone['kind'] | null,
  zoneChanges: Partial<Zone> = {},
  changes: Partial<Run> = {},
): ProjectDocument => {
  const scene: Scene = {
    name: 'Bar',
    frontLine: frontThrough([6000, 0]),
    ends: ['wall', 'wall'],
    zones: kind ? [{ kind, name: 'Glasswasher', straight: 0, fromMm: 2400, toMm: 3000 }] : [],
    changes,
  };
  const document = documentOf(scene);
  const id = 'zone-0' as ZoneId;
  const zone = document.zones[id];
  return zone ? { ...document, zones: { [id]: { ...zone, ...zoneChanges } } } : document;
};

const drawn = (document: ProjectDocument, change: (fit: FitAlternative) => FitAlternative = (fit) => fit) => {
  const posed = poseProblem(document, runId, demoRange);
  if (!posed.ok) throw new Error(posed.message);
  const best = fitRun(posed.problem).alternatives[0];
  if (!best) throw new Error('no fit');
  const given = { range: demoRange, unit: 'mm' as const, problem: posed.problem, alternative: change(best) };
  const drawing = elevationOfRun(document, runId, given);
  if (!drawing) throw new Error('nothing drawn');
  const box = (tag: string) => {
    const points = drawing.shapes
      .filter((shape) => shape.tag === tag)
      .flatMap(({ path }) => pointsOfPath(path));
    return {
      left: Math.round(Math.min(...points.map(({ x }) => x)) * 10) / 10,
      right: Math.round(Math.max(...points.map(({ x }) => x)) * 10) / 10,
      bottom: Math.min(...points.map(({ y }) => y)),
      top: Math.max(...points.map(({ y }) => y)),
    };
  };
  return { drawing, box, best, texts: [...drawing.notes, ...drawing.callouts].map(({ text }) => text) };
};

// Positions and heights expected follow from those given; the drawing is at true proportions.
describe('a bay in the elevation', () => {
  const clearance = { beforeMm: 100, afterMm: 200, heightMm: 820, doorSwingMm: 500 };
  const { drawing, box, texts, best } = drawn(sceneOf('bay', { clearance }));

  it('keeps its clearances free under the top, with the equipment dashed at its own size', () => {
    // The back lies left of the trace: the first point is at the bartender's right, 6 000 mm from the left end.
    expect(box('equipment')).toEqual({ left: 3000, right: 3600, bottom: 0, top: 820 });
    const part = drawing.parts.find((one) => one.part === 'zone:zone-0');
    expect([Math.round(part?.box.left ?? 0), Math.round(part?.box.right ?? 0)]).toEqual([2800, 3700]);
    expect(best.pieces.every(({ fromMm, toMm }) => toMm <= 2300.001 || fromMm >= 3199.999)).toBe(true);
  });

  it('has the top line running on over it', () => {
    const runs = drawing.shapes.filter(({ tag }) => tag === 'top').flatMap(({ path }) => pointsOfPath(path));
    expect(runs.some(({ x, y }) => Math.abs(y - 900) < 1e-6 && x < 2800)).toBe(true);
    expect(drawing.shapes.filter(({ part, tag }) => part === 'zone:zone-0' && tag === 'top')).toHaveLength(1);
  });

  it('says who brings what, how wide and how high', () => {
    expect(texts).toContain('Glasswasher, by others, 600 × 820 high');
  });
});

describe('a low section in the elevation', () => {
  const { drawing, texts } = drawn(sceneOf('low', { topHeightMm: 850, name: 'Low section' }));

  it('has its top at its own height, and no shelf over it', () => {
    const tops = drawing.shapes.filter(({ tag }) => tag === 'low-section');
    expect(Math.max(...tops.flatMap(({ path }) => pointsOfPath(path).map(({ y }) => y)))).toBe(900);
    const slab = drawing.shapes.find(({ part, tag }) => part === 'zone:zone-0' && tag === 'top');
    expect(slab && Math.max(...pointsOfPath(slab.path).map(({ y }) => y))).toBe(850);
    const shelves = drawing.shapes
      .filter(({ tag }) => tag === 'serving-shelf')
      .flatMap(({ path }) => pointsOfPath(path).map(({ x }) => x));
    expect(shelves.some((x) => x > 3000.5 && x < 3599.5)).toBe(false);
    expect(texts).toContain('Low section, top 850');
  });
});

describe('a column that takes only the back', () => {
  const document = sceneOf('blocked', { columnDepthMm: 300, name: 'Column' });

  it('is dashed behind the pieces of a fit that passes it', () => {
    const { drawing, texts } = drawn(document, (fit) => ({
      ...fit,
      passedColumns: [{ straight: 0, column: 0 }],
    }));
    const column = drawing.shapes.filter(({ tag }) => tag === 'column');
    expect(column.map(({ stroke }) => stroke?.type)).toEqual(['dashed', 'dashed']);
    expect(texts.some((text) => /^Column: 300\s?mm deep, behind$/.test(text))).toBe(true);
    expect(drawing.shapes.filter(({ tag }) => tag === 'blocked')).toEqual([]);
  });

  it('is a blocked zone from the floor up where the fit stops at it', () => {
    const { drawing } = drawn(document, ({ passedColumns: _, ...fit }) => fit);
    expect(drawing.shapes.filter(({ tag }) => tag === 'column')).toEqual([]);
    expect(drawing.shapes.filter(({ tag }) => tag === 'blocked')).toHaveLength(1);
  });
});

describe('an end that meets another run', () => {
  it('has no wall, no scribe and no end panel, and names the run', () => {
    const meets: Run['ends'][number] = { kind: 'meets', giveInMm: 0, giveOutMm: 0 };
    const { drawing, box } = drawn(sceneOf(null, {}, { ends: [meets, { ...meets, kind: 'wall' }] }));
    expect(drawing.rightEnd).toBe('Start: meets another run');
    expect(drawing.shapes.filter(({ tag }) => tag === 'end-panel')).toEqual([]);
    expect(box('neighbour').left).toBe(6000);
    expect(box('wall').right).toBeLessThanOrEqual(150);
  });
});

describe('levels in the elevation', () => {
  const levels: Run['levels'] = {
    topHeightMm: 910,
    shelfHeightsMm: [1150, 500],
    floorAtStartMm: 0,
    floorAtEndMm: -40,
    raisedFloorBehindMm: 100,
  };
  const { drawing, box, texts } = drawn(sceneOf(null, {}, { levels }));

  it('draws the floor falling to the finish, and heights above the datum', () => {
    // The finish is at the left; the drawing's 0 is the lowest floor, 40 mm under the datum.
    const floor = drawing.shapes
      .filter(({ tag }) => tag === 'floor')
      .flatMap(({ path }) => pointsOfPath(path));
    const [left, right] = floor;
    expect(left && right && (right.y - left.y) / (right.x - left.x)).toBeCloseTo(40 / 6000, 9);
    expect(
      drawing.levels.map(({ word, text }) => `${word} ${text.replace(/(\d)\D+(?=\d{3})/, '$1 ')}`),
    ).toEqual([
      'floor −40',
      'floor behind +60',
      'feet +170',
      'shelf +500',
      'top +910',
      'upstand +1 110',
      'shelf +1 150',
    ]);
    expect(drawing.caption).toContain('heights from the datum');
  });

  it('stands every foot on the floor under it and every top level', () => {
    expect(box('foot').bottom).toBeGreaterThanOrEqual(0);
    const feet = drawing.shapes.filter(({ tag }) => tag === 'foot').map(({ path }) => pointsOfPath(path));
    for (const points of feet.filter((one) => one.length === 6)) {
      const x = (Math.min(...points.map((p) => p.x)) + Math.max(...points.map((p) => p.x))) / 2;
      expect(Math.min(...points.map(({ y }) => y))).toBeCloseTo((x / 6000) * 40, 6);
    }
  });

  it('says by how much the feet fall short', () => {
    // 910 - 900 - (-40) = 50 at the finish; the demo range's feet turn 25 each way.
    expect(texts.some((text) => /^feet fall 25\s?mm short$/.test(text))).toBe(true);
    expect(texts).toContain('floor ±0');
  });
});

describe('a module made wider', () => {
  it('is told above the drawing and in its name', () => {
    const { drawing, texts } = drawn(sceneOf(null), (fit) => ({
      ...fit,
      pieces: fit.pieces.map((piece, index) => (index === 0 ? { ...piece, widenedMm: 120 } : piece)),
    }));
    expect(texts.some((text) => /^made 120\s?mm wider$/.test(text))).toBe(true);
    expect(drawing.parts.find(({ part }) => part === 'piece:0')?.label).toContain('made wider');
  });
});
