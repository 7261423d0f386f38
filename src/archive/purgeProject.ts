import type { Database } from 'better-sqlite3';
import type { ProjectCounts } from '../app/purge/purgePort.ts';
import { type ProjectFacts, runLengthMm } from '../app/search/projectFacts.ts';
import type { ProjectRecord } from './projectRecord.ts';
import { createSearchRows, type SearchRecord } from './searchRows.ts';
import { changeTally, columnsOf, digestOfRow } from './talliedTables.ts';

/**
 * Every table of the archive, and what a purge does with it. A test holds this list against the tables that there are,
 * so that a new one can't be passed over.
 */
export const tablesAtPurge: Readonly<
  Record<string, 'emptied of the project' | 'counts stay' | 'no person in it'>
> = {
  projects: 'counts stay',
  search_rows: 'counts stay',
  search_facts: 'counts stay',
  run_rows: 'emptied of the project',
  purged_issues: 'counts stay',
  issue_numbers: 'counts stay',
  documents: 'emptied of the project',
  events: 'emptied of the project',
  plans: 'emptied of the project',
  plan_bytes: 'emptied of the project',
  plan_words: 'emptied of the project',
  readings: 'emptied of the project',
  issues: 'emptied of the project',
  issue_parts: 'emptied of the project',
  saved_searches: 'emptied of the project',
  stale_facts: 'emptied of the project',
  project_search: 'emptied of the project',
  archive_facts: 'no person in it',
  tallies: 'no person in it',
  stock_ranges: 'no person in it',
};

interface PlanRow {
  readonly plan_key: number;
  readonly sha256: string;
  readonly file_name: string;
  readonly digest: Uint8Array;
}

const planPattern = /"planSha256":"([0-9a-f]{64})"/g;
const plansNamedIn = (text: string): readonly string[] =>
  [...text.matchAll(planPattern)].map(([, sha256 = '']) => sha256);

/** Within this time a plan that was taken in may still be on its way into a project. */
const onItsWayMs = 24 * 60 * 60 * 1000;

/**
 * Plans that no project names or ever named: taken in, and then the window was closed or another file chosen. Nobody can
 * say whose they are, so the first purge takes them along.
 */
const forsakenPlans = (database: Database, now: string): readonly PlanRow[] => {
  const before = new Date(Date.parse(now) - onItsWayMs).toISOString();
  const old = database.prepare<[string], PlanRow>('SELECT * FROM plans WHERE added_at < ?').all(before);
  if (old.length === 0) return [];
  const named = new Set<string>();
  const texts = database.prepare<[], { text: string }>(
    `SELECT document AS text FROM documents
     UNION ALL SELECT patch FROM events WHERE instr(patch, '"planSha256"') > 0`,
  );
  for (const { text } of texts.iterate()) for (const sha256 of plansNamedIn(text)) named.add(sha256);
  return old.filter(({ sha256 }) => !named.has(sha256));
};

/**
 * Reads of a project that a purge and its preview have in common. Used inside the callers' transactions.
 *
 * @param now ISO 8601 in UTC
 */
export const purgeSubject = (database: Database, project: ProjectRecord, now: string) => {
  const key = project.project_key;
  const documentText = database
    .prepare<[number], { document: string }>('SELECT document FROM documents WHERE project_key = ?')
    .get(key)?.document;
  // Without its document a project is purged already.
  if (documentText === undefined) return null;
  const events = database
    .prepare<[number], { patch: string; made_by: string | null }>(
      'SELECT patch, made_by FROM events WHERE project_key = ?',
    )
    .all(key);
  const namedPlans = new Set([
    ...plansNamedIn(documentText),
    ...events.flatMap(({ patch }) => plansNamedIn(patch)),
  ]);
  const findPlan = database.prepare<[string], PlanRow>('SELECT * FROM plans WHERE sha256 = ?');
  const others = database.prepare<[{ key: number; sha256: string }], { text: string }>(
    `SELECT document AS text FROM documents WHERE project_key <> :key AND instr(document, :sha256) > 0
     UNION ALL SELECT patch FROM events WHERE project_key <> :key AND instr(patch, :sha256) > 0 LIMIT 1`,
  );
  const plans = [...namedPlans].flatMap((sha256) => {
    const plan = findPlan.get(sha256);
    return plan ? [{ plan, sharedBy: others.get({ key, sha256 })?.text ?? null }] : [];
  });
  plans.push(...forsakenPlans(database, now).map((plan) => ({ plan, sharedBy: null })));
  const facts = database
    .prepare<[number], { facts: string }>('SELECT facts FROM search_facts WHERE project_key = ?')
    .get(key)?.facts;
  return {
    document: JSON.parse(documentText) as {
      readonly job?: { readonly retainUntil?: string };
      readonly stockRange?: { readonly id?: string };
    },
    events,
    plans,
    facts: facts === undefined ? null : (JSON.parse(facts) as ProjectFacts),
    issues: database
      .prepare<[number], { issue_key: number; number: number; contents: string; digest: Uint8Array }>(
        'SELECT issue_key, number, contents, digest FROM issues WHERE project_key = ? ORDER BY number',
      )
      .all(key),
    savedSearches: namedInSavedSearches(database, project),
  };
};
export type PurgeSubject = NonNullable<ReturnType<typeof purgeSubject>>;

interface SavedSearchRow {
  readonly search_key: number;
  readonly name: string;
  readonly search: string;
  readonly digest: Uint8Array;
}

/** Saved searches in whose name or wishes the client, the project, its number or its site stands. */
const namedInSavedSearches = (database: Database, project: ProjectRecord): readonly SavedSearchRow[] => {
  const names = [project.client, project.name, project.job_number, project.site]
    .map((name) => name.trim().toLowerCase())
    .filter((name) => name.length > 2);
  return database
    .prepare<[], SavedSearchRow>('SELECT * FROM saved_searches ORDER BY name')
    .all()
    .filter(({ name, search }) => {
      const wishes = JSON.parse(search) as Readonly<Record<string, unknown>>;
      const texts = [name, String(wishes['words'] ?? ''), String(wishes['client'] ?? '')];
      return names.some((one) => texts.some((text) => text.toLowerCase().includes(one)));
    });
};

/** The facts that no person is known by. */
const countedFacts = (facts: ProjectFacts): ProjectFacts => ({
  ...facts,
  words: [],
  nameKey: '',
  numberKey: '',
  clientKey: '',
  retainUntil: '',
  openQuestions: 0,
  plans: [],
  runs: facts.runs.map((run) => ({ ...run, name: '' })),
  picture: null,
});

/** What stays of a project, by its entry and its facts. */
export const countsOf = (
  project: Pick<ProjectRecord, 'modified_at' | 'tender_date' | 'state' | 'sheets'>,
  facts: ProjectFacts | null,
): ProjectCounts => {
  const pieces = (facts?.runs ?? []).flatMap((run) => run.pieces ?? []);
  return {
    changedIn: project.modified_at.slice(0, 7),
    tenderIn: project.tender_date.slice(0, 7),
    state: project.state,
    rangeId: facts?.rangeId ?? '',
    sheets: project.sheets,
    runLengthsMm: (facts?.runs ?? []).flatMap((run) => runLengthMm(run) ?? []),
    pieces: pieces.length === 0 ? null : pieces.reduce((sum, count) => sum + count, 0),
    stations: facts?.stations ?? [],
  };
};

const monthStart = (day: string): string => (day === '' ? '' : `${day.slice(0, 7)}-01`);
const monthStartInstant = (instant: string): string => `${instant.slice(0, 7)}-01T00:00:00.000Z`;

/** The name that another project has a plan under; the history of one may name a plan that it no longer has. */
const nameInOther = (text: string, sha256: string): string => {
  const sheets = (JSON.parse(text) as { readonly sheets?: Readonly<Record<string, unknown>> }).sheets ?? {};
  for (const sheet of Object.values(sheets)) {
    const { planSha256, planFileName } = sheet as { planSha256?: string; planFileName?: string };
    if (planSha256 === sha256 && planFileName) return planFileName;
  }
  return 'plan.pdf';
};

const purgePlan = (database: Database, { plan, sharedBy }: PurgeSubject['plans'][number]): void => {
  if (sharedBy !== null) {
    const renamed = { ...plan, file_name: nameInOther(sharedBy, plan.sha256) };
    const digest = digestOfRow('plans', renamed);
    database
      .prepare('UPDATE plans SET file_name = ?, digest = ? WHERE plan_key = ?')
      .run(renamed.file_name, digest, plan.plan_key);
    changeTally(database, 'plans', { before: plan.digest, after: digest });
    return;
  }
  database.prepare('DELETE FROM plan_bytes WHERE plan_key = ?').run(plan.plan_key);
  database.prepare('DELETE FROM plans WHERE plan_key = ?').run(plan.plan_key);
  changeTally(database, 'plans', { before: plan.digest, after: null });
  database.prepare('DELETE FROM readings WHERE sha256 = ?').run(plan.sha256);
  database.prepare('DELETE FROM plan_words WHERE sha256 = ?').run(plan.sha256);
};

interface NamedParts {
  readonly sha256: string;
  readonly parts: readonly string[];
}

/** Issues are immutable, save that the law on personal data goes before: their numbers and SHA-256 are noted first. */
const purgeIssues = (database: Database, key: number, { issues }: PurgeSubject, at: string): void => {
  const parts = new Set<string>();
  for (const issue of issues) {
    const { inputs, files } = JSON.parse(issue.contents) as {
      readonly inputs: NamedParts;
      readonly files: readonly (NamedParts & { readonly document: string })[];
    };
    for (const one of [inputs, ...files]) for (const part of one.parts) parts.add(part);
    const reason = `Personal data purged. SHA-256 of what was issued: ${files.map(({ document, sha256 }) => `${document} ${sha256}`).join(', ')}`;
    database
      .prepare('INSERT INTO purged_issues VALUES (?, ?, ?, ?, ?)')
      .run(issue.issue_key, key, issue.number, at, reason);
    database.prepare('DELETE FROM issues WHERE issue_key = ?').run(issue.issue_key);
    changeTally(database, 'issues', { before: issue.digest, after: null });
  }
  const isNamed = database.prepare<[string]>('SELECT 1 FROM issues WHERE instr(contents, ?) > 0');
  const removePart = database.prepare('DELETE FROM issue_parts WHERE sha256 = ?');
  for (const part of parts) if (isNamed.get(part) === undefined) removePart.run(part);
};

const projectColumns = columnsOf('projects').filter((column) => column !== 'project_key');

const keepProjectCounts = (database: Database, project: ProjectRecord, at: string): ProjectRecord => {
  const { last } = database
    .prepare<[], { last: number }>('SELECT max(change_number) AS last FROM projects')
    .get()!;
  const counted = {
    ...project,
    name: '',
    job_number: '',
    client: '',
    site: '',
    tender_date: monthStart(project.tender_date),
    created_at: monthStartInstant(project.created_at),
    modified_at: monthStartInstant(project.modified_at),
    removed_at: at,
    change_number: last + 1,
    last_event_digest: Buffer.alloc(0),
    document_digest: Buffer.alloc(0),
  };
  const digest = digestOfRow('projects', counted);
  database
    .prepare(
      `UPDATE projects SET ${projectColumns.map((column) => `${column} = :${column}`).join(', ')}
       WHERE project_key = :project_key`,
    )
    .run({ ...counted, digest });
  changeTally(database, 'projects', { before: project.digest, after: digest });
  return { ...counted, digest };
};

/** Deletes all of a project but its counts. Within the caller's transaction; its bytes are to be erased after it. */
export const purgeProject = (
  database: Database,
  project: ProjectRecord,
  subject: PurgeSubject,
  at: string,
): ProjectCounts => {
  const key = project.project_key;
  // What is deleted from here on is overwritten at once as well.
  database.pragma('secure_delete = ON');
  purgeIssues(database, key, subject, at);
  database.prepare('DELETE FROM events WHERE project_key = ?').run(key);
  database.prepare('DELETE FROM documents WHERE project_key = ?').run(key);
  for (const plan of subject.plans) purgePlan(database, plan);
  for (const { search_key, digest } of subject.savedSearches) {
    database.prepare('DELETE FROM saved_searches WHERE search_key = ?').run(search_key);
    changeTally(database, 'saved_searches', { before: digest, after: null });
  }
  const counted = keepProjectCounts(database, project, at);
  if (subject.facts) createSearchRows(database).keepCounts(counted, countedFacts(subject.facts));
  else {
    // Never searched since it was made: there are no counts to keep.
    const row = database
      .prepare<[number], SearchRecord>('SELECT * FROM search_rows WHERE project_key = ?')
      .get(key);
    if (row) changeTally(database, 'search_rows', { before: row.digest, after: null });
    database.prepare('DELETE FROM search_rows WHERE project_key = ?').run(key);
    database.prepare('DELETE FROM run_rows WHERE project_key = ?').run(key);
    database.prepare('DELETE FROM stale_facts WHERE project_key = ?').run(key);
  }
  return countsOf(counted, subject.facts);
};
