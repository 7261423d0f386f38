import { quoteOf } from '../../quote/quote.ts';
import { minorDigitsOf } from '../../units/money.ts';
import { changesSheet } from './changesSheet.ts';
import { extrasSheet } from './extrasSheet.ts';
import { inInches } from './inInches.ts';
import { installationSheet } from './installationSheet.ts';
import { leftoversSheet } from './leftoversSheet.ts';
import { openQuestions } from './openQuestions.ts';
import { optionsSheet } from './optionsSheet.ts';
import { piecesSheet } from './piecesSheet.ts';
import { quoteSheet } from './quoteSheet.ts';
import { servicesSheet } from './servicesSheet.ts';
import { siteMeasureSheet } from './siteMeasureSheet.ts';
import { wayInSheet } from './wayInSheet.ts';
import type { Workbook, WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/**
 * A project's workbook as data: pieces, extras, leftovers, services, installation order, way in, site
 * measure, quote, options.
 */
export const projectWorkbook = (input: WorkbookInput): Workbook => {
  const quote = quoteOf(input.runs, input.range, input.settings, openQuestions(input));
  const quoted = quoteSheet(input, quote);
  const { paper } = input;
  /** On Letter paper lengths are in inches, as the drawings are in feet and inches on US sheets. */
  const own = (sheet: WorkbookSheet): WorkbookSheet => (paper === 'letter' ? inInches(sheet) : sheet);
  return {
    title: input.job.name,
    at: input.at,
    paper,
    moneyDecimals: minorDigitsOf(input.range.currency),
    sheets: [
      own(piecesSheet(input)),
      own(extrasSheet(input)),
      own(leftoversSheet(input)),
      own(servicesSheet(input)),
      own(installationSheet(input)),
      ...(input.access ? [own(wayInSheet(input, input.access))] : []),
      own(siteMeasureSheet(input)),
      quoted.sheet,
      ...(quote.options.length === 0 ? [] : [own(optionsSheet(input, quote, quoted.totalCell))]),
      ...(input.issue ? [changesSheet(input, input.issue)] : []),
    ],
  };
};
