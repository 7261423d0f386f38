import { type Point, Polygon, point } from '@flatten-js/core';
import { describe, expect, it } from 'vitest';
import type { DisplayItem } from '../../../renderer/board/displayList.ts';
import type { LabelBox } from '../../../renderer/board/labelBox.ts';
import { isOver, layOutLabels, type PlacedLabel } from '../../../renderer/board/labelLayout.ts';
import { screenPoint } from '../../../renderer/board/screenPoint.ts';
import { wholeSheet, zoomAbout } from '../../../renderer/board/viewTransform.ts';
import { tracedItems } from '../../../renderer/project/overlayItems.ts';
import type { RunId, SheetId, VertexId } from '../../../src/document/ids.ts';
import { emptyDocument, type ProjectDocument, type Run } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { randomFrom } from '../../sheet/randomLinework.ts';

const sheetId = 'sheet-1' as SheetId;
const size = { width: 2384, height: 1684 };
const sheet = { viewBox: [0, 0, size.width, size.height], rotationDeg: 0, userUnit: 1 } as const;

/** Twelve runs of two or three straights; every third is traced over the one before. */
const twelveRuns = (seed: number): ProjectDocument => {
  const random = randomFrom(seed);
  const runs: Run[] = [];
  for (let index = 0; index < 12; index += 1) {
    const before = runs.at(-1);
    const isOverOther = index % 3 === 2 && before;
    let at = { x: 200 + random() * 1900, y: 200 + random() * 1200 };
    let way = random() * Math.PI * 2;
    const places = [at];
    for (let straight = 0; straight < 2 + Math.floor(random() * 2); straight += 1) {
      const length = 30 + random() * 500;
      at = { x: at.x + Math.cos(way) * length, y: at.y + Math.sin(way) * length };
      way += (random() < 0.5 ? 1 : -1) * (random() < 0.7 ? Math.PI / 2 : random() * 2);
      places.push(at);
    }
    runs.push({
      ...runDefaultsOf(demoRange),
      id: `run-${index}` as RunId,
      sheetId,
      name:
        random() < 0.5
          ? `Bar ${index}`
          : 'Long counter at the terrace with the old brass rail and its foot rest',
      backSide: random() < 0.5 ? 'left' : 'right',
      frontLine: isOverOther
        ? before.frontLine.map((vertex, place) => ({ ...vertex, id: `vertex-${index}x${place}` as VertexId }))
        : places.map(({ x, y }, place) => ({
            id: `vertex-${index}x${place}` as VertexId,
            at: paperPoint(x, y),
            treatment: null,
          })),
      pickUncertaintyPt: 0.4,
    });
  }
  return {
    ...emptyDocument('Twelve bars', { id: demoRange.id, version: demoRange.version }),
    sheetIds: [sheetId],
    sheets: {
      [sheetId]: {
        id: sheetId,
        name: 'Sheet',
        planSha256: '0'.repeat(64),
        planFileName: 'sheet.pdf',
        pageNumber: 1,
        userUnit: 1,
        acceptedScale: { ratio: 50, relativeUncertainty: 0.002, because: 'test' },
        layers: {},
      },
    },
    runIds: runs.map(({ id }) => id),
    runs: Object.fromEntries(runs.map((run) => [run.id, run])),
  } as ProjectDocument;
};

/** Letters as wide as the wide ones of a sans serif: never less than what a browser measures. */
const lengthPx =
  (textScale: number) =>
  (item: PlacedLabel): number =>
    (item.text.length + (item.quietText?.length ?? 0)) * (item.sizePx ?? 12) * 0.6 * textScale;

const cornersOf = ({ x, y, cos, sin, halfLengthPx: l, halfHeightPx: h }: LabelBox): Point[] =>
  [
    [-l, -h],
    [l, -h],
    [l, h],
    [-l, h],
  ].map(([along = 0, across = 0]) => point(x + along * cos - across * sin, y + along * sin + across * cos));

/** By another library: two rectangles overlap where their outlines cross or one holds a corner of the other. */
const isOverByOther = (a: LabelBox, b: LabelBox): boolean => {
  const [one, other] = [new Polygon(cornersOf(a)), new Polygon(cornersOf(b))];
  return one.intersect(other).length > 0 || one.contains(point(b.x, b.y)) || other.contains(point(a.x, a.y));
};

describe('laying out the texts over a sheet', () => {
  it('agrees with another library on which turned rectangles overlap', () => {
    const random = randomFrom(8);
    const box = (): LabelBox => {
      const angle = (random() - 0.5) * Math.PI;
      return {
        x: random() * 100,
        y: random() * 100,
        cos: Math.cos(angle),
        sin: Math.sin(angle),
        halfLengthPx: 3 + random() * 40,
        halfHeightPx: 3 + random() * 8,
      };
    };
    let overlapping = 0;
    for (let round = 0; round < 2000; round += 1) {
      const [a, b] = [box(), box()];
      expect(isOver(a, b)).toBe(isOverByOther(a, b));
      if (isOver(a, b)) overlapping += 1;
    }
    expect(overlapping).toBeGreaterThan(300);
  });

  it('lets no text of twelve runs lie over another, at any zoom, in ft-in, at 200 % text', () => {
    const rounds = campaignSize({ sample: 40, full: 1000 });
    let [texts, left] = [0, 0];
    for (let seed = 1; seed <= rounds; seed += 1) {
      const document = twelveRuns(seed);
      const selected = document.runIds[seed % 12] ?? null;
      for (const unit of ['mm', 'ft-in'] as const)
        for (const textScale of [1, 2])
          for (const zoom of [0.5, 1, 3, 12]) {
            const whole = wholeSheet(sheet, { widthPx: 1112, heightPx: 546 });
            const view = zoomAbout(whole, screenPoint(300, 200), zoom);
            const items: readonly DisplayItem[] = tracedItems(document, sheetId, selected, unit);
            const { moves, boxes } = layOutLabels(items, view, { lengthPx: lengthPx(textScale), textScale });
            texts += boxes.length;
            left += [...moves.values()].filter((move) => move === null).length;
            for (const [place, box] of boxes.entries())
              for (const other of boxes.slice(place + 1)) {
                const near = Math.hypot(box.x - other.x, box.y - other.y);
                if (near > box.halfLengthPx + other.halfLengthPx + 60) continue;
                expect(isOverByOther(box, other), `seed ${seed}, ${unit}, ${textScale}, ${zoom}`).toBe(false);
              }
            // What the operator works on never gives way.
            for (const item of items)
              if (item.kind === 'label' && item.isStrong && item.id.startsWith(`run/${selected}/length`))
                expect(moves.get(item), `seed ${seed} ${item.id}`).not.toBeNull();
          }
    }
    process.stdout.write(`${rounds} sets of 12 runs: ${texts} texts shown, 0 overlaps, ${left} left out\n`);
  });

  it('places texts alike wherever the sheet lies on the screen', () => {
    const items = tracedItems(twelveRuns(3), sheetId, null, 'mm');
    const view = wholeSheet(sheet, { widthPx: 1112, heightPx: 546 });
    const sizing = { lengthPx: lengthPx(1), textScale: 1 };
    const here = layOutLabels(items, view, sizing);
    const there = layOutLabels(items, { ...view, originX: 431.7, originY: -88.3 }, sizing);
    expect([...there.moves]).toEqual([...here.moves]);
  });

  it('keeps off the texts of the layers below', () => {
    const item: DisplayItem = { kind: 'label', id: 'a', at: paperPoint(400, 300), text: '1200' };
    const view = wholeSheet(sheet, { widthPx: 1112, heightPx: 546 });
    const sizing = { lengthPx: lengthPx(1), textScale: 1 };
    const below = layOutLabels([item], view, sizing);
    const above = layOutLabels([{ ...item, id: 'b' }], view, sizing, below.boxes);
    expect(above.boxes).toHaveLength(1);
    expect(isOver(above.boxes[0]!, below.boxes[0]!)).toBe(false);
  });
});
