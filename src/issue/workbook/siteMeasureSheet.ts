import { siteMeasureList } from '../../quote/siteMeasure.ts';
import { wayInMeasures } from '../../quote/wayInMeasures.ts';
import { cells, empty, millimetres, number, section, text } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import type { WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

const upTo = (value: number, decimals: number): number => {
  const factor = 10 ** decimals;
  return Math.ceil(value * factor - 1e-6) / factor;
};

/** The lengths to take on site: what decides something first, why, and room to write. */
export const siteMeasureSheet = (input: WorkbookInput): WorkbookSheet => ({
  name: 'Site measure',
  above: sheetHead(
    'Site measure',
    input,
    'Measure at finished surfaces, at floor and at top height; write the smaller down and note the difference. +/- at k = 2.',
  ),
  columns: [
    { heading: 'Run', width: 16 },
    { heading: 'Straight', width: 9 },
    { heading: 'What', width: 42 },
    { heading: 'Drawn (mm)', width: 11 },
    { heading: '+/- (mm)', width: 9 },
    { heading: 'Drawn (deg)', width: 9 },
    { heading: '+/- (deg)', width: 8 },
    { heading: 'Decides', width: 9 },
    { heading: 'Why', width: 48 },
    { heading: 'Measured', width: 16 },
    { heading: 'By, date', width: 16 },
  ],
  rows: [
    ...siteMeasureList(input.runs, input.access ? wayInMeasures(input.access) : []).map((measure) => {
      const isLength = measure.unit === 'mm';
      return cells(
        text(measure.run),
        number(measure.straight, 'count'),
        text(measure.what),
        millimetres(isLength ? measure.drawn : null),
        number(isLength ? upTo(measure.plusMinus, 1) : null, 'millimetres'),
        number(isLength ? null : Math.round(measure.drawn * 1000) / 1000, 'degrees'),
        number(isLength ? null : upTo(measure.plusMinus, 2), 'degrees'),
        text(measure.decides ? 'yes' : 'no'),
        text(measure.why),
        empty('entry'),
        empty('entry'),
      );
    }),
    ...section('Measured by', [
      'Name, date, instrument:',
      'What stood in the way, what is out of square or level:',
    ]),
  ],
});
