import type { Patch } from '../../document/patch.ts';
import type { StoredIssue } from '../issue/issuePort.ts';
import type { ProjectEvent } from '../ports.ts';

/** A project's changes and issues as a person reads them: who, when, what exactly. */

type Json = Readonly<Record<string, unknown>>;
const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const jobFields: Readonly<Record<string, string>> = {
  name: 'name',
  number: 'job number',
  client: 'client',
  site: 'site',
  state: 'state',
  tenderDate: 'tender date',
  retainUntil: 'keep until',
};

/** The parts of a document whose records have names. */
const namedParts: ReadonlySet<string> = new Set(['sheets', 'runs', 'zones', 'waysIn']);

/** Names shown of one change at most. */
const namesMost = 4;

const quoted = (value: unknown): string =>
  typeof value === 'string' && value !== '' ? `“${value.slice(0, 60)}”` : 'empty';

/** The names that records have or had, by their ids: of the document, and of every change for what is gone. */
const namesIn = (document: unknown, events: readonly ProjectEvent[]): ReadonlyMap<string, string> => {
  const names = new Map<string, string>();
  const note = (id: unknown, record: unknown): void => {
    if (typeof id !== 'string' || !isRecord(record)) return;
    const name = record['name'];
    if (typeof name === 'string' && name !== '') names.set(id, name);
  };
  for (const { patch } of events)
    for (const operation of [...patch.inverse, ...patch.forward]) {
      const [part, id] = operation.path;
      if (operation.path.length === 2 && namedParts.has(String(part)) && 'value' in operation)
        note(id, operation.value);
    }
  if (isRecord(document))
    for (const part of namedParts) {
      const records = document[part];
      if (isRecord(records)) for (const [id, record] of Object.entries(records)) note(id, record);
    }
  return names;
};

/** What a change did to the job's particulars, from what to what. */
const jobDetail = ({ forward, inverse }: Patch): readonly string[] =>
  forward.flatMap((operation) => {
    const [part, field = ''] = operation.path;
    const words = jobFields[String(field)];
    if (part !== 'job' || operation.path.length !== 2 || words === undefined || !('value' in operation))
      return [];
    const before = inverse.find(({ path }) => path.length === 2 && path[0] === 'job' && path[1] === field);
    const was = before && 'value' in before ? before.value : undefined;
    return [`${words}: ${quoted(was)} to ${quoted(operation.value)}`];
  });

const detailOf = (patch: Patch, names: ReadonlyMap<string, string>): string => {
  const job = jobDetail(patch);
  const touched = patch.forward.flatMap(({ path: [part, id] }) => {
    const name = namedParts.has(String(part)) ? names.get(String(id)) : undefined;
    return name === undefined ? [] : [name];
  });
  const all = [...job, ...[...new Set(touched)].map((name) => `“${name.slice(0, 60)}”`)];
  const more = all.length - namesMost;
  return [...all.slice(0, namesMost), ...(more > 0 ? [`${more} more`] : [])].join(', ');
};

/** The change after which an issue stands: the last one that is not later than it. */
const placeOf = (issuedAt: string, events: readonly ProjectEvent[]): number => {
  let after = 0;
  for (const [index, { at }] of events.entries()) if (at <= issuedAt) after = index + 1;
  return after;
};

/** Every change of a project, the oldest first, and what was issued in between. */
export const projectHistory = (
  document: unknown,
  events: readonly ProjectEvent[],
  issues: readonly StoredIssue[],
) => {
  const names = namesIn(document, events);
  return {
    changes: events.map(({ kind, label, patch, at, by }, index) => ({
      revision: index + 1,
      kind,
      label,
      at,
      by: by ?? null,
      detail: detailOf(patch, names),
    })),
    issues: issues.map(({ number, issuedAt, issuedBy, purpose, files }) => ({
      number,
      at: issuedAt,
      by: issuedBy,
      purpose,
      after: placeOf(issuedAt, events),
      files: files.length,
    })),
  };
};
