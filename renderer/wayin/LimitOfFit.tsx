import { useMemo } from 'react';
import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { runIdsInForce } from '../../src/document/runsInForce.ts';
import { type CostOfFit, costOfFit, sumOfCosts } from '../../src/quote/costOfFit.ts';
import type { ProjectAccess, RunLimit } from '../../src/quote/projectAccess.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { MINUS } from '../../src/units/digitGroups.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { formatMoney, moneyOf } from '../../src/units/money.ts';
import { type RunFit, useRunFits } from '../fitting/useRunFits.ts';

/** What all runs come to with their best fits; null while one is still being fitted or has none. */
const costOf = (
  document: ProjectDocument,
  range: StockRange,
  fits: ReadonlyMap<string, RunFit>,
): CostOfFit | null => {
  const costs: CostOfFit[] = [];
  for (const [index, runId] of runIdsInForce(document).entries()) {
    const fit = fits.get(runId);
    const best = fit?.status === 'ready' ? fit.answer.alternatives[0] : undefined;
    const name = document.runs[runId]?.name;
    if (fit?.status !== 'ready' || !best || name === undefined) return null;
    costs.push(costOfFit({ name, number: index + 1, problem: fit.problem }, best, range));
  }
  return sumOfCosts(costs, range.currency);
};

const signed = (count: number): string => (count > 0 ? `+${count}` : count < 0 ? `${MINUS}${-count}` : '0');

/** The price of the narrow door: the best fits without and with the limit, side by side. */
const PriceOfLimit = (props: { readonly document: ProjectDocument; readonly range: StockRange }) => {
  const { document, range } = props;
  const free = useMemo(() => ({ ...document, limitedRunIds: [] }), [document]);
  const tied = useMemo(() => ({ ...document, limitedRunIds: document.runIds }), [document]);
  const freeFits = useRunFits(free, range, true);
  const tiedFits = useRunFits(tied, range, true);
  const without = costOf(free, range, freeFits);
  const limited = costOf(tied, range, tiedFits);
  if (!without || !limited) {
    const refused = [...tiedFits.values()].find(({ status }) => status === 'refused');
    return (
      <p className="step-lead" role="status">
        {refused?.status === 'refused' ? refused.message : 'Fitting with and without the limit …'}
      </p>
    );
  }
  const { currency } = range;
  const difference = moneyOf(limited.goods.minor - without.goods.minor, currency);
  const plain = (minor: number) => formatMoney(moneyOf(minor, currency)).replace(`${currency}\u00a0`, '');
  const rows = [
    ['Pieces', without.pieces, limited.pieces],
    ['Joints', without.joints, limited.joints],
    ['Made to measure', without.madeToMeasure, limited.madeToMeasure],
  ] as const;
  const missing = without.withoutPrice + limited.withoutPrice;
  return (
    <table className="narrow-door">
      <caption>The price of the narrow way, all runs</caption>
      <thead>
        <tr>
          <td />
          <th scope="col">free</th>
          <th scope="col">limited</th>
          <th scope="col">more</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([words, before, after]) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            <td>{before}</td>
            <td>{after}</td>
            <td>{signed(after - before)}</td>
          </tr>
        ))}
        <tr className="is-money">
          <th scope="row">{currency}</th>
          <td>{plain(without.goods.minor)}</td>
          <td>{plain(limited.goods.minor)}</td>
          <td>{difference.minor > 0 ? `+${plain(difference.minor)}` : plain(difference.minor)}</td>
        </tr>
      </tbody>
      {missing > 0 && (
        <tfoot>
          <tr>
            <td colSpan={4}>Some lines have no price in the range and are in neither sum.</td>
          </tr>
        </tfoot>
      )}
    </table>
  );
};

/** `2 100 mm`, or each run with its own where they differ. */
const limitWords = (limits: readonly RunLimit[], unit: DisplayUnit): string => {
  const words = (limit: RunLimit) =>
    limit.widest.widthMm === null ? 'nothing' : formatLength(limit.widest.widthMm, { unit });
  const [first, ...others] = limits;
  if (!first) return '';
  return others.every((limit) => limit.widest.widthMm === first.widest.widthMm)
    ? words(first)
    : limits.map((limit) => `${words(limit)} (${limit.run.name})`).join(', ');
};

/** The link from the way in to the fit: one click ties the runs to what passes, another lets them go. */
export const LimitOfFit = (props: {
  readonly document: ProjectDocument;
  readonly range: StockRange;
  readonly access: ProjectAccess;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
}) => {
  const { access, unit } = props;
  const { limits } = access;
  if (limits.length === 0) return null;
  const narrow = limits.filter(({ widest }) => widest.widthMm !== widest.widestMm);
  const tied = limits.filter(({ isTied }) => isTied);
  const set = (isLimited: boolean) =>
    props.onCommand({ type: 'limit-runs', runIds: limits.map(({ run }) => run.id), isLimited });
  const maybe = narrow.find(({ widest }) => widest.asDrawnMm !== null)?.widest.asDrawnMm ?? null;
  const blocked = narrow.find(({ widest }) => widest.widthMm === null);
  return (
    <section className="way-limit" aria-label="Limit of the fit">
      {narrow.length === 0 ? (
        <p className="step-lead">
          Every module of the range passes{tied.length > 0 ? ': the limit holds nothing back' : ''}.
        </p>
      ) : blocked && tied.length === 0 ? (
        <p className="alert">No module of the range passes for sure.</p>
      ) : tied.length === limits.length ? (
        <p>
          The fit is limited to what passes: <b>{limitWords(narrow, unit)}</b>. It follows the way in.
        </p>
      ) : (
        <button type="button" className="plain-button" onClick={() => set(true)}>
          Limit the fit to what passes: {limitWords(narrow, unit)}
        </button>
      )}
      {tied.length > 0 && (
        <button type="button" className="word-button" onClick={() => set(false)}>
          Let the fit go free
        </button>
      )}
      {maybe !== null && (
        <p className="step-lead">
          As drawn, up to {formatLength(maybe, { unit })} would pass: only the site can tell.
        </p>
      )}
      {narrow.length > 0 && !blocked && <PriceOfLimit document={props.document} range={props.range} />}
    </section>
  );
};
