import { type CellStyle, cellStyles } from './workbook.ts';

interface Look {
  readonly font: 'plain' | 'bold' | 'title' | 'quiet';
  readonly format?: string;
  readonly fill?: 'heading' | 'total';
  readonly border?: 'under' | 'over' | 'box';
  readonly align?: 'left' | 'wrap-left' | 'wrap-right' | 'wrap-across';
}

const fontXml: Readonly<Record<Look['font'], string>> = {
  plain: '<font><sz val="10"/><name val="Arial"/><family val="2"/></font>',
  bold: '<font><b/><sz val="10"/><name val="Arial"/><family val="2"/></font>',
  title: '<font><b/><sz val="14"/><name val="Arial"/><family val="2"/></font>',
  quiet: '<font><i/><sz val="9"/><name val="Arial"/><family val="2"/></font>',
};
const fonts = Object.keys(fontXml) as readonly Look['font'][];

const solid = (rgb: string) =>
  `<fill><patternFill patternType="solid"><fgColor rgb="${rgb}"/><bgColor indexed="64"/></patternFill></fill>`;
/** The first two fills are fixed by the format. */
const fillXml =
  '<fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>' +
  solid('FFE8E8E8') +
  solid('FFF4F4F4');
const fillId = { heading: 2, total: 3 } as const;

const side = (name: string, isDrawn: boolean) =>
  isDrawn ? `<${name} style="thin"><color auto="1"/></${name}>` : `<${name}/>`;
const border = (...drawn: readonly string[]) =>
  `<border>${['left', 'right', 'top', 'bottom'].map((name) => side(name, drawn.includes(name))).join('')}<diagonal/></border>`;
const borderXml = border() + border('bottom') + border('top') + border('left', 'right', 'top', 'bottom');
const borderId = { under: 1, over: 2, box: 3 } as const;

/** Text stands a little off the column before it, whose numbers end at its edge. */
const alignments: Readonly<Record<NonNullable<Look['align']>, string>> = {
  left: ' horizontal="left" indent="1"',
  'wrap-left': ' horizontal="left" indent="1" wrapText="1"',
  'wrap-right': ' horizontal="right" wrapText="1"',
  'wrap-across': ' wrapText="1"',
};

const looks = (moneyDecimals: number): Readonly<Record<CellStyle, Look>> => {
  const money = `#,##0${moneyDecimals === 0 ? '' : `.${'0'.repeat(moneyDecimals)}`}`;
  const total = { font: 'bold', fill: 'total', border: 'over' } as const;
  return {
    text: { font: 'plain', align: 'wrap-left' },
    title: { font: 'title' },
    caption: { font: 'quiet', align: 'wrap-across' },
    sentence: { font: 'plain', align: 'wrap-across' },
    heading: { font: 'bold', fill: 'heading', border: 'under', align: 'wrap-left' },
    'heading-number': { font: 'bold', fill: 'heading', border: 'under', align: 'wrap-right' },
    section: { font: 'bold', border: 'under' },
    hold: { font: 'bold', align: 'wrap-left' },
    count: { font: 'plain', format: '0' },
    millimetres: { font: 'plain', format: '0.0' },
    inches: { font: 'plain', format: '# ??/16' },
    degrees: { font: 'plain', format: '0.00' },
    kilograms: { font: 'plain', format: '0.0' },
    kilowatts: { font: 'plain', format: '0.000' },
    'litres-per-second': { font: 'plain', format: '0.00' },
    percent: { font: 'plain', format: '0.00' },
    money: { font: 'plain', format: money },
    rate: { font: 'plain', format: '0.00####' },
    'total-text': { ...total, align: 'left' },
    'total-count': { ...total, format: '0' },
    'total-millimetres': { ...total, format: '0.0' },
    'total-inches': { ...total, format: '# ??/16' },
    'total-money': { ...total, format: money },
    'total-kilograms': { ...total, format: '0.0' },
    'total-kilowatts': { ...total, format: '0.000' },
    entry: { font: 'plain', border: 'box' },
  };
};

/** The index of a style among the workbook's cell formats. */
export const styleIndex = (style: CellStyle): number => cellStyles.indexOf(style);

/** The numbers from which a workbook's own number formats count: those below are built in. */
const firstOwnFormat = 164;

/** The styles part of a workbook. */
export const stylesXml = (moneyDecimals: number): string => {
  const own = looks(moneyDecimals);
  const formats = [...new Set(cellStyles.flatMap((style) => own[style].format ?? []))];
  const formatXml = formats
    .map((code, index) => `<numFmt numFmtId="${firstOwnFormat + index}" formatCode="${code}"/>`)
    .join('');
  const cellXml = cellStyles
    .map((style) => {
      const { font, format, fill, border: edge, align } = own[style];
      const numberFormat = format === undefined ? 0 : firstOwnFormat + formats.indexOf(format);
      const across = align === undefined ? '' : alignments[align];
      return `<xf numFmtId="${numberFormat}" fontId="${fonts.indexOf(font)}" fillId="${fill ? fillId[fill] : 0}" borderId="${edge ? borderId[edge] : 0}" xfId="0" applyNumberFormat="1" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1"><alignment vertical="top"${across}/></xf>`;
    })
    .join('');
  return `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts count="${formats.length}">${formatXml}</numFmts><fonts count="${fonts.length}">${fonts.map((font) => fontXml[font]).join('')}</fonts><fills count="4">${fillXml}</fills><borders count="4">${borderXml}</borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="${cellStyles.length}">${cellXml}</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;
};
