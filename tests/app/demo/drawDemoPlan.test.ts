import { PageSizes } from '@cantoo/pdf-lib';
import { describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../../src/app/demo/demoPlanTruth.ts';
import { roomAreaM2, rooms } from '../../../src/app/demo/demoVenue.ts';
import { drawDemoPlan } from '../../../src/app/demo/drawDemoPlan.ts';
import { type ReadBack, readBackPage } from '../../fixtures/drawPlan/readBackPage.ts';

type XY = readonly [number, number];
const mm = 72 / 25.4;
const distance = (a: XY, b: XY): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
const xy = ({ x, y }: { readonly x: number; readonly y: number }): XY => [x, y];

const page: ReadBack = await readBackPage(await drawDemoPlan());

/** Is there a drawn segment from a to b, or a longer one that both lie on, within 0.01 mm of paper? */
const isDrawn = (a: XY, b: XY): boolean =>
  page.segments.some(([p, q]) =>
    [a, b].every((point) => Math.abs(distance(p, point) + distance(point, q) - distance(p, q)) < 0.001 * mm),
  );

describe('the demo plan', () => {
  it('is one A1 sheet, landscape', () => {
    // PageSizes of the PDF library, which has A1 as 1683.78 x 2383.94 points; ISO 216 says 594 x 841 mm.
    expect(page.view[2]! - page.view[0]!).toBeCloseTo(PageSizes.A1[1], 1);
    expect(page.view[3]! - page.view[1]!).toBeCloseTo(PageSizes.A1[0], 1);
  });

  it('comes out the same, byte for byte, each time', async () => {
    expect(await drawDemoPlan()).toEqual(await drawDemoPlan());
  });

  it('has its layers as optional content, all shown', () => {
    const names = page.layers.map(({ name }) => name);
    expect(names).toEqual(
      expect.arrayContaining(['Grid', 'Walls', 'Counter', 'Furniture', 'Dimensions', 'Text']),
    );
    expect(page.layers.every(({ visible }) => visible)).toBe(true);
  });

  it('carries the dimensions of its truth: drawn at 1:50 with their figures at the middle', () => {
    for (const { from, to, lengthMm, text } of demoPlanTruth.dimensions) {
      const [a, b] = [xy(from), xy(to)];
      expect((distance(a, b) / mm) * demoPlanTruth.ratio, text).toBeCloseTo(lengthMm, 6);
      expect(isDrawn(a, b), text).toBe(true);
      const middle: XY = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      expect(
        page.texts.some((found) => found.text === text && distance(found.middle, middle) < 3 * mm),
        text,
      ).toBe(true);
    }
  });

  it('draws the front line that its truth traces, with the counter behind it at its depth', () => {
    const { frontLine, straightsMm, depthMm, openings } = demoPlanTruth.frontBar;
    const [wallEnd, corner, exposedEnd] = frontLine.map(xy) as [XY, XY, XY];
    expect((distance(wallEnd, corner) / mm) * 50).toBeCloseTo(straightsMm[0], 6);
    expect((distance(corner, exposedEnd) / mm) * 50).toBeCloseTo(straightsMm[1], 6);
    const paper = mm / 50;
    const onSecond = (along: number, back: number): XY => [
      corner[0] + along * paper,
      corner[1] + back * paper,
    ];
    expect(isDrawn(wallEnd, corner)).toBe(true);
    const [flap] = openings;
    expect(isDrawn(corner, onSecond(flap.fromMm, 0))).toBe(true);
    expect(isDrawn(onSecond(flap.toMm, 0), exposedEnd)).toBe(true);
    expect(isDrawn(exposedEnd, onSecond(straightsMm[1], depthMm))).toBe(true);
    const [column] = demoPlanTruth.frontBar.blockedZones;
    expect(isDrawn(onSecond(column.toMm, depthMm), onSecond(flap.fromMm, depthMm))).toBe(true);
  });

  it('says 1:50 and names its sheet', () => {
    expect(page.texts.some(({ text }) => text === '1:50 @ A1')).toBe(true);
  });

  it('has dimension strings that add up to their totals', () => {
    const figures = (near: (middle: XY) => boolean): readonly number[] =>
      page.texts
        .filter(({ text, middle }) => /^\d+$/.test(text) && near(middle))
        .map(({ text }) => Number(text));
    const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
    // The string at y = -1600 (room) lies at 236 - 32 mm on the sheet; its figures stand 1.8 mm higher.
    const row = (roomY: number) => figures(([, y]) => Math.abs(y / mm - (236 + roomY / 50 + 1.8)) < 0.5);
    expect(sum(row(-1_600))).toBe(24_360);
    expect(sum(row(-2_050))).toBe(24_000);
    expect(sum(row(15_950))).toBe(24_360);
    expect(sum(row(6_150))).toBe(8_700);
    expect(row(-1_600)).toHaveLength(11);
  });

  it('lets no lettering touch other lettering', () => {
    const boxes = page.texts.map(({ text, middle, angleDeg, width, height }) => {
      const quarter = Math.abs(Math.sin((angleDeg * Math.PI) / 180)) > 0.5;
      const [w, h] = quarter ? [height, width] : [width, height];
      return {
        text,
        x0: middle[0] - w / 2,
        x1: middle[0] + w / 2,
        y0: middle[1] - h / 2,
        y1: middle[1] + h / 2,
      };
    });
    const touching: string[] = [];
    for (const [index, a] of boxes.entries())
      for (const b of boxes.slice(index + 1))
        if (a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1) touching.push(`${a.text} / ${b.text}`);
    expect(touching).toEqual([]);
    expect(boxes.length).toBeGreaterThan(150);
  });

  it('draws no line through lettering', () => {
    const struck = page.texts.filter(({ middle, angleDeg, width, height }) => {
      const angle = (angleDeg * Math.PI) / 180;
      const local = ([x, y]: XY): XY => [
        (x - middle[0]) * Math.cos(angle) + (y - middle[1]) * Math.sin(angle),
        (y - middle[1]) * Math.cos(angle) - (x - middle[0]) * Math.sin(angle),
      ];
      return page.segments.some(([p, q]) => crossesBox(local(p), local(q), width / 2, height / 2));
    });
    expect(struck.map(({ text }) => text)).toEqual([]);
  });

  it('letters each room with its area', () => {
    // 2400 x 2200 between wall faces, by hand.
    expect(roomAreaM2(rooms.find(({ name }) => name === 'LOBBY')!)).toBeCloseTo(5.28, 9);
    // 23.82 - 17.46 by 9.78 - 0.18.
    expect(roomAreaM2(rooms.find(({ name }) => name === 'SNUG')!)).toBeCloseTo(61.056, 9);
    for (const room of rooms)
      expect(
        page.texts.some(({ text }) => text.includes(`${roomAreaM2(room).toFixed(1)} m²`)),
        room.name,
      ).toBe(true);
  });
});

/** Does the segment from p to q pass through the open box of the given half sizes about the origin? (Liang-Barsky) */
const crossesBox = (p: XY, q: XY, halfWidth: number, halfHeight: number): boolean => {
  let from = 0;
  let to = 1;
  for (const [start, delta, half] of [
    [p[0], q[0] - p[0], halfWidth],
    [p[1], q[1] - p[1], halfHeight],
  ] as const) {
    if (Math.abs(delta) < 1e-9) {
      if (Math.abs(start) >= half) return false;
      continue;
    }
    const [a, b] = [(-half - start) / delta, (half - start) / delta];
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
  }
  return from < to - 1e-9;
};
