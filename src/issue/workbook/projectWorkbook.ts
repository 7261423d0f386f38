import { quoteOf } from '../../quote/quote.ts';
import { minorDigitsOf } from '../../units/money.ts';
import { changesSheet } from './changesSheet.ts';
import { extrasSheet } from './extrasSheet.ts';
import { installationSheet } from './installationSheet.ts';
import { leftoversSheet } from './leftoversSheet.ts';
import { openQuestions } from './openQuestions.ts';
import { optionsSheet } from './optionsSheet.ts';
import { piecesSheet } from './piecesSheet.ts';
import { quoteSheet } from './quoteSheet.ts';
import { servicesSheet } from './servicesSheet.ts';
import { siteMeasureSheet } from './siteMeasureSheet.ts';
import { wayInSheet } from './wayInSheet.ts';
import type { Workbook } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/**
 * A project's workbook as data: pieces, extras, leftovers, services, installation order, way in, site
 * measure, quote, options.
 */
export const projectWorkbook = (input: WorkbookInput): Workbook => {
  const quote = quoteOf(input.runs, input.range, input.settings, openQuestions(input));
  const quoted = quoteSheet(input, quote);
  return {
    title: input.job.name,
    at: input.at,
    paper: input.paper,
    moneyDecimals: minorDigitsOf(input.range.currency),
    sheets: [
      piecesSheet(input),
      extrasSheet(input),
      leftoversSheet(input),
      servicesSheet(input),
      installationSheet(input),
      ...(input.access ? [wayInSheet(input, input.access)] : []),
      siteMeasureSheet(input),
      quoted.sheet,
      ...(quote.options.length === 0 ? [] : [optionsSheet(input, quote, quoted.totalCell)]),
      ...(input.issue ? [changesSheet(input, input.issue)] : []),
    ],
  };
};
