import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { runIdsInForce, runNumberOf } from '../../src/document/runsInForce.ts';
import { type Quote, quoteOf } from '../../src/quote/quote.ts';
import type { QuotedRun } from '../../src/quote/quotedRun.ts';
import { standardQuoteTerms } from '../../src/quote/quoteSettings.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { refusalWords } from '../fitting/refusalWords.ts';
import type { RunFit } from '../fitting/useRunFits.ts';

/** The quote as it stands, and the runs that it lacks with the reason. */
export interface QuoteInHand {
  readonly quote: Quote;
  readonly lacking: readonly { readonly name: string; readonly why: string }[];
}

const otherFitsMost = 3;

/** The quote of the fits that would go out today; null while no run is fitted or one is still being fitted. */
export const quoteInHand = (
  document: ProjectDocument,
  range: StockRange,
  fits: ReadonlyMap<string, RunFit>,
  date: string,
): QuoteInHand | null => {
  const lacking: { name: string; why: string }[] = [];
  const quoted: QuotedRun[] = [];
  for (const runId of runIdsInForce(document)) {
    const name = document.runs[runId]?.name ?? runId;
    const fit = fits.get(runId);
    if (fit?.status === 'ready') {
      const alternative = fit.kept?.isCurrent ? fit.kept.alternative : fit.answer.alternatives[0];
      if (!alternative) lacking.push({ name, why: fit.answer.explanation });
      else
        quoted.push({
          name,
          number: runNumberOf(document, runId),
          problem: fit.problem,
          alternative,
          others: fit.answer.alternatives.filter((other) => other !== alternative).slice(0, otherFitsMost),
          questions: fit.answer.questions,
        });
    } else if (fit?.status === 'refused' || fit?.status === 'failed')
      lacking.push({ name, why: refusalWords(fit.message) });
    else return null;
  }
  if (quoted.length === 0) return null;
  const settings = { ...(document.quoteTerms ?? standardQuoteTerms), date };
  return { quote: quoteOf(quoted, range, settings), lacking };
};
