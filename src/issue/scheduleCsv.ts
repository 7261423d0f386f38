import type { ScheduleRow } from '../quote/schedule.ts';
import { writeCsvRows } from '../stock/csvRows.ts';

/** A spreadsheet runs a cell that starts with one of these as a formula; a quote mark before it keeps it text. */
const formulaStart = /^[=+\-@\t\r]/;

const cell = (value: string | number | null): string => {
  if (value === null) return '';
  if (typeof value === 'number') return String(Math.round(value * 1000) / 1000);
  return formulaStart.test(value) ? `'${value}` : value;
};

const kindWords: Readonly<Record<ScheduleRow['kind'], string>> = {
  module: 'module',
  station: 'station',
  'corner-unit': 'corner unit',
  'corner-wedge': 'corner wedge, made to measure',
  closes: 'closes',
  filler: 'filler',
  'made-to-measure': 'made to measure',
  'by-others': 'by others',
  'low-section': 'low section, made to measure',
  extra: 'extra',
};

/**
 * The schedule as CSV (RFC 4180: comma, quotes doubled, CR LF), with units in the headings and a byte order mark so
 * that spreadsheets read its letters right.
 */
export const scheduleCsv = (rows: readonly ScheduleRow[], currency: string): string => {
  const headings = [
    'Mark',
    'Run',
    'Straight',
    'Kind',
    'Item',
    'Name',
    'Count',
    'From (mm)',
    'To (mm)',
    'Width (mm)',
    'Mass (kg)',
    `Price (${currency})`,
    'Note',
  ];
  const lines = rows.map((row) => [
    row.mark,
    row.run,
    row.straight,
    kindWords[row.kind],
    row.item,
    row.name,
    row.count,
    row.fromMm,
    row.toMm,
    row.widthMm,
    row.massKg,
    row.price,
    row.note,
  ]);
  return `\uFEFF${writeCsvRows([headings, ...lines.map((line) => line.map(cell))])}`;
};
