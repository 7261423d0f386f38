import { degrees, PDFName, PDFNumber } from '@cantoo/pdf-lib';
import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { type Linework, NO_LAYER, PATH_FLAG } from '../../src/sheet/linework.ts';
import { OP } from '../../src/sheet/operatorList.ts';
import { pdfWithContent, readFirstPage } from './readPdfContent.ts';

const linesOf = ({ lines, lineCount }: Linework): number[][] =>
  Array.from({ length: lineCount }, (_, i) =>
    [...lines.slice(i * 4, i * 4 + 4)].map((v) => Math.round(v * 1000) / 1000),
  );

const drawn = async (content: string): Promise<Linework> =>
  (await readFirstPage(await pdfWithContent(content))).linework;

describe('operators to linework', () => {
  it("knows pdf.js's operators by their codes", () => {
    for (const [name, code] of Object.entries(OP)) expect(OPS[name as keyof typeof OPS], name).toBe(code);
  });

  it('reads lines, rectangles and curves where they are drawn', async () => {
    const linework = await drawn('10 20 m 110 20 l S 50 50 100 30 re S 0 0 m 10 0 20 10 20 20 c S');
    expect(linesOf(linework)).toEqual([
      [10, 20, 110, 20],
      [50, 50, 150, 50],
      [150, 50, 150, 80],
      [150, 80, 50, 80],
      [50, 80, 50, 50],
    ]);
    expect([...linework.curves]).toEqual([0, 0, 10, 0, 20, 10, 20, 20]);
    expect(linework.pathCount).toBe(3);
  });

  it('follows every transform, and forgets it at restore', async () => {
    const linework = await drawn('q 2 0 0 2 10 10 cm 0 1 -1 0 0 0 cm 3 w 0 0 m 50 0 l S Q 0 0 m 5 0 l S');
    expect(linesOf(linework)).toEqual([
      [10, 10, 10, 110],
      [0, 0, 5, 0],
    ]);
    expect(linework.pathWidth[0]).toBeCloseTo(6, 6);
    expect(linework.pathWidth[1]).toBeCloseTo(1, 6);
  });

  it('reads what stands in nested forms, with their matrices and boxes', async () => {
    const bytes = await pdfWithContent('q 1 0 0 1 100 50 cm /Outer Do Q', (page, context) => {
      const form = (content: string, dictionary: Record<string, unknown>) =>
        context.register(
          context.stream(content, { Type: 'XObject', Subtype: 'Form', ...(dictionary as object) }),
        );
      const inner = form('0 0 m 40 0 l S', { BBox: [0, -1, 30, 1], Matrix: [0, 1, -1, 0, 5, 5] });
      const outer = form('2 0 0 2 0 0 cm /Inner Do', {
        BBox: [0, 0, 200, 200],
        Resources: { XObject: { Inner: inner } },
      });
      page.node.setXObject(PDFName.of('Outer'), outer);
    });
    // The inner line runs up from (5, 5) x 2 + (100, 50) and is cut by the inner box at 30 of its 40.
    const [line] = linesOf((await readFirstPage(bytes)).linework);
    expect(line![0]).toBeCloseTo(110, 3);
    expect(line![1]).toBeCloseTo(60, 3);
    expect(line![2]).toBeCloseTo(110, 3);
    expect(line![3]).toBeGreaterThan(119.9);
    expect(line![3]).toBeLessThan(120.1);
  });

  it('stays in unrotated user space whatever /Rotate, /UserUnit and the boxes say', async () => {
    const bytes = await pdfWithContent('1 0 0 RG 150 150 m 250 150 l S', (page) => {
      page.setRotation(degrees(270));
      page.setMediaBox(-100, -50, 500, 400);
      page.setCropBox(0, 0, 300, 300);
      page.node.set(PDFName.of('UserUnit'), PDFNumber.of(2));
    });
    const { reading, linework } = await readFirstPage(bytes);
    expect(linesOf(linework)).toEqual([[150, 150, 250, 150]]);
    expect(reading.mediaBox).toEqual({ minX: -100, minY: -50, maxX: 400, maxY: 350 });
    expect(reading.viewBox).toEqual({ minX: 0, minY: 0, maxX: 300, maxY: 300 });
    expect([reading.rotation, reading.userUnit]).toEqual([270, 2]);
    expect(linework.pathStroke[0]).toBe(0xff0000);
  });

  it('leaves out what is clipped away and trims what is half inside', async () => {
    const linework = await drawn(
      'q 100 100 50 50 re W n 0 0 m 20 0 l S 90 120 m 200 120 l S Q q 100 100 m 200 100 l 150 200 l h W n 0 150 m 400 150 l S Q 0 10 m 9 10 l S',
    );
    const lines = linesOf(linework);
    expect(lines).toHaveLength(3);
    expect(lines[0]![0]).toBeCloseTo(100, 1);
    expect(lines[0]![2]).toBeCloseTo(150, 1);
    expect(lines[1]).toEqual([125, 150, 175, 150]);
    expect(lines[2]).toEqual([0, 10, 9, 10]);
  });

  it('trims curves to a clip and keeps them curves', async () => {
    const linework = await drawn('q 0 0 50 300 re W n 0 100 m 30 100 70 100 100 100 c S Q');
    expect(linework.curveCount).toBe(1);
    expect(linework.lineCount).toBe(0);
    expect(linework.curves[6]).toBeCloseTo(50, 3);
  });

  it('keeps a hole of an even-odd clip out', async () => {
    const linework = await drawn('q 0 0 300 300 re 100 100 100 100 re W* n 0 150 m 300 150 l S Q');
    expect(linesOf(linework)).toEqual([
      [0, 150, 100, 150],
      [200, 150, 300, 150],
    ]);
  });

  it('closes filled shapes, and tells stroke from fill, width and dash', async () => {
    const linework = await drawn('0.5 g 0 0 m 10 0 l 10 10 l f [3 2] 0 d 2 w 0 0 1 RG 0 50 m 9 50 l S');
    expect(linework.lineCount).toBe(4);
    expect(linework.pathFlags[0]).toBe(PATH_FLAG.filled);
    expect(linework.pathFill[0]! & 0xff).toBeGreaterThan(0x70);
    expect(linework.pathFlags[1]).toBe(PATH_FLAG.stroked | PATH_FLAG.dashed);
    expect(linework.pathStroke[1]).toBe(0x0000ff);
    expect(linework.pathWidth[1]).toBe(2);
  });

  it('leaves out hidden layers, follows a switch, and names the layer of each path', async () => {
    const bytes = await pdfWithContent(
      '/OC /Walls BDC 0 10 m 50 10 l S EMC /OC /Old BDC 0 20 m 50 20 l S EMC 0 30 m 50 30 l S',
      (page, context) => {
        const group = (name: string) =>
          context.register(context.obj({ Type: 'OCG', Name: context.obj(name) }));
        const walls = group('Walls');
        const old = group('Old');
        page.node.Resources()!.set(PDFName.of('Properties'), context.obj({ Walls: walls, Old: old }));
        const catalog = context.lookup(context.trailerInfo.Root!) as import('@cantoo/pdf-lib').PDFDict;
        catalog.set(
          PDFName.of('OCProperties'),
          context.obj({ OCGs: [walls, old], D: { ON: [walls], OFF: [old] } }),
        );
      },
    );
    const { reading, linework } = await readFirstPage(bytes);
    expect(linesOf(linework).map(([, y]) => y)).toEqual([10, 30]);
    expect(reading.layers.map(({ visible }) => visible)).toEqual([true, false]);
    expect([...linework.pathLayer]).toEqual([0, NO_LAYER]);
    const switched = await readFirstPage(bytes, {
      [reading.layers[1]!.id]: true,
      [reading.layers[0]!.id]: false,
    });
    expect(linesOf(switched.linework).map(([, y]) => y)).toEqual([20, 30]);
  });

  it('leaves out what is painted with no opacity and absurd coordinates', async () => {
    const bytes = await pdfWithContent(
      '/Gone gs 0 10 m 50 10 l S /Back gs 0 20 m 50 20 l S 0 0 m 1e30 1e30 l S',
      (page, context) => {
        page.node.setExtGState(PDFName.of('Gone'), context.register(context.obj({ CA: 0 })));
        page.node.setExtGState(PDFName.of('Back'), context.register(context.obj({ CA: 1 })));
      },
    );
    const lines = linesOf((await readFirstPage(bytes)).linework);
    expect(lines[0]).toEqual([0, 20, 50, 20]);
    for (const line of lines) for (const value of line) expect(Math.abs(value)).toBeLessThan(1e7);
  });
});

describe('operators to text', () => {
  const withFont = (content: string) =>
    pdfWithContent(content, (page, context) => {
      page.node.setFontDictionary(
        PDFName.of('F1'),
        context.register(context.obj({ Type: 'Font', Subtype: 'Type1', BaseFont: 'Helvetica' })),
      );
    });

  // Adobe's Helvetica metrics (Core 14 AFM): every digit is 556 units wide, so four at 10 pt are 22.24 pt.
  it('gives place, angle, size and width in user space', async () => {
    const { reading } = await readFirstPage(
      await withFont(
        'BT /F1 10 Tf 1 0 0 1 40 60 Tm (3600) Tj ET q 0 2 -2 0 100 100 cm BT /F1 5 Tf 3 4 Td (12) Tj ET Q',
      ),
    );
    const [flat, turned] = reading.text;
    expect(flat).toMatchObject({ text: '3600', origin: { x: 40, y: 60 }, angleRad: 0 });
    expect(flat!.size).toBeCloseTo(10, 6);
    expect(flat!.width).toBeCloseTo(22.24, 2);
    expect(turned!.text).toBe('12');
    expect(turned!.angleRad).toBeCloseTo(Math.PI / 2, 9);
    expect(turned!.size).toBeCloseTo(10, 6);
    expect(turned!.origin.x).toBeCloseTo(92, 6);
    expect(turned!.origin.y).toBeCloseTo(106, 6);
  });

  it('parts texts that one operator sets far apart, and marks invisible ones', async () => {
    const { reading } = await readFirstPage(
      await withFont('BT /F1 10 Tf 1 0 0 1 40 60 Tm [(150) -5000 (3300)] TJ 3 Tr (hidden) Tj ET'),
    );
    expect(reading.text.map(({ text }) => text)).toEqual(['150', '3300', 'hidden']);
    expect(reading.text.map(({ isInvisible = false }) => isInvisible)).toEqual([false, false, true]);
    expect(reading.text[1]!.origin.x).toBeCloseTo(40 + 16.68 + 50, 2);
  });
});

describe('pictures', () => {
  const picture = (width: number, height: number) =>
    pdfWithContent('q 400 0 0 300 0 0 cm /Im Do Q', (page, context) => {
      const image = context.stream(new Uint8Array(16), {
        Type: 'XObject',
        Subtype: 'Image',
        Width: width,
        Height: height,
        ColorSpace: 'DeviceGray',
        BitsPerComponent: 8,
      });
      page.node.setXObject(PDFName.of('Im'), context.register(image));
    });

  it('are placed, and noticed even where they are too large to decode', async () => {
    const whole = [{ minX: 0, minY: 0, maxX: 400, maxY: 300 }];
    expect((await readFirstPage(await picture(4, 4))).reading.pictures).toEqual(whole);
    expect((await readFirstPage(await picture(12_000, 12_000))).reading.pictures).toEqual(whole);
    expect((await readFirstPage(await pdfWithContent(''))).reading.pictures).toEqual([]);
  });
});
