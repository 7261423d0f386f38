import { describe, expect, it } from 'vitest';
import { paperPoint } from '../../src/geometry/point.ts';
import { declaredSheet, findScaleNotes, readScaleNote } from '../../src/scale/scaleNote.ts';
import type { TextRun } from '../../src/sheet/textRun.ts';

const run = (text: string, x: number, y: number): TextRun => ({
  text,
  origin: paperPoint(x, y),
  angleRad: 0,
  size: 10,
  width: text.length * 5,
  layer: 0,
});

describe('scale note', () => {
  it.each([
    ['1:50', 50],
    ['1 : 50', 50],
    ['1:50 @ A1', 50],
    ['SCALE 1:79.90', 79.9],
    ['Scale 1/50', 50],
    ['SCALA 1:20', 20],
    ['M 1:100', 100],
    ['Maßstab 1:75', 75],
    ['GROUND FLOOR PLAN 1:100', 100],
    ['DETAIL A 1:5', 5],
    ['1:1,250', 1250],
    ['1 cm = 1 m', 100],
    ['Échelle : 1/100', 100],
  ])('reads %s', (text, ratio) => expect(readScaleNote(text)?.ratio).toBeCloseTo(ratio, 9));

  // US architectural scales: x inches to the foot is 1:(12/x).
  it.each([
    [`1/16" = 1'-0"`, 192],
    [`3/32" = 1'-0"`, 128],
    [`1/8" = 1'-0"`, 96],
    [`3/16" = 1'-0"`, 64],
    [`1/4" = 1'-0"`, 48],
    [`3/8" = 1'-0"`, 32],
    [`1/2" = 1'-0"`, 24],
    [`3/4" = 1'-0"`, 16],
    [`1" = 1'-0"`, 12],
    [`1 1/2" = 1'-0"`, 8],
    [`3" = 1'-0"`, 4],
    [`SCALE: 1/4"=1'-0"`, 48],
    [`1/4 in = 1'`, 48],
    ['¼" = 1’-0”', 48],
    [`1" = 20'`, 240],
  ])('reads %s', (text, ratio) => expect(readScaleNote(text)?.ratio).toBeCloseTo(ratio, 9));

  it.each([
    '1:50 SLOPE',
    'FALL 1:80',
    'RAMP 1:12',
    'Pendenza 1:50',
    'MORTAR 1:6',
    'CONCRETE 1:2:4',
    '01:51:21',
    '17/07/2017 01:51:21',
    '1/2',
    'Gefälle 1:100',
    '2:50',
    'SEE DETAIL 1',
    'ROOM 1:50 BAR STORE KEEPER',
    `12'-6 1/2"`,
    '',
  ])('does not take %s for a scale', (text) => expect(readScaleNote(text)).toBeNull());

  it('reads the sheet that a note was made for, and "not to scale"', () => {
    expect(readScaleNote('1:50 @ A1')?.declaredSheet).toBe('A1');
    expect(readScaleNote('1:100 (A3)')?.declaredSheet).toBe('A3');
    expect(readScaleNote('1:50')?.declaredSheet).toBeUndefined();
    for (const text of ['NTS', 'N.T.S.', 'SCALE: NTS', 'NOT TO SCALE']) {
      expect(readScaleNote(text)).toMatchObject({ text });
      expect(readScaleNote(text)?.ratio).toBeUndefined();
    }
  });

  it('leaves a bare ratio beside a word for a slope out', () => {
    const runs = [run('1:20', 100, 100), run('RAMP', 100, 112), run('1:50', 500, 20)];
    expect(findScaleNotes(runs).map(({ note }) => note.ratio)).toEqual([50]);
  });

  it('finds the declared sheet beside its word', () => {
    const runs = [run('FORMATO:', 100, 100), run('A2', 145, 100), run('A1', 700, 700)];
    expect(declaredSheet(runs, [])).toBe('A2');
    expect(declaredSheet([run('A1', 700, 700)], [])).toBeUndefined();
  });
});
