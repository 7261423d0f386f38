import { runChanges } from './runChanges.ts';
import type { TakeoffChange } from './takeoffChange.ts';
import type { TakeoffFacts } from './takeoffFacts.ts';

const verdictWords = {
  passes: 'passes',
  'measure-on-site': 'measure on site',
  'assemble-on-site': 'assemble on site',
  'in-parts': 'in parts',
} as const;

const planOf = ({ planFileName, pageNumber, revision }: TakeoffFacts['sheets'][number]): string =>
  `${planFileName}, page ${pageNumber}${revision === '' ? '' : `, revision ${revision}`}`;

const planChanges = (before: TakeoffFacts, after: TakeoffFacts): readonly TakeoffChange[] => {
  const changes: TakeoffChange[] = [];
  const known = new Map(before.sheets.map((sheet) => [sheet.id, sheet]));
  for (const sheet of after.sheets) {
    const was = known.get(sheet.id);
    const superseded = sheet.supersedes === null ? undefined : known.get(sheet.supersedes);
    const kind = 'plan';
    const where = sheet.name;
    if (!was && superseded)
      changes.push({ kind, where, what: 'Plan is revised', was: planOf(superseded), is: planOf(sheet) });
    else if (!was) changes.push({ kind, where, what: 'Sheet is new', was: null, is: planOf(sheet) });
    else if (was.planSha256 !== sheet.planSha256 || was.pageNumber !== sheet.pageNumber)
      changes.push({ kind, where, what: 'Plan is another file', was: planOf(was), is: planOf(sheet) });
  }
  for (const sheet of before.sheets)
    if (!after.sheets.some(({ id, supersedes }) => id === sheet.id || supersedes === sheet.id))
      changes.push({ kind: 'plan', where: sheet.name, what: 'Sheet is gone', was: planOf(sheet), is: null });
  return changes;
};

const rangeOf = ({ range }: TakeoffFacts): string => `${range.name}, version ${range.version}`;

const wayInChanges = (before: TakeoffFacts, after: TakeoffFacts): readonly TakeoffChange[] => {
  const kind = 'way-in';
  if (before.wayIn?.name !== after.wayIn?.name)
    return [
      { kind, where: '', what: 'Way in', was: before.wayIn?.name ?? null, is: after.wayIn?.name ?? null },
    ];
  const earlier = new Map((before.wayIn?.verdicts ?? []).map(({ mark, verdict }) => [mark, verdict]));
  return (after.wayIn?.verdicts ?? []).flatMap(({ mark, verdict }): readonly TakeoffChange[] => {
    const was = earlier.get(mark);
    // That a piece is new is said elsewhere; here, only that it does not simply pass.
    if (was === verdict || (was === undefined && verdict === 'passes')) return [];
    const where = after.wayIn?.name ?? '';
    return [{ kind, where, what: mark, was: was ? verdictWords[was] : null, is: verdictWords[verdict] }];
  });
};

const priceChanges = (before: TakeoffFacts, after: TakeoffFacts): readonly TakeoffChange[] => {
  const isSame =
    before.total?.minor === after.total?.minor && before.total?.currency === after.total?.currency;
  return isSame
    ? []
    : [{ kind: 'price', where: '', what: 'Total of the quote', was: before.total, is: after.total }];
};

/**
 * What changed between two takeoffs as issued: plans, stock, runs, lengths beyond their uncertainty, corners, modules,
 * stations, leftovers, verdicts on the way in, price. Empty where they are the same.
 */
export const takeoffChanges = (before: TakeoffFacts, after: TakeoffFacts): readonly TakeoffChange[] => [
  ...planChanges(before, after),
  ...(rangeOf(before) === rangeOf(after)
    ? []
    : [{ kind: 'stock' as const, where: '', what: 'Stock range', was: rangeOf(before), is: rangeOf(after) }]),
  ...runChanges(before.runs, after.runs),
  ...wayInChanges(before, after),
  ...priceChanges(before, after),
];
