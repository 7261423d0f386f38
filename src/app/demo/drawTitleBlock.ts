import type { PlanPen, XY } from './planPen.ts';

/** The sheet: A1 landscape, in millimetres of paper. */
export const sheetSize = { width: 841, height: 594 } as const;

export const demoProject = {
  venue: 'The Tin Otter',
  place: '9 Sailmaker Row, Merrowhaven',
  client: 'Tin Otter Taprooms Ltd',
  architect: 'Oake & Verrin Architects',
  architectPlace: 'The Net Loft, 3 Capstan Yard, Merrowhaven',
  drawing: 'Ground floor plan as proposed',
  number: '2607-120',
  revision: 'B',
  date: '12 Feb 2026',
  scaleNote: '1:50 @ A1',
} as const;

const left = 665;
const right = 831;
/** The part of the strip that is free for schedules: its upper edge. */
export const schedulePlace = { left, right, top: 434 } as const;
const rule = { pen: 0.25 };
const thin = { pen: 0.13 };

const notes: readonly string[] = [
  'Figured dimensions take precedence. Check all dimensions on site before',
  'work starts or anything is ordered, and report differences.',
  'Dimensions are in millimetres, to finished faces unless shown on the grid.',
  'Levels are in metres above finished ground floor, which is 6.40 above datum.',
  'Front bar, back bar and their equipment by the bar contractor; front and',
  'back lines as shown, working top 900 above finished floor.',
  'Glasswasher (GW) supplied by others: keep the bay clear to the floor.',
  'Services come up in the aisle behind the front bar, within the 150 zone.',
  'Falls to floor gullies by the flooring contractor.',
];

const revisions: readonly (readonly [mark: string, date: string, what: string])[] = [
  ['B', '12 Feb 2026', 'Flap moved east of glasswasher; snug opening 1800'],
  ['A', '23 Jan 2026', 'Front bar lengthened to 8700; cold room added'],
  ['-', '09 Jan 2026', 'First issue'],
];

const heading = (pen: PlanPen, text: string, y: number): void => {
  pen.letter(text, [left + 4, y], { cap: 2.2, bold: true });
};

const drawLegend = (pen: PlanPen, top: number): void => {
  heading(pen, 'LEGEND', top);
  const rows: readonly (readonly [string, (x: number, y: number) => void])[] = [
    ['Existing wall, cut', (x, y) => pen.rectangle(x, y, 16, 5, { pen: 0.5 }, { grey: 0.8 })],
    [
      'New partition, cut',
      (x, y) => {
        pen.rectangle(x, y, 16, 5, { pen: 0.5 });
        for (let at = 0; at < 16; at += 1.55)
          pen.line([x + at, y], [Math.min(x + at + 5, x + 16), y + Math.min(5, 16 - at)], {
            pen: 0.1,
            grey: 0.35,
          });
      },
    ],
    ['Column', (x, y) => pen.rectangle(x + 5.5, y, 5, 5, { pen: 0.5 }, { grey: 0.25 })],
    ['Counter edge', (x, y) => pen.line([x, y + 2.5], [x + 16, y + 2.5], { pen: 0.35 })],
    [
      'Overhead or under the top',
      (x, y) => pen.line([x, y + 2.5], [x + 16, y + 2.5], { pen: 0.13, dash: [1.8, 1.2] }),
    ],
    [
      'Grid',
      (x, y) =>
        pen.line([x, y + 2.5], [x + 16, y + 2.5], { pen: 0.13, dash: [6, 1.2, 0.8, 1.2], grey: 0.35 }),
    ],
  ];
  for (const [index, [text, draw]] of rows.entries()) {
    const y = top - 11 - index * 8;
    draw(left + 4, y);
    pen.letter(text, [left + 26, y + 2.5], { cap: 1.9, vertical: 'middle' });
  }
};

const drawRevisions = (pen: PlanPen, bottom: number): number => {
  const row = 6.5;
  const columns = [left, left + 14, left + 42, right];
  const rows: readonly (readonly string[])[] = [...revisions, ['Rev', 'Date', 'Change']];
  for (const [index, cells] of rows.entries()) {
    const y = bottom + (revisions.length - 1 - index) * row;
    const at = index === rows.length - 1 ? bottom + revisions.length * row : y;
    for (const [column, text] of cells.entries())
      pen.letter(text, [columns[column]! + 2, at + row / 2], {
        cap: 1.7,
        vertical: 'middle',
        bold: index === rows.length - 1,
      });
    pen.line([left, at], [right, at], thin);
  }
  const top = bottom + rows.length * row;
  pen.line([left, top], [right, top], rule);
  for (const x of columns.slice(1, -1)) pen.line([x, bottom], [x, top], thin);
  return top;
};

const drawFields = (pen: PlanPen, bottom: number): void => {
  const field = (x0: number, x1: number, y: number, label: string, text: string, cap = 2.4): void => {
    pen.letter(label, [x0 + 2, y + 11.3], { cap: 1.4, grey: 0.35 });
    pen.letter(text, [x0 + 2, y + 4], { cap });
    if (x1 < right) pen.line([x1, y], [x1, y + 15.5], thin);
  };
  const third = (right - left) / 3;
  const rows: readonly (readonly (readonly [string, string])[])[] = [
    [
      ['Drawing no.', demoProject.number],
      ['Revision', demoProject.revision],
      ['Status', 'For tender'],
    ],
    [
      ['Scale', demoProject.scaleNote],
      ['Date', demoProject.date],
      ['Drawn / checked', 'MV / TO'],
    ],
  ];
  for (const [index, cells] of rows.entries()) {
    const y = bottom + index * 15.5;
    for (const [column, [label, text]] of cells.entries())
      field(left + column * third, left + (column + 1) * third, y, label, text);
    pen.line([left, y + 15.5], [right, y + 15.5], thin);
  }
};

/** The frame of the sheet and the strip at its right: notes, legend, revisions, title. */
export const drawTitleBlock = (pen: PlanPen): void => {
  pen.layer('Sheet', () => {
    pen.rectangle(20, 10, 811, 574, { pen: 0.7 });
    pen.line([left, 10], [left, 584], { pen: 0.5 });
    for (const [x, y, dx, dy] of [
      [420.5, 10, 0, -6],
      [420.5, 584, 0, 6],
      [20, 297, -6, 0],
      [831, 297, 6, 0],
    ] as const)
      pen.line([x, y], [x + dx, y + dy], { pen: 0.5 });

    heading(pen, 'NOTES', 574);
    let y = 566;
    let paragraph = 0;
    for (const text of notes) {
      if (/^[A-Z]/.test(text)) {
        paragraph += 1;
        y -= 1.2;
        pen.letter(`${paragraph}`, [left + 4, y], { cap: 1.8 });
      }
      pen.letter(text, [left + 10, y], { cap: 1.8 });
      y -= 4.2;
    }
    pen.line([left, 505], [right, 505], rule);
    drawLegend(pen, 496);
    pen.line([left, 434], [right, 434], rule);

    const top = drawRevisions(pen, 124);
    pen.letter('REVISIONS', [left + 4, top + 3], { cap: 2.2, bold: true });
    pen.line([left, 124], [right, 124], rule);
    pen.letter(demoProject.architect.toUpperCase(), [left + 4, 112], { cap: 3.4, bold: true });
    pen.letter(demoProject.architectPlace, [left + 4, 105.5], { cap: 1.8 });
    pen.line([left, 100], [right, 100], rule);
    pen.letter('Client', [left + 2, 95.5], { cap: 1.4, grey: 0.35 });
    pen.letter(demoProject.client, [left + 2, 89.8], { cap: 2.4 });
    pen.line([left, 86], [right, 86], thin);
    pen.letter('Project', [left + 2, 81.5], { cap: 1.4, grey: 0.35 });
    pen.letter(demoProject.venue, [left + 2, 71.5], { cap: 5, bold: true });
    pen.letter(demoProject.place, [left + 2, 64.5], { cap: 2.4 });
    pen.line([left, 60], [right, 60], thin);
    pen.letter('Drawing', [left + 2, 55.5], { cap: 1.4, grey: 0.35 });
    pen.letter(demoProject.drawing, [left + 2, 46.5], { cap: 3.4, bold: true });
    pen.line([left, 41], [right, 41], rule);
    drawFields(pen, 10);
  });
};

/** A north arrow: circle, meridian, filled half of the head. */
export const drawNorthArrow = (pen: PlanPen, [x, y]: XY): void => {
  pen.circle([x, y], 9, { pen: 0.25 });
  pen.line([x, y - 12], [x, y + 13], { pen: 0.25 });
  pen.area(
    [
      [x, y + 9],
      [x - 3.4, y - 6],
      [x, y - 3],
    ],
    { grey: 0 },
  );
  pen.polyline(
    [
      [x, y + 9],
      [x + 3.4, y - 6],
      [x, y - 3],
    ],
    { pen: 0.25 },
    true,
  );
  pen.letter('N', [x, y + 14.5], { cap: 3.2, align: 'centre', bold: true });
};

/** A scale bar of 5 m at 1:50: metres in turn filled and open, the first one divided. */
export const drawScaleBar = (pen: PlanPen, [x, y]: XY): void => {
  const metre = 20;
  const thick = 1.6;
  for (let index = 0; index < 5; index += 1)
    pen.rectangle(x + index * metre, y, metre, thick, { pen: 0.18 }, { grey: index % 2 === 0 ? 0 : 1 });
  for (let index = 0; index < 4; index += 2)
    pen.rectangle(x + index * (metre / 4) + metre / 4, y, metre / 4, thick, { pen: 0.18 }, { grey: 1 });
  for (let index = 0; index <= 5; index += 1)
    pen.letter(String(index), [x + index * metre, y + 3.4], { cap: 1.8, align: 'centre' });
  pen.letter('m', [x + 5 * metre + 3, y + 3.4], { cap: 1.8 });
};

/** The title under a view: its number in a ring, its name, its scale, on a heavy line. */
export const drawViewTitle = (
  pen: PlanPen,
  [x, y]: XY,
  title: { readonly mark: string; readonly name: string; readonly length?: number },
): void => {
  pen.circle([x + 6, y], 6, { pen: 0.35 });
  pen.letter(title.mark, [x + 6, y], { cap: 3.4, align: 'centre', vertical: 'middle', bold: true });
  pen.line([x + 12, y], [x + (title.length ?? 110), y], { pen: 0.5 });
  pen.letter(title.name, [x + 15, y + 2.4], { cap: 3.4, bold: true });
  pen.letter('SCALE 1:50', [x + 15, y - 5], { cap: 2.2 });
};
