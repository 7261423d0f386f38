import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { isSameData } from './isSameData.ts';

/** A part of a project that a person takes for one thing: a run with its fit, a station, a field of the job. */
export interface ChangedPart {
  readonly key: string;
  readonly words: string;
  /** Set for a run. */
  readonly runId: string | null;
}

type Records = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Records =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const fieldWords: Readonly<Record<string, string>> = {
  name: 'the project’s name',
  number: 'the job number',
  client: 'the client',
  site: 'the site',
  state: 'the state',
  tenderDate: 'the tender date',
  retainUntil: 'the day until which it is kept',
  addenda: 'the addenda',
  questions: 'the questions',
};

const nameOf = (record: unknown): string | null =>
  isRecord(record) && typeof record['name'] === 'string' && record['name'] !== '' ? record['name'] : null;

/** What differs between two states of a project, part by part. Orders of parts are no part of their own. */
export const changedParts = (
  before: ProjectDocument,
  after: ProjectDocument,
): ReadonlyMap<string, ChangedPart> => {
  const parts = new Map<string, ChangedPart>();
  const runWords = (runId: string): string => {
    const runs: Records = { ...before.runs, ...after.runs };
    return `“${nameOf(runs[runId]) ?? 'a run'}”`;
  };
  const add = (key: string, words: string, runId: string | null = null): void => {
    parts.set(key, { key, words, runId });
  };
  for (const key of new Set([...Object.keys(before), ...Object.keys(after)])) {
    if (key.endsWith('Ids') || key === 'schemaVersion') continue;
    const [own, other] = [(before as Records)[key], (after as Records)[key]];
    if (own === other) continue;
    if (!isRecord(own) || !isRecord(other)) {
      if (!isSameData(own, other)) add(key, 'the project’s settings');
      continue;
    }
    for (const id of new Set([...Object.keys(own), ...Object.keys(other)])) {
      if (isSameData(own[id], other[id])) continue;
      if (key === 'runs' || key === 'keptFits') add(`run ${id}`, runWords(id), id);
      else if (key === 'job') add(`job ${id}`, fieldWords[id] ?? 'the job');
      else if (key === 'sheets')
        add(`${key} ${id}`, `the sheet “${nameOf(other[id]) ?? nameOf(own[id]) ?? ''}”`);
      else if (key === 'stations') add(`${key} ${id}`, 'a station');
      else add(`${key} ${id}`, 'the same thing');
    }
  }
  return parts;
};

/** The parts that both states changed, each in its way, since `before`; what both made the same is none. */
export const partsChangedByBoth = (
  before: ProjectDocument,
  mine: ProjectDocument,
  theirs: ProjectDocument,
): readonly ChangedPart[] => {
  const [own, others, apart] = [
    changedParts(before, mine),
    changedParts(before, theirs),
    changedParts(mine, theirs),
  ];
  return [...own.values()].filter(({ key }) => others.has(key) && apart.has(key));
};

/**
 * A run that was named by its number gets the next number that is free, where another window has taken its own
 * meanwhile. A name that a person gave stays, also where it is there twice.
 */
export const withFreeRunName = (command: Command, document: ProjectDocument): Command => {
  if (command.type !== 'add-run') return command;
  const numbered = /^Run (\d+)$/.exec(command.run.name);
  if (!numbered) return command;
  const taken = new Set(Object.values(document.runs).map(({ name }) => name));
  let number = Number(numbered[1]);
  while (taken.has(`Run ${number}`)) number += 1;
  const name = `Run ${number}`;
  return name === command.run.name ? command : { ...command, run: { ...command.run, name } };
};
