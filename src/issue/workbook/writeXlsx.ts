import { strToU8, type Zippable, zipSync } from 'fflate';
import { sheetXml } from './sheetXml.ts';
import { stylesXml } from './stylesXml.ts';
import { columnLetters, headingRow, type Workbook } from './workbook.ts';
import { xmlText } from './xmlText.ts';

const declaration = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const officeDocument = 'http://schemas.openxmlformats.org/officeDocument/2006';
const packages = 'http://schemas.openxmlformats.org/package/2006';
const spreadsheetType = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** The media type of a workbook. */
export const XLSX_MEDIA_TYPE = `${spreadsheetType}.sheet`;

/** The zip's own dates are in local time: this one reads the same everywhere, so that equal workbooks are equal bytes. */
const zipDate = (): Date => new Date(1980, 0, 2, 12);

const checkedNames = ({ sheets }: Workbook): void => {
  const seen = new Set<string>();
  for (const { name } of sheets) {
    if (!/^[^[\]:*?/\\']{1,31}$/.test(name) || seen.has(name.toLowerCase()))
      throw new RangeError(`"${name}" is no name of a sheet, or is there twice`);
    seen.add(name.toLowerCase());
  }
};

const workbookXml = (workbook: Workbook): string => {
  const sheets = workbook.sheets
    .map(
      ({ name }, index) => `<sheet name="${xmlText(name)}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`,
    )
    .join('');
  const names = workbook.sheets
    .map((sheet, index) => {
      const { name, columns, rows } = sheet;
      const heading = headingRow(sheet);
      const last = `$${columnLetters(columns.length - 1)}$${heading + rows.length}`;
      const at = `'${xmlText(name)}'!`;
      return (
        `<definedName name="_xlnm.Print_Area" localSheetId="${index}">${at}$A$1:${last}</definedName>` +
        `<definedName name="_xlnm.Print_Titles" localSheetId="${index}">${at}$${heading}:$${heading}</definedName>`
      );
    })
    .join('');
  return `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="${officeDocument}/relationships"><bookViews><workbookView activeTab="0"/></bookViews><sheets>${sheets}</sheets><definedNames>${names}</definedNames><calcPr calcId="0" fullCalcOnLoad="1"/></workbook>`;
};

const relationship = (id: string, type: string, target: string): string =>
  `<Relationship Id="${id}" Type="${type}" Target="${target}"/>`;
const relationships = (...inner: readonly string[]): string =>
  `<Relationships xmlns="${packages}/relationships">${inner.join('')}</Relationships>`;

/**
 * A workbook as Office Open XML (ECMA-376, spreadsheet): strings inline, formulas live with their present value, no
 * macros, no links, nothing fetched. Equal workbooks give equal bytes. Throws a RangeError for a sheet's name that the
 * format refuses and for numbers that are not finite.
 */
export const writeXlsx = (workbook: Workbook): Uint8Array => {
  checkedNames(workbook);
  const count = workbook.sheets.length;
  const numbers = workbook.sheets.map((_, index) => index + 1);
  const parts: Readonly<Record<string, string>> = {
    '[Content_Types].xml': `<Types xmlns="${packages}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${spreadsheetType}.sheet.main+xml"/>${numbers
      .map(
        (at) =>
          `<Override PartName="/xl/worksheets/sheet${at}.xml" ContentType="${spreadsheetType}.worksheet+xml"/>`,
      )
      .join(
        '',
      )}<Override PartName="/xl/styles.xml" ContentType="${spreadsheetType}.styles+xml"/><Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/></Types>`,
    '_rels/.rels': relationships(
      relationship('rId1', `${officeDocument}/relationships/officeDocument`, 'xl/workbook.xml'),
      relationship('rId2', `${packages}/relationships/metadata/core-properties`, 'docProps/core.xml'),
    ),
    'docProps/core.xml': `<cp:coreProperties xmlns:cp="${packages}/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"><dc:title>${xmlText(workbook.title)}</dc:title><dc:creator>Footrail</dc:creator><dcterms:created xsi:type="dcterms:W3CDTF">${xmlText(workbook.at.replace(/\.\d+/, ''))}</dcterms:created></cp:coreProperties>`,
    'xl/workbook.xml': workbookXml(workbook),
    'xl/_rels/workbook.xml.rels': relationships(
      ...numbers.map((at) =>
        relationship(`rId${at}`, `${officeDocument}/relationships/worksheet`, `worksheets/sheet${at}.xml`),
      ),
      relationship(`rId${count + 1}`, `${officeDocument}/relationships/styles`, 'styles.xml'),
    ),
    'xl/styles.xml': stylesXml(workbook.moneyDecimals),
    ...Object.fromEntries(
      workbook.sheets.map((sheet, index) => [
        `xl/worksheets/sheet${index + 1}.xml`,
        sheetXml(sheet, workbook, index === 0),
      ]),
    ),
  };
  const files: Zippable = Object.fromEntries(
    Object.entries(parts).map(([name, xml]) => [name, strToU8(declaration + xml)]),
  );
  return zipSync(files, { level: 6, mtime: zipDate() });
};
