import { describe, expect, it } from 'vitest';
import { obstacleSchema } from '../../src/access/wayInSchema.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import { type Command, commandSchema } from '../../src/document/command.ts';
import type { ObstacleId, RunId, SheetId, WayInId } from '../../src/document/ids.ts';
import { migrateDocument } from '../../src/document/migrateDocument.ts';
import {
  figureNames,
  obstacleDescription,
  obstacleKinds,
  sizeNames,
} from '../../src/document/obstacleKinds.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { DrawnObstacle } from '../../src/document/wayInRecords.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { addRun, documentWithSheet, edited } from './drawnDocument.ts';

const sheetId = 'sheet-1' as SheetId;
const runId = 'run-1' as RunId;
const yard = 'way-in-yard' as WayInId;
const street = 'way-in-street' as WayInId;

const doorway = (id: string, widthMm = 900): DrawnObstacle => ({
  id: `obstacle-${id}` as ObstacleId,
  kind: 'doorway',
  name: id,
  sizes: { widthMm: { from: 'typed', lengthMm: widthMm }, heightMm: { from: 'typed', lengthMm: 2000 } },
  figures: {},
  typedPlusMinusMm: 0,
  confirmOnSite: false,
});

const done = (document: ProjectDocument, ...commands: readonly Command[]): ProjectDocument =>
  commands.reduce((before, command) => {
    const applied = applyCommand(before, commandSchema.parse(command));
    if (!applied.ok) throw new Error(`${command.type}: ${applied.refusal.message}`);
    return applied.document;
  }, document);

const refusalOf = (document: ProjectDocument, command: Command): string => {
  const applied = applyCommand(document, command);
  return applied.ok ? 'none' : applied.refusal.code;
};

const start = done(edited(documentWithSheet, addRun([paperPoint(0, 0), paperPoint(100, 0)])), {
  type: 'add-way-in',
  wayIn: { id: yard, name: 'Yard', obstacles: [doorway('one'), doorway('two'), doorway('three')] },
});

const order = (document: ProjectDocument) => document.waysIn[yard]?.obstacles.map(({ name }) => name);

describe('ways in of a project', () => {
  it('opens a project that was stored before ways in were described, with none', () => {
    const { wayInIds, waysIn, chosenWayInId, limitedRunIds, vehicle, ...older } = start;
    expect([wayInIds, Object.keys(waysIn), chosenWayInId, limitedRunIds, vehicle]).toEqual([
      [yard],
      [yard],
      yard,
      [],
      null,
    ]);
    const opened = migrateDocument(JSON.parse(JSON.stringify(older)));
    if (!opened.ok) throw new Error(opened.message);
    expect(opened.document).toEqual({ ...start, wayInIds: [], waysIn: {}, chosenWayInId: null });
    expect(migrateDocument(JSON.parse(JSON.stringify(start)))).toEqual({ ok: true, document: start });
  });

  it('keeps obstacles in the order of the way, wherever they are added or moved to', () => {
    const added = done(start, { type: 'add-obstacle', wayInId: yard, index: 1, obstacle: doorway('new') });
    expect(order(added)).toEqual(['one', 'new', 'two', 'three']);
    const move = (id: string, toIndex: number) =>
      order(
        done(added, {
          type: 'move-obstacle',
          wayInId: yard,
          obstacleId: `obstacle-${id}` as ObstacleId,
          toIndex,
        }),
      );
    expect(move('one', 3)).toEqual(['new', 'two', 'three', 'one']);
    expect(move('three', 0)).toEqual(['three', 'one', 'new', 'two']);
    expect(move('new', 1)).toEqual(['one', 'new', 'two', 'three']);
    expect(
      refusalOf(added, { type: 'move-obstacle', wayInId: yard, obstacleId: doorway('one').id, toIndex: 4 }),
    ).toBe('place-out-of-range');
  });

  it('chooses the first way described, and another when the chosen one goes', () => {
    const two = done(start, { type: 'add-way-in', wayIn: { id: street, name: 'Street', obstacles: [] } });
    expect(two.chosenWayInId).toBe(yard);
    const chosen = done(two, { type: 'choose-way-in', wayInId: street });
    expect(chosen.chosenWayInId).toBe(street);
    expect(done(chosen, { type: 'remove-way-in', wayInId: street }).chosenWayInId).toBe(yard);
  });

  it('lets go of limited runs with the run or with the last way in', () => {
    const limited = done(start, { type: 'limit-runs', runIds: [runId], isLimited: true });
    expect(limited.limitedRunIds).toEqual([runId]);
    expect(done(limited, { type: 'remove-run', runId }).limitedRunIds).toEqual([]);
    expect(done(limited, { type: 'remove-way-in', wayInId: yard }).limitedRunIds).toEqual([]);
    expect(done(limited, { type: 'limit-runs', runIds: [runId], isLimited: false }).limitedRunIds).toEqual(
      [],
    );
    const none = done(start, { type: 'remove-way-in', wayInId: yard });
    expect(refusalOf(none, { type: 'limit-runs', runIds: [runId], isLimited: true })).toBe('way-in-missing');
  });

  it('refuses to remove a sheet on which a width is picked, and a pick on a sheet that is not there', () => {
    const picked = (onSheet: SheetId, toX: number): DrawnObstacle => ({
      ...doorway('one'),
      sizes: {
        ...doorway('one').sizes,
        widthMm: {
          from: 'sheet',
          sheetId: onSheet,
          a: paperPoint(5, 0),
          b: paperPoint(toX, 0),
          pickUncertaintyPt: 0.5,
        },
      },
    });
    const change = (obstacle: DrawnObstacle): Command => ({
      type: 'change-obstacle',
      wayInId: yard,
      obstacle,
    });
    const noRun = done(start, { type: 'remove-run', runId }, change(picked(sheetId, 30)));
    expect(refusalOf(noRun, { type: 'remove-sheet', sheetId })).toBe('sheet-in-way-in');
    expect(refusalOf(start, change(picked('sheet-2' as SheetId, 30)))).toBe('sheet-missing');
    expect(refusalOf(start, change(picked(sheetId, 5)))).toBe('pick-too-short');
    expect(refusalOf(start, change({ ...doorway('one'), kind: 'passage' }))).toBe('obstacle-kind-fixed');
  });

  it('takes no obstacle without what its kind needs, nor with what its kind has not', () => {
    const command = (obstacle: DrawnObstacle) =>
      commandSchema.safeParse({ type: 'change-obstacle', wayInId: yard, obstacle }).success;
    const { heightMm: _, ...onlyWidth } = doorway('one').sizes;
    expect(command(doorway('one'))).toBe(true);
    expect(command({ ...doorway('one'), sizes: onlyWidth })).toBe(false);
    expect(
      command({
        ...doorway('one'),
        sizes: { ...doorway('one').sizes, carWidthMm: { from: 'typed', lengthMm: 1100 } },
      }),
    ).toBe(false);
    expect(command({ ...doorway('one'), figures: { ratedKg: 630 } })).toBe(false);
  });

  it('describes each kind by the fields that the access contract takes, no more and no fewer', () => {
    for (const kind of obstacleKinds) {
      const { needed, mayHave, neededFigures, mayHaveFigures } = obstacleDescription[kind];
      const value = (name: string) =>
        name === 'landingTurnDeg'
          ? 90
          : name === 'leafMm' || name === 'thresholdMm'
            ? 20
            : name.endsWith('Deg')
              ? 30
              : 900;
      const filled = (names: readonly string[]) =>
        Object.fromEntries(names.map((name) => [name, value(name)]));
      const least = { kind, ...filled([...needed, ...neededFigures]) };
      expect(obstacleSchema.safeParse(least).success, kind).toBe(true);
      for (const name of [...needed, ...neededFigures]) {
        const { [name]: _, ...without } = least as Record<string, unknown>;
        expect(obstacleSchema.safeParse(without).success, `${kind} without ${name}`).toBe(false);
      }
      const every = { kind, ...filled([...sizeNames, ...figureNames]) };
      const taken = Object.keys(obstacleSchema.parse(every)).filter((name) => name !== 'kind');
      expect(taken.sort(), kind).toEqual([...needed, ...mayHave, ...neededFigures, ...mayHaveFigures].sort());
    }
  });
});
