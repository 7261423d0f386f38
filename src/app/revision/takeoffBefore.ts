import type { SheetId } from '../../document/ids.ts';
import type { ProjectDocument, Run } from '../../document/projectDocument.ts';

const without = <Value>(
  records: { readonly [id: string]: Value },
  isGone: (value: Value) => boolean,
): { readonly [id: string]: Value } =>
  Object.fromEntries(Object.entries(records).filter(([, value]) => !isGone(value)));

/** The project as it would be without a revised sheet and what is traced on it: the sheet before it is in force again. */
export const documentWithout = (document: ProjectDocument, sheetId: SheetId): ProjectDocument => {
  const isOn = (run: Run | undefined): boolean => run?.sheetId === sheetId;
  const onGoneRun = ({ runId }: { readonly runId: Run['id'] }): boolean => isOn(document.runs[runId]);
  return {
    ...document,
    sheetIds: document.sheetIds.filter((id) => id !== sheetId),
    sheets: without(document.sheets, ({ id }) => id === sheetId),
    references: without(document.references, (reference) => reference.sheetId === sheetId),
    runIds: document.runIds.filter((id) => !isOn(document.runs[id])),
    runs: without(document.runs, isOn),
    zones: without(document.zones, onGoneRun),
    stations: without(document.stations, onGoneRun),
    keptFits: without(document.keptFits, onGoneRun),
    limitedRunIds: document.limitedRunIds.filter((id) => !isOn(document.runs[id])),
  };
};

const mineOf = <Mine extends { readonly id: string; readonly runId: string }>(
  records: { readonly [id: string]: Mine },
  runId: string,
): readonly Mine[] => Object.values(records).filter((record) => record.runId === runId);

/**
 * From ids of the runs before, their points and stations, to those of the runs that were carried over from them: by
 * their place, as far as there are as many of them still.
 */
export const carriedIds = (document: ProjectDocument, sheetId: SheetId): ReadonlyMap<string, string> => {
  const ids = new Map<string, string>();
  const pair = (before: readonly { readonly id: string }[], after: readonly { readonly id: string }[]) => {
    if (before.length !== after.length) return;
    for (const [index, { id }] of before.entries()) ids.set(id, after[index]!.id);
  };
  for (const run of Object.values(document.runs)) {
    const before = run.sheetId === sheetId && run.carriedFrom ? document.runs[run.carriedFrom] : undefined;
    if (!before) continue;
    ids.set(before.id, run.id);
    pair(before.frontLine, run.frontLine);
    pair(mineOf(document.stations, before.id), mineOf(document.stations, run.id));
  }
  return ids;
};

/** Any JSON value with ids changed over where they stand as whole strings. */
export const withIds = <Value>(value: Value, ids: ReadonlyMap<string, string>): Value => {
  if (typeof value === 'string') return (ids.get(value) ?? value) as Value;
  if (Array.isArray(value)) return value.map((one) => withIds(one, ids)) as Value;
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, withIds(one, ids)])) as Value;
};
