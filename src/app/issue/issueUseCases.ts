import { applyCommand } from '../../document/applyCommand.ts';
import type { ProjectId } from '../../document/ids.ts';
import type { IssueSettings } from '../../document/issueSettings.ts';
import { jobStates } from '../../document/job.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import { changeRows } from '../../issue/changes/changeRows.ts';
import { revisionLetter } from '../../issue/changes/revisionLetter.ts';
import { takeoffChanges } from '../../issue/changes/takeoffChanges.ts';
import { takeoffFacts } from '../../issue/changes/takeoffFacts.ts';
import type { RevisionLine } from '../../issue/issuedAs.ts';
import { issueZip } from '../../issue/package/issueZip.ts';
import { openQuestions } from '../../issue/workbook/openQuestions.ts';
import { quoteOf } from '../../quote/quote.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import { ApiFailure } from '../apiFailure.ts';
import { fileNameFor } from '../exports.ts';
import type { Plans } from '../plans.ts';
import type { Ports } from '../ports.ts';
import type { OpenProject, Projects } from '../projects.ts';
import { projectFactsOf } from '../search/projectFacts.ts';
import { workbookInput } from '../workbookExports.ts';
import { type DrawnFile, drawDocument, packageIssue } from './drawIssue.ts';
import { type IssueSource, issueDocuments } from './issueDocuments.ts';
import { createIssueDrafts } from './issueDrafts.ts';
import {
  type IssueInputs,
  issueInputsFormat,
  issueInputsVersion,
  type ProgramVersions,
  readIssueInputs,
} from './issueInputs.ts';
import { missingForIssue } from './missingForIssue.ts';

const purposeWords: Readonly<Record<IssueSettings['purpose'], string>> = {
  information: 'for information',
  tender: 'for tender',
  approval: 'for approval',
  construction: 'for construction',
  'as-built': 'as built',
};

/** What may be asked of an issue beside what the project says. */
export interface WantedIssue {
  readonly projectId: ProjectId;
  /** Keys of documents; all where it is left out. */
  readonly documents?: readonly string[] | undefined;
  readonly purpose?: IssueSettings['purpose'] | undefined;
  readonly paper?: IssueSettings['paper'] | undefined;
  readonly by?: string | undefined;
  readonly quote?: IssueSource['quote'];
  /** Passwords of plans by their SHA-256; never kept. */
  readonly passwords?: Readonly<Record<string, string>> | undefined;
  /** False for a preview that is to stay one: its manifest says so. */
  readonly isRecorded?: boolean | undefined;
}

/** Use cases of what leaves the office: preview, issue, list, save again, draw again, compare. */
export const issuesOver = (over: {
  readonly ports: Ports;
  readonly projects: Projects;
  readonly plans: Plans;
  readonly rangeOf: (project: OpenProject) => Promise<StockRange>;
  readonly program: ProgramVersions;
}) => {
  const { ports, projects, plans, rangeOf, program } = over;
  const { store } = ports;
  const drafts = createIssueDrafts();

  const settingsOf = (document: ProjectDocument, wanted: WantedIssue): IssueSettings => {
    const own: IssueSettings = document.issueSettings ?? {
      legalOwner: '',
      creator: wanted.by ?? ports.who?.() ?? '',
      approver: '',
      responsibleDepartment: '',
      purpose: 'information',
      paper: 'iso',
    };
    return { ...own, purpose: wanted.purpose ?? own.purpose, paper: wanted.paper ?? own.paper };
  };

  const factsNow = (project: OpenProject, range: StockRange, at: string, quote: IssueSource['quote']) => {
    const input = workbookInput({ project, range, at, quote });
    const { totals } = quoteOf(input.runs, range, input.settings, openQuestions(input));
    return takeoffFacts(project.document, input, totals.total);
  };

  const noSuchIssue = (number: number) =>
    new ApiFailure('issue-missing', `There is no issue ${number} of this project in the archive.`, 'number');

  const inputsOf = async (projectId: ProjectId, number: number): Promise<IssueInputs> => {
    const text = await store.issueInputs(projectId, number);
    if (text === null) throw noSuchIssue(number);
    return readIssueInputs(text);
  };

  const issueOf = async (projectId: ProjectId, number: number) => {
    const issue = (await store.listIssues(projectId)).issues.find((one) => one.number === number);
    if (!issue) throw noSuchIssue(number);
    return issue;
  };

  const fileOf = async (projectId: ProjectId, number: number, fileName: string) => {
    const issue = await issueOf(projectId, number);
    const entry = issue.files.find((one) => one.fileName === fileName);
    const bytes = entry && (await store.issuedBytes(projectId, number, fileName));
    if (!entry || !bytes)
      throw new ApiFailure('file-missing', `Issue ${number} has no file "${fileName}".`, 'fileName');
    return { ...entry, bytes };
  };

  const makeInputs = async (wanted: WantedIssue): Promise<{ inputs: IssueInputs; project: OpenProject }> => {
    const { projectId } = wanted;
    const project = await projects.open(projectId);
    const range = await rangeOf(project);
    const { document, revision } = project;
    const missing = missingForIssue(document, range);
    if (missing) throw new ApiFailure('nothing-to-take-away', missing.words, 'projectId');
    const known = issueDocuments(document).map(({ key }) => key);
    const unknown = wanted.documents?.find((key) => !known.includes(key));
    if (unknown !== undefined)
      throw new ApiFailure(
        'no-such-document',
        `There is no document "${unknown}" to issue, only: ${known.join(', ')}.`,
        'documents',
      );
    const documents = known.filter((key) => wanted.documents?.includes(key) ?? true);
    if (documents.length === 0)
      throw new ApiFailure('no-documents', 'Choose at least one document to issue.', 'documents');
    const { issues, nextNumber } = await store.listIssues(projectId);
    const at = ports.now();
    const settings = settingsOf(document, wanted);
    const facts = factsNow(project, range, at, wanted.quote);
    const last = issues.at(-1);
    const before = last && (await inputsOf(projectId, last.number));
    const lineOf = (number: number, issuedAt: string, purpose: string): RevisionLine => ({
      letter: revisionLetter(number),
      number,
      date: issuedAt.slice(0, 10),
      purpose: purposeWords[purpose as IssueSettings['purpose']] ?? purpose,
    });
    const inputs: IssueInputs = {
      format: issueInputsFormat,
      formatVersion: issueInputsVersion,
      projectId,
      number: nextNumber,
      at,
      by: wanted.by ?? (settings.creator || (ports.who?.() ?? '')),
      revision,
      document,
      range,
      settings,
      ...(wanted.quote === undefined ? {} : { quote: wanted.quote }),
      documents,
      program,
      facts,
      revisions: [
        ...issues.map((one) => lineOf(one.number, one.issuedAt, one.purpose)),
        lineOf(nextNumber, at, settings.purpose),
      ],
      changes: before ? { since: before.number, changes: takeoffChanges(before.facts, facts) } : null,
    };
    return { inputs, project };
  };

  return {
    /** What could be issued now: the number it would get, the documents, what is missing, what changed. */
    async prospect(projectId: ProjectId, unit: DisplayUnit) {
      const project = await projects.open(projectId);
      const range = await rangeOf(project);
      const { issues, nextNumber } = await store.listIssues(projectId);
      const missing = missingForIssue(project.document, range);
      const last = issues.at(-1);
      const before = last && !missing ? await inputsOf(projectId, last.number) : undefined;
      const changes =
        before && takeoffChanges(before.facts, factsNow(project, range, ports.now(), undefined));
      return {
        number: nextNumber,
        letter: revisionLetter(nextNumber),
        date: ports.now().slice(0, 10),
        revision: project.revision,
        by: project.document.issueSettings?.creator || (ports.who?.() ?? ''),
        missing,
        documents: issueDocuments(project.document).map(({ key, name }) => ({ key, name })),
        since: before?.number ?? null,
        changes: changes ? changeRows(changes, unit) : [],
      };
    },

    /** Fixes what an issue would be made from; its documents are then drawn one by one. */
    async begin(wanted: WantedIssue) {
      const { inputs } = await makeInputs(wanted);
      const text = JSON.stringify(inputs);
      const draftId = ports.freshId();
      drafts.put({
        draftId,
        // Through JSON, as it will be read again: what is drawn now must be what is drawn then.
        inputs: readIssueInputs(text),
        text,
        passwords: wanted.passwords ?? {},
        isRecorded: wanted.isRecorded ?? true,
        drawn: new Map(),
        packaged: null,
      });
      return {
        draftId,
        number: inputs.number,
        letter: revisionLetter(inputs.number),
        at: inputs.at,
        by: inputs.by,
        purpose: inputs.settings.purpose,
        documents: inputs.documents,
      };
    },

    /** Draws one document of a draft; answers its files without their bytes. */
    async draw(draftId: string, key: string) {
      const draft = drafts.get(draftId);
      if (!draft.inputs.documents.includes(key))
        throw new ApiFailure('no-such-document', `The preview has no document "${key}".`, 'document');
      const files = await drawDocument(draft.inputs, key, {
        ports,
        plans,
        passwordOf: (sha256) => draft.passwords[sha256],
      });
      draft.drawn.set(key, files);
      draft.packaged = null;
      return files.map(({ fileName, mediaType, bytes }) => ({
        fileName,
        mediaType,
        byteLength: bytes.byteLength,
      }));
    },

    /** The files of a draft whose documents are all drawn, as they would be delivered. */
    async draftFiles(draftId: string): Promise<readonly DrawnFile[]> {
      const draft = drafts.get(draftId);
      draft.packaged ??= await packageIssue(draft.inputs, draft.text, drafts.wholeOf(draft), {
        ports,
        isRecorded: draft.isRecorded,
      });
      return draft.packaged;
    },

    /** Issues a draft: its very bytes are kept for good, and the project's state becomes `issued` if it was not yet. */
    async issue(draftId: string) {
      const draft = drafts.get(draftId);
      const { inputs, text } = draft;
      const now = ports.now();
      if (now.slice(0, 10) !== inputs.at.slice(0, 10))
        throw new ApiFailure(
          'preview-of-another-day',
          `This preview carries the date ${inputs.at.slice(0, 10)}. Draw it again to issue it today.`,
          'draftId',
        );
      const files = await packageIssue(inputs, text, drafts.wholeOf(draft), { ports, isRecorded: true });
      const { projectId, number, at, by, revision, settings, document } = inputs;
      const isEarlier = jobStates.indexOf(document.job.state) < jobStates.indexOf('issued');
      const applied = isEarlier
        ? applyCommand(document, { type: 'change-job', changes: { state: 'issued' } })
        : null;
      if (applied && !applied.ok) throw new Error(applied.refusal.message);
      const who = ports.who?.();
      const added = await store.addIssue({
        projectId,
        expectedRevision: revision,
        issue: {
          number,
          issuedAt: at,
          issuedBy: by,
          purpose: settings.purpose,
          revision,
          program: `Footrail ${inputs.program.app}`,
          inputs: text,
          files,
        },
        change: applied
          ? {
              event: {
                kind: 'command',
                label: `Issue ${number} makes the job’s state “issued”`,
                patch: applied.patch,
                at: now,
                ...(who ? { by: who } : {}),
              },
              document: applied.document,
              facts: projectFactsOf(applied.document),
            }
          : undefined,
      });
      if (!added.ok)
        throw new ApiFailure(
          'preview-outdated',
          'The project was changed, or issued elsewhere, since this preview was drawn. Draw it again, then issue it.',
          'draftId',
        );
      drafts.remove(draftId);
      return { issue: await issueOf(projectId, number), revision: added.revision };
    },

    async list(projectId: ProjectId) {
      await projects.open(projectId);
      return (await store.listIssues(projectId)).issues;
    },

    fileOf,

    /** The files of an issue in one folder as a ZIP archive; always the same bytes. */
    async zipOf(projectId: ProjectId, number: number) {
      const issue = await issueOf(projectId, number);
      const { document } = await inputsOf(projectId, number);
      const folder = fileNameFor(document.job.name, `issue-${number}`);
      const files = [];
      for (const { fileName } of issue.files)
        files.push({ path: fileName, bytes: (await fileOf(projectId, number, fileName)).bytes });
      return {
        fileName: `${folder}.zip`,
        mediaType: 'application/zip',
        bytes: issueZip(folder, files, issue.issuedAt),
      };
    },

    /** Draws an issue again from its kept inputs and holds it against its kept bytes, which stay as they are. */
    async drawAgain(projectId: ProjectId, number: number, passwords: Readonly<Record<string, string>>) {
      const issue = await issueOf(projectId, number);
      const text = await store.issueInputs(projectId, number);
      if (text === null) throw noSuchIssue(number);
      const inputs = readIssueInputs(text);
      const drawn = [];
      for (const key of inputs.documents) {
        const passwordOf = (sha256: string) => passwords[sha256];
        drawn.push({ key, files: await drawDocument(inputs, key, { ports, plans, passwordOf }) });
      }
      const files = await packageIssue(inputs, text, drawn, { ports, isRecorded: true });
      const sumOf = new Map(files.map(({ fileName, sha256 }) => [fileName, sha256]));
      return {
        isSameProgram: JSON.stringify(inputs.program) === JSON.stringify(program),
        madeWith: `Footrail ${inputs.program.app}`,
        files: issue.files.map(({ fileName, sha256 }) => ({
          fileName,
          isSame: sumOf.get(fileName) === sha256,
        })),
      };
    },

    /** What changed from one issue to another, or to the project as it is now. */
    async compare(projectId: ProjectId, from: number, to: number | null, unit: DisplayUnit) {
      const before = (await inputsOf(projectId, from)).facts;
      const project = await projects.open(projectId);
      const after =
        to === null
          ? factsNow(project, await rangeOf(project), ports.now(), undefined)
          : (await inputsOf(projectId, to)).facts;
      return changeRows(takeoffChanges(before, after), unit);
    },
  };
};
