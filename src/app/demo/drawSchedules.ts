import { roomAreaM2, rooms, walls } from './demoVenue.ts';
import type { PlanPen } from './planPen.ts';

const thin = { pen: 0.13 };

/** A ruled table: column heads, then rows; gives the y of its lower edge. Millimetres of paper. */
const drawTable = (
  pen: PlanPen,
  table: {
    readonly title: string;
    readonly left: number;
    readonly right: number;
    readonly top: number;
    readonly columns: readonly (readonly [head: string, x: number])[];
    readonly rows: readonly (readonly string[])[];
  },
): number => {
  const row = 5.4;
  const { left, right } = table;
  pen.letter(table.title, [left + 4, table.top - 8], { cap: 2.2, bold: true });
  let y = table.top - 12;
  pen.line([left, y], [right, y], thin);
  for (const cells of [table.columns.map(([head]) => head), ...table.rows]) {
    const isHead = y === table.top - 12;
    y -= row;
    for (const [index, text] of cells.entries())
      pen.letter(text, [left + table.columns[index]![1], y + row / 2], {
        cap: isHead ? 1.4 : 1.7,
        vertical: 'middle',
        ...(isHead ? { grey: 0.35 } : {}),
      });
    pen.line([left, y], [right, y], isHead ? { pen: 0.25 } : { pen: 0.1, grey: 0.4 });
  }
  return y;
};

const finishes: Readonly<Record<string, string>> = {
  '0.01': 'Oak boards',
  '0.02': 'Entrance matting',
  '0.03': 'Oak boards',
  '0.04': 'Painted concrete',
  '0.05': 'Resin',
  '0.06': 'Resin, insulated',
  '0.07': 'Resin, slip resistant',
  '0.08': 'Tile',
  '0.09': 'Tile',
  '0.10': 'Tile',
  '0.11': 'Tile',
};

/**
 * Doors by tag and rooms by number, read from the same venue that the plan is drawn from; gives the y of their lower
 * edge.
 */
export const drawSchedules = (
  pen: PlanPen,
  strip: { readonly left: number; readonly right: number; readonly top: number },
): number => {
  let end = strip.top;
  const doors = walls
    .flatMap((wall) => wall.openings)
    .filter((gap) => gap.kind === 'door')
    .sort((a, b) => a.tag.localeCompare(b.tag));
  pen.layer('Sheet', () => {
    const bottom = drawTable(pen, {
      title: 'DOORS',
      ...strip,
      columns: [
        ['Door', 4],
        ['Structural opening', 20],
        ['Clear width', 58],
        ['Leaves', 84],
        ['Remarks', 104],
      ],
      rows: doors.map((gap) => {
        const width = gap.to - gap.from;
        const leaves = gap.hinge === 'both' ? 2 : 1;
        const remarks =
          gap.tag === 'D01'
            ? 'Main way in'
            : gap.tag === 'D08'
              ? 'Deliveries'
              : gap.tag === 'D10'
                ? 'Escape'
                : '-';
        return [gap.tag, `${width} x 2130`, String(width - leaves * 55), String(leaves), remarks];
      }),
    });
    end = drawTable(pen, {
      title: 'ROOMS',
      ...strip,
      top: bottom - 4,
      columns: [
        ['Room', 4],
        ['Name', 20],
        ['Area', 74],
        ['Floor finish', 104],
      ],
      rows: rooms.map((room) => [
        room.number,
        room.name,
        `${roomAreaM2(room).toFixed(1)} m²`,
        finishes[room.number] ?? '-',
      ]),
    });
  });
  return end;
};
