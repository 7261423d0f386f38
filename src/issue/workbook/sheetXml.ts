import { styleIndex } from './stylesXml.ts';
import {
  type Cell,
  type CellStyle,
  columnLetters,
  headingRow,
  type Workbook,
  type WorkbookRow,
  type WorkbookSheet,
} from './workbook.ts';
import { spreadsheetText, xmlText } from './xmlText.ts';

/** The most characters that a cell may hold (the format's own limit). */
const mostCharacters = 32_767;

/** Line height in points of the 10-point text. */
const linePt = 13;

const cellXml = (cell: Cell, reference: string): string => {
  if (cell === null) return '';
  const style = styleIndex(cell.style);
  if ('text' in cell) {
    if (cell.text === '') return `<c r="${reference}" s="${style}"/>`;
    if (cell.text.length > mostCharacters)
      throw new RangeError(`A cell holds ${mostCharacters} characters, found ${cell.text.length}`);
    return `<c r="${reference}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${spreadsheetText(cell.text)}</t></is></c>`;
  }
  const value = 'formula' in cell ? cell.value : cell.number;
  if (!Number.isFinite(value)) throw new RangeError(`A cell holds a finite number, found ${value}`);
  const source = 'formula' in cell ? `<f>${xmlText(cell.formula)}</f>` : '';
  return `<c r="${reference}" s="${style}">${source}<v>${value}</v></c>`;
};

/** Lines of a text that breaks between words in a width of so many characters. */
const lineCount = (value: string, width: number): number =>
  value.split('\n').reduce((sum, line) => {
    let lines = 1;
    let used = 0;
    for (const word of line.split(' ')) {
      const needed = used === 0 ? word.length : used + 1 + word.length;
      if (needed <= width) used = needed;
      else {
        lines += (used === 0 ? 0 : 1) + Math.floor(Math.max(0, word.length - 1) / width);
        used = word.length % width;
      }
    }
    return sum + lines;
  }, 0);

/** How many characters of a style lie in a column: bold ones are wider, and text is indented by about two. */
const charactersIn = (width: number, style: CellStyle): number =>
  Math.max(1, Math.floor(style === 'text' ? width - 2 : (width - 2) * 0.88));

const linesOf = (row: WorkbookRow, widths: readonly number[]): number => {
  if (row.kind === 'across') return lineCount(row.text, widths.reduce((sum, width) => sum + width, 0) * 0.95);
  return Math.max(
    1,
    ...row.cells.map((cell, index) =>
      cell !== null && 'text' in cell
        ? lineCount(cell.text, charactersIn(widths[index] ?? 10, cell.style))
        : 1,
    ),
  );
};

/** A heading stands over its numbers, at the right. */
const holdsNumbers = ({ rows }: WorkbookSheet, column: number): boolean =>
  rows.some((row) => {
    const cell = row.kind === 'cells' ? (row.cells[column] ?? null) : null;
    return cell !== null && !('text' in cell);
  });

/** The most characters of a title in the footer: a footer as a whole holds 255 (the format's own limit). */
const footerMost = 80;

/** Footers take `&` for a command; a plain one is doubled. Long titles are cut, with an ellipsis. */
const footerText = (value: string): string => {
  const characters = [...value.replace(/\s+/g, ' ')];
  const cut =
    characters.length > footerMost ? `${characters.slice(0, footerMost - 1).join('')}…` : characters.join('');
  return xmlText(cut.replaceAll('&', '&&'));
};

/**
 * A sheet's part: columns, rows, the headings frozen, and print set-up: landscape, one page wide, page x of y. The
 * headings' row is repeated on every page by a defined name of the workbook.
 */
export const sheetXml = (
  sheet: WorkbookSheet,
  { title, paper }: Pick<Workbook, 'title' | 'paper'>,
  isFirst: boolean,
): string => {
  const { columns, above, rows } = sheet;
  const heading: WorkbookRow = {
    kind: 'cells',
    cells: columns.map((column, index) => ({
      text: column.heading,
      style: holdsNumbers(sheet, index) ? 'heading-number' : 'heading',
    })),
  };
  const all = [...above, heading, ...rows];
  const widths = columns.map(({ width }) => width);
  const lastColumn = columnLetters(columns.length - 1);
  const merged: string[] = [];
  const rowXml = all
    .map((row, index) => {
      const at = index + 1;
      const height = Math.min(409, linesOf(row, widths) * linePt + 2);
      const isTitle = row.kind === 'across' && row.style === 'title';
      if (row.kind === 'across') merged.push(`A${at}:${lastColumn}${at}`);
      const own: readonly Cell[] =
        row.kind === 'across'
          ? columns.map((_, column) => ({ text: column === 0 ? row.text : '', style: row.style }))
          : row.cells;
      const inner = own.map((cell, column) => cellXml(cell, `${columnLetters(column)}${at}`)).join('');
      return `<row r="${at}" ht="${isTitle ? 20 : height}" customHeight="1">${inner}</row>`;
    })
    .join('');
  const frozen = headingRow(sheet);
  const columnXml = columns
    .map(
      ({ width }, index) => `<col min="${index + 1}" max="${index + 1}" width="${width}" customWidth="1"/>`,
    )
    .join('');
  const mergeXml =
    merged.length === 0
      ? ''
      : `<mergeCells count="${merged.length}">${merged.map((ref) => `<mergeCell ref="${ref}"/>`).join('')}</mergeCells>`;
  return `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><dimension ref="A1:${lastColumn}${all.length}"/><sheetViews><sheetView showGridLines="0" workbookViewId="0"${isFirst ? ' tabSelected="1"' : ''}><pane ySplit="${frozen}" topLeftCell="A${frozen + 1}" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft" activeCell="A${frozen + 1}" sqref="A${frozen + 1}"/></sheetView></sheetViews><sheetFormatPr defaultRowHeight="${linePt + 2}"/><cols>${columnXml}</cols><sheetData>${rowXml}</sheetData>${mergeXml}<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/><pageSetup paperSize="${paper === 'a4' ? 9 : 1}" orientation="landscape" fitToWidth="1" fitToHeight="0"/><headerFooter><oddFooter>&amp;L${footerText(title)}&amp;C${footerText(sheet.name)}&amp;RPage &amp;P of &amp;N</oddFooter></headerFooter></worksheet>`;
};
