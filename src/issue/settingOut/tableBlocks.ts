import { PaperPen, type PenFont } from '../drawing/paperPen.ts';
import { capital, ink, quiet } from './planInk.ts';
import type { ColumnBlock } from './textFlow.ts';

export interface TableColumn {
  readonly title: string;
  /** Of the table's width. */
  readonly share: number;
  readonly align?: 'start' | 'end';
}

export interface SheetTable {
  readonly title: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly string[])[];
}

const rowMm = 4.6;
const headMm = 11.5;

/** A table as blocks of a column, cut into as many as the column's height asks for, each with its heading. */
export const tableBlocks = (
  font: PenFont,
  widthMm: number,
  { title, columns, rows }: SheetTable,
  mostHeightMm: number,
): readonly ColumnBlock[] => {
  const perBlock = Math.max(1, Math.floor((mostHeightMm - headMm - 2) / rowMm));
  const count = Math.max(1, Math.ceil(rows.length / perBlock));
  const total = columns.reduce((sum, { share }) => sum + share, 0);
  return Array.from({ length: count }, (_, part): ColumnBlock => {
    const pen = new PaperPen(font);
    const own = rows.slice(part * perBlock, (part + 1) * perBlock);
    pen.text({
      text: part === 0 ? title : `${title}, continued`,
      at: { x: 0, y: -3.4 },
      capitalMm: capital.usual,
      colour: ink,
      mostMm: widthMm,
    });
    const cells = (texts: readonly string[], y: number, colour: typeof ink): void => {
      let x = 0;
      for (const [index, { share, align = 'start' }] of columns.entries()) {
        const width = (share / total) * widthMm;
        pen.text({
          text: texts[index] ?? '',
          at: { x: align === 'start' ? x + 0.5 : x + width - 1.5, y },
          align,
          capitalMm: capital.small,
          colour,
          mostMm: width - 2,
        });
        x += width;
      }
    };
    cells(
      columns.map((column) => column.title),
      -9.2,
      quiet,
    );
    const rule = (y: number, widthOfLine: number) =>
      pen.line(
        [
          { x: 0, y },
          { x: widthMm, y },
        ],
        { widthMm: widthOfLine, colour: widthOfLine > 0.2 ? ink : quiet },
      );
    rule(-10.3, 0.35);
    for (const [index, row] of own.entries()) {
      const foot = -headMm - (index + 1) * rowMm + 1.2;
      cells(row, foot + 1.2, ink);
      rule(foot, 0.13);
    }
    return { heightMm: headMm + own.length * rowMm + 2, picture: pen.picture() };
  });
};
