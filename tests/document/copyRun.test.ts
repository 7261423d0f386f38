import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import { copyRun, mirrorRun } from '../../src/document/copyRun.ts';
import { migrateDocument } from '../../src/document/migrateDocument.ts';
import { reversePatch } from '../../src/document/patch.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { poseProblem } from '../../src/fitting/poseProblem.ts';
import type { PaperPoint } from '../../src/geometry/point.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { otherHandOf } from '../../src/stock/otherHand.ts';
import { type StockRange, stockRangeSchema } from '../../src/stock/stockSchema.ts';
import { addRun, at, documentAtFifty, edited } from './drawnDocument.ts';

const range: StockRange = stockRangeSchema.parse({
  ...demoRange,
  items: [
    ...demoRange.items,
    ...(['left', 'right'] as const).map((hand) => ({
      id: `dish-900-${hand}`,
      name: `Dish table 900, ${hand} hand`,
      kind: 'station',
      widthMm: 900,
      support: 'standing',
      fill: false,
      hand,
    })),
  ],
});

/** An L with a corner, a bay, a column that takes only the back, a low section, an arc, a handed station and levels. */
const drawn = edited(
  documentAtFifty,
  addRun([], {
    frontLine: [
      { id: 'vertex-1', at: at(0, 0), treatment: null },
      { id: 'vertex-2', at: at(0, -4000), treatment: 'corner-unit' },
      { id: 'vertex-3', at: at(9000, -4000), treatment: null },
    ],
    levels: {
      topHeightMm: 910,
      shelfHeightsMm: [1150],
      floorAtStartMm: 0,
      floorAtEndMm: -12,
      raisedFloorBehindMm: 100,
    },
    symmetrical: [{ vertexId: 'vertex-2', aboutStationId: 'station-1' }],
  }),
  {
    type: 'add-zone',
    zone: {
      id: 'zone-1',
      runId: 'run-1',
      kind: 'bay',
      name: 'Glasswasher',
      vertexId: 'vertex-2',
      a: at(5000, -4000),
      b: at(5700, -4000),
      clearance: { beforeMm: 20, afterMm: 60, heightMm: 820, doorSwingMm: 500 },
    },
  },
  {
    type: 'add-zone',
    zone: {
      id: 'zone-2',
      runId: 'run-1',
      kind: 'low',
      name: 'Low section',
      vertexId: 'vertex-1',
      a: at(0, -1500),
      b: at(0, -500),
      topHeightMm: 850,
    },
  },
  {
    type: 'want-station',
    station: {
      id: 'station-1',
      runId: 'run-1',
      item: 'dish-900-left',
      vertexId: 'vertex-2',
      at: at(3000, -4000),
      withinMm: 600,
      hand: 'left',
    },
  },
);

const posedOf = (document: ProjectDocument, runId: string) => {
  const posed = poseProblem(document, runId as never, range);
  if (!posed.ok) throw new Error(`${posed.code}: ${posed.message}`);
  return posed;
};

/** Left of the sheet for right: reflection in the line x = 0. */
const reflected = ({ x, y }: PaperPoint) => ({ x: -x, y }) as PaperPoint;
const mirroredItem = (id: string) => {
  const item = range.items.find((one) => one.id === id);
  return (item && otherHandOf(range, item)?.id) ?? id;
};

describe('a mirrored run', () => {
  const command = mirrorRun(drawn, 'run-1' as never, { place: reflected, mirroredItem });
  const mirrored = edited(drawn, command);

  it('poses the same lengths, zones and corner along its front, with the front on the same side of the corner', () => {
    const [before, after] = [posedOf(drawn, 'run-1').problem, posedOf(mirrored, 'run-1').problem];
    expect(after.straights).toEqual(before.straights);
    expect(after.corners).toEqual(before.corners);
    expect(after.symmetrical).toEqual(before.symmetrical);
    expect(after.wanted).toEqual([{ ...before.wanted?.[0], hand: 'right' }]);
    expect([before.startHand, after.startHand]).toEqual(['right', 'left']);
  });

  it('has a fit of the same score', () => {
    const score = (document: ProjectDocument) =>
      fitRun(posedOf(document, 'run-1').problem, { alternatives: 1 }).alternatives[0]?.score;
    expect(score(mirrored)).toEqual(score(drawn));
  });

  it('changes over back side and hand, and is itself again when mirrored twice', () => {
    expect(mirrored.runs['run-1' as never]?.backSide).toBe('right');
    expect(Object.values(mirrored.stations)[0]).toMatchObject({ item: 'dish-900-right', hand: 'right' });
    const back = edited(mirrored, mirrorRun(mirrored, 'run-1' as never, { place: reflected, mirroredItem }));
    expect(back).toEqual(drawn);
  });

  it('goes back in one step', () => {
    const applied = applyCommand(drawn, command as Command);
    if (!applied.ok) throw new Error(applied.refusal.message);
    const undone = reversePatch(applied.patch);
    expect(undone).not.toEqual(applied.patch);
    expect(applied.document.runIds).toEqual(drawn.runIds);
  });

  it('reflects the point that an arc goes through', () => {
    const bent = edited(drawn, {
      type: 'bend-straight',
      runId: 'run-1',
      vertexId: 'vertex-2',
      through: at(4500, -4600),
    });
    const turned = edited(bent, mirrorRun(bent, 'run-1' as never, { place: reflected, mirroredItem }));
    expect(turned.runs['run-1' as never]?.frontLine[1]?.through).toEqual(at(-4500, -4600));
  });
});

describe('bays, low sections, levels and hands', () => {
  it('go through a file and back: they are in the schema that every stored document is read by', () => {
    const read = migrateDocument(JSON.parse(JSON.stringify(drawn)));
    expect(read).toEqual({ ok: true, document: drawn });
  });
});

describe('a copied run', () => {
  let last = 0;
  const copied = copyRun(drawn, 'run-1' as never, {
    place: ({ x, y }) => ({ x: x + 50, y: y - 20 }) as PaperPoint,
    isMirrored: false,
    mirroredItem,
    freshId: () => {
      last += 1;
      return `copy${last}`;
    },
  });
  if (!copied) throw new Error('nothing was copied');
  const document = edited(drawn, copied.command);
  const copy = document.runs[copied.runId];

  it('carries zones with their clearances and heights, stations and levels, under ids of its own', () => {
    const fields = (runId: string) =>
      [...Object.values(document.zones), ...Object.values(document.stations)]
        .filter((record) => record.runId === runId)
        .map(({ id, runId: _, vertexId, ...record }) => {
          const { a, b, at: place, ...rest } = record as { a?: unknown; b?: unknown; at?: unknown };
          return rest;
        });
    expect(fields(copied.runId)).toEqual(fields('run-1'));
    expect(copy?.levels).toEqual(drawn.runs['run-1' as never]?.levels);
    expect(copy?.symmetrical?.[0]?.vertexId).toBe(copy?.frontLine[1]?.id);
    expect(copy?.name).toBe('Front bar 2');
    expect(document.runIds).toEqual(['run-1', copied.runId]);
  });

  it('poses the same problem as the one it was copied from, but for the names of zones and stations', () => {
    const unnamed = (runId: string) => {
      const { straights, wanted, symmetrical, ...rest } = posedOf(document, runId).problem;
      return {
        ...rest,
        straights: straights.map(({ bays, ...straight }) => ({
          ...straight,
          bays: bays?.map(({ id, fromMm, toMm, ...bay }) => ({ ...bay, widthMm: Math.round(toMm - fromMm) })),
        })),
        wanted: wanted?.map(({ id, nearMm, ...wish }) => ({ ...wish, nearMm: Math.round(nearMm) })),
        symmetrical: symmetrical?.map(({ straight }) => straight),
      };
    };
    const rounded = (value: unknown) =>
      JSON.parse(JSON.stringify(value), (_, one) =>
        typeof one === 'number' ? Math.round(one * 100) / 100 : one,
      );
    expect(rounded(unnamed(copied.runId))).toEqual(rounded(unnamed('run-1')));
  });

  it('counts on from the last number', () => {
    const again = copyRun(document, copied.runId, {
      place: ({ x, y }) => ({ x: x + 9, y }) as PaperPoint,
      isMirrored: false,
      mirroredItem,
      freshId: () => {
        last += 1;
        return `copy${last}`;
      },
    });
    const twice = edited(document, again?.command);
    expect(Object.values(twice.runs).map(({ name }) => name)).toEqual([
      'Front bar',
      'Front bar 2',
      'Front bar 3',
    ]);
  });
});
