import { describe, expect, it } from 'vitest';
import type { Run, WantedStation, Zone } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { followMovedLines } from '../../../src/measure/revision/followMovedLines.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';

const runOf = (...points: readonly (readonly [number, number])[]): Run =>
  ({
    ...runDefaultsOf(demoRange),
    id: 'run-1',
    sheetId: 'sheet-1',
    name: 'Front bar',
    frontLine: points.map(([x, y], index) => ({
      id: `vertex-${index + 1}`,
      at: { x, y },
      treatment: null,
    })),
    pickUncertaintyPt: 0.2,
  }) as unknown as Run;

type Line = readonly [number, number, number, number];
const part = ([x0, y0, x1, y1]: Line) => ({ x0, y0, x1, y1, item: 0 });
/** Lines that moved by a vector, and lines that are gone for good. */
const changesOf = (
  moved: readonly (readonly [Line, readonly [number, number]])[],
  gone: readonly Line[] = [],
) => ({
  gone: [...moved.map(([line]) => part(line)), ...gone.map(part)],
  added: moved.map(([[x0, y0, x1, y1], [dx, dy]]) => part([x0 + dx, y0 + dy, x1 + dx, y1 + dy])),
  moved: moved.map(([, [x, y]], index) => ({ gone: index, added: index, vector: { x, y } })),
});
const options = { depthPt: 40, tolerancePt: 2 };
const zone = (a: readonly [number, number], b: readonly [number, number]) =>
  ({
    id: 'zone-1',
    runId: 'run-1',
    kind: 'blocked',
    name: 'Column',
    vertexId: 'vertex-1',
    a: { x: a[0], y: a[1] },
    b: { x: b[0], y: b[1] },
  }) as unknown as Zone;
const station = (x: number, y: number) =>
  ({
    id: 'station-1',
    runId: 'run-1',
    item: 'x',
    vertexId: 'vertex-1',
    at: { x, y },
    withinMm: 0,
  }) as unknown as WantedStation;

describe('a run on a revised sheet', () => {
  it('stays where it was carried over to when nothing near it changed', () => {
    const run = runOf([0, 0], [300, 0], [300, 200]);
    const followed = followMovedLines(
      { run, zones: [], stations: [] },
      changesOf(
        [
          [
            [500, 500, 600, 500],
            [0, 10],
          ],
        ],
        [[10, 100, 60, 100]],
      ),
      options,
    );
    expect(followed.vertices.map(({ at }) => at)).toEqual(run.frontLine.map(({ at }) => at));
    expect(followed.findings).toEqual([]);
  });

  it('goes with the line of its straight, and the corner lies where both lines meet (Euclid: parallel moved by 7)', () => {
    const run = runOf([0, 0], [300, 0], [300, 200]);
    const followed = followMovedLines(
      { run, zones: [], stations: [station(100, 0)] },
      changesOf([
        [
          [0, 0.3, 290, 0.3],
          [0, -7],
        ],
      ]),
      options,
    );
    const [first, corner, last] = followed.vertices.map(({ at }) => at);
    expect(first).toMatchObject({ x: 0, y: -7 });
    expect(corner!.x).toBeCloseTo(300, 9);
    expect(corner!.y).toBeCloseTo(-7, 9);
    expect(last).toMatchObject({ x: 300, y: 200 });
    expect(followed.stations[0]!.at).toMatchObject({ x: 100, y: -7 });
    expect(followed.findings).toMatchObject([{ of: { kind: 'straight', straight: 0 }, became: 'moved' }]);
    expect(followed.findings[0]!.byPt).toBeCloseTo(-7, 9);
  });

  it('at a splayed corner lies on the moved line and on the other straight’s own line', () => {
    const run = runOf([0, 0], [300, 0], [400, 100]);
    const { vertices } = followMovedLines(
      { run, zones: [], stations: [] },
      changesOf([
        [
          [0, 0, 300, 0],
          [0, 10],
        ],
      ]),
      options,
    );
    // The second line is y = x - 300: it reaches y = 10 at x = 310.
    expect(vertices[1]!.at.x).toBeCloseTo(310, 9);
    expect(vertices[1]!.at.y).toBeCloseTo(10, 9);
  });

  it('runs on to a wall that moved away, and stops short at one that came nearer', () => {
    const run = runOf([0, 0], [300, 0]);
    const followed = followMovedLines(
      { run, zones: [], stations: [] },
      changesOf([
        [
          [0, -50, 0, 80],
          [-6, 0],
        ],
        [
          [300, -50, 300, 80],
          [-15, 0],
        ],
      ]),
      options,
    );
    expect(followed.vertices.map(({ at }) => at.x)).toEqual([-6, 285]);
    expect(followed.findings.map(({ of, byPt }) => [of.kind, byPt])).toEqual([
      ['end', -6],
      ['end', -15],
    ]);
  });

  it('takes a column along that moved, and says so of one that is gone', () => {
    const run = runOf([0, 0], [300, 0]);
    const column = zone([100, 5], [120, 5]);
    const moved = followMovedLines(
      { run, zones: [column], stations: [] },
      changesOf([
        [
          [100, 5, 100, 25],
          [12, 0],
        ],
        [
          [120, 5, 120, 25],
          [12, 0],
        ],
      ]),
      options,
    );
    expect(moved.zones[0]).toMatchObject({ a: { x: 112 }, b: { x: 132 } });
    const gone = followMovedLines(
      { run, zones: [column], stations: [] },
      changesOf(
        [],
        [
          [100, 5, 100, 25],
          [120, 5, 120, 25],
        ],
      ),
      options,
    );
    expect(gone.zones[0]).toMatchObject({ a: { x: 100 }, b: { x: 120 } });
    expect(gone.findings.map(({ became }) => became)).toEqual(['gone', 'gone']);
  });

  it('goes with a line whose length changed too, to the one beside it; not where two are as near', () => {
    const run = runOf([0, 0], [300, 0]);
    const changes = (...added: readonly Line[]) => ({
      gone: [part([0, 0, 200, 0])],
      added: added.map(part),
      moved: [],
    });
    const followed = (...added: readonly Line[]) =>
      followMovedLines({ run, zones: [], stations: [] }, changes(...added), options);
    const longer = followed([-10, -8, 320, -8], [0, 31, 300, 31]);
    expect(longer.vertices.map(({ at }) => at.y)).toEqual([-8, -8]);
    const doubtful = followed([-10, -8, 320, -8], [0, 9, 300, 9]);
    expect(doubtful.findings).toMatchObject([{ became: 'gone' }]);
  });

  it('says that the line of a straight is gone where nothing like it is near', () => {
    const run = runOf([0, 0], [300, 0]);
    const { findings, vertices } = followMovedLines(
      { run, zones: [], stations: [] },
      changesOf([], [[0, 0, 300, 0]]),
      options,
    );
    expect(findings).toEqual([{ of: { kind: 'straight', straight: 0 }, became: 'gone', byPt: 0 }]);
    expect(vertices.map(({ at }) => at.y)).toEqual([0, 0]);
  });
});
