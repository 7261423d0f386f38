import { hash } from 'node:crypto';
import { lstatSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { ApiInput, ApiOutput } from '../app/apiMethods.ts';
import type { Api } from '../app/createApi.ts';
import { fileNameFor } from '../app/exports.ts';
import type { ProjectId } from '../document/ids.ts';
import { issueZip } from '../issue/package/issueZip.ts';
import { portableName } from '../issue/package/portableName.ts';
import { callApi } from './callApi.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { projectIdOf } from './projectIdOf.ts';
import { readJsonFile } from './readInputFile.ts';
import { archiveFolderOf, requireArchive, withArchive } from './withArchive.ts';
import { makeOutputFolder, type OutputFile, type WrittenFile, writeOutputFiles } from './writeOutputFiles.ts';

const usage =
  'footrail issue PROJECT --out DIR [--for PURPOSE] [--by NAME] [--documents KEY,KEY] [--paper a4|letter] [--quote FILE] [--password P] [--number N] [--zip] [--dry-run] | --reissue N --out DIR [--zip] | --verify N | --list [--archive DIR] [--json]';

type Entry = ApiOutput<'list-draft-files'>['files'][number];
type Issued = ApiOutput<'issue'>['issue'];

/** A written file with its sum. */
export type IssuedFileAnswer = WrittenFile & { readonly sha256: string; readonly document: string };

/** What an issue may be asked for; see `begin-issue`. The API checks it and names what it refuses. */
export type IssueWishes = Omit<ApiInput<'begin-issue'>, 'projectId'>;

/** Draws every document of a preview. */
const drawPreview = async (api: Api, projectId: ProjectId, wishes: IssueWishes) => {
  const draft = await callApi(api, 'begin-issue', { projectId, ...wishes }, { within: 'quote' });
  const { draftId } = draft;
  for (const document of draft.documents) await callApi(api, 'draw-issue-document', { draftId, document });
  const { files } = await callApi(api, 'list-draft-files', { draftId });
  return { ...draft, files };
};

/** Refuses names that are there already, before anything is issued. @throws CommandError `file-exists` */
const refuseExisting = (folder: string, names: readonly string[]): void => {
  const there = names
    .map((name) => join(resolve(folder), name))
    // A link that leads nowhere is there too.
    .find((path) => lstatSync(path, { throwIfNoEntry: false }) !== undefined);
  if (there !== undefined)
    throw new CommandError({
      code: 'file-exists',
      message: `${there} is there already and was left as it is. Nothing was issued. Choose another folder.`,
      path: '--out',
    });
};

const bytesOfIssue = async (
  api: Api,
  projectId: ProjectId,
  issue: Issued,
): Promise<readonly OutputFile[]> => {
  const files: OutputFile[] = [];
  for (const { fileName } of issue.files) {
    const file = await callApi(api, 'issued-file', { projectId, number: issue.number, fileName });
    files.push({ ...file, fileName: portableName(fileName) });
  }
  return files;
};

const withSums = (written: readonly WrittenFile[], entries: readonly Entry[]): readonly IssuedFileAnswer[] =>
  written.map((file, index) => ({
    ...file,
    sha256: entries[index]?.sha256 ?? '',
    document: entries[index]?.document ?? '',
  }));

const zipNameOf = async (api: Api, projectId: ProjectId, number: number): Promise<string> => {
  const { document } = await callApi(api, 'open-project', { projectId });
  return fileNameFor(document.job.name, `issue-${number}.zip`);
};

/**
 * Issues a project: draws it, keeps it in the archive under the next number, and writes what was kept into a folder.
 * Nothing is issued where the folder can't take it.
 */
export const issueInto = async (
  api: Api,
  projectId: ProjectId,
  out: string,
  wanted: {
    readonly wishes: IssueWishes;
    readonly number?: number | undefined;
    readonly asZip: boolean;
    readonly replace: boolean;
  },
): Promise<{ readonly issue: Issued; readonly files: readonly IssuedFileAnswer[] }> => {
  const draft = await drawPreview(api, projectId, wanted.wishes);
  if (wanted.number !== undefined && wanted.number !== draft.number)
    throw new CommandError({
      code: 'issue-number-taken',
      message: `The next issue of this project is ${draft.number}, not ${wanted.number}. Nothing was issued.`,
      path: '--number',
    });
  const zipName = await zipNameOf(api, projectId, draft.number);
  await makeOutputFolder(out);
  if (!wanted.replace)
    refuseExisting(out, wanted.asZip ? [zipName] : draft.files.map(({ fileName }) => fileName));
  const { issue } = await callApi(api, 'issue', { draftId: draft.draftId });
  return { issue, files: await writeIssue(api, projectId, issue, out, wanted) };
};

/** Writes the kept bytes of an issue, as files or as one ZIP archive. */
const writeIssue = async (
  api: Api,
  projectId: ProjectId,
  issue: Issued,
  out: string,
  { asZip, replace }: { readonly asZip: boolean; readonly replace: boolean },
): Promise<readonly IssuedFileAnswer[]> => {
  if (!asZip)
    return withSums(
      await writeOutputFiles(out, await bytesOfIssue(api, projectId, issue), { replace }),
      issue.files,
    );
  const zip = await callApi(api, 'issued-zip', { projectId, number: issue.number });
  return sealed(await writeOutputFiles(out, [zip], { replace }), zip);
};

/** A ZIP archive that was written, with its sum. */
const sealed = (written: readonly WrittenFile[], { bytes }: OutputFile): readonly IssuedFileAnswer[] =>
  written.map((file) => ({ ...file, sha256: hash('sha256', bytes, 'hex'), document: 'zip' }));

/** Writes a preview that stays one. */
const previewInto = async (
  api: Api,
  projectId: ProjectId,
  out: string,
  { wishes, asZip }: { readonly wishes: IssueWishes; readonly asZip: boolean },
) => {
  const draft = await drawPreview(api, projectId, { ...wishes, isRecorded: false });
  const files: OutputFile[] = [];
  for (const { fileName } of draft.files)
    files.push(await callApi(api, 'draft-file', { draftId: draft.draftId, fileName }));
  if (!asZip)
    return { draft, files: withSums(await writeOutputFiles(out, files, { replace: false }), draft.files) };
  const name = (await zipNameOf(api, projectId, draft.number)).replace(/\.zip$/, '-preview');
  const inside = files.map(({ fileName, bytes }) => ({ path: fileName, bytes }));
  const zip: OutputFile = {
    fileName: `${name}.zip`,
    mediaType: 'application/zip',
    bytes: issueZip(name, inside, draft.at),
  };
  return { draft, files: sealed(await writeOutputFiles(out, [zip], { replace: false }), zip) };
};

const linesOf = (files: readonly IssuedFileAnswer[]): string =>
  files
    .map(({ path, byteLength, sha256 }) => `  ${sha256.slice(0, 12)}  ${path} (${byteLength} bytes)`)
    .join('\n');

const inWords = ({ number, issuedAt, purpose, issuedBy, files }: Issued): string =>
  `Issue ${number}, ${issuedAt.slice(0, 10)}, ${purpose}${issuedBy ? `, by ${issuedBy}` : ''}, ${files.length} files`;

/** `a4` and `letter` are what tables are printed on; drawings come on the sheets that go with them. */
const paperOf = (text: string | undefined) => {
  if (text === undefined) return {};
  const known: Readonly<Record<string, string>> = { a4: 'iso', letter: 'us' };
  return { paper: (Object.hasOwn(known, text) ? known[text] : text) as 'iso' };
};

/**
 * `footrail issue`: issues a project under the next number and writes its files, with a manifest and their SHA-256 sums.
 * `--dry-run` writes the same as a preview that is kept nowhere; `--reissue N` writes an earlier issue as it went out;
 * `--verify N` draws an earlier issue again and answers whether it comes out the same.
 */
export const issueCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, count, isOn } = readArguments(args, {
    flags: [
      'out',
      'archive',
      'quote',
      'paper',
      'for',
      'by',
      'documents',
      'password',
      'number',
      'reissue',
      'verify',
    ],
    switches: ['zip', 'dry-run', 'list'],
    names: ['PROJECT'],
    usage,
  });
  const projectId = projectIdOf(positionals[0] ?? '');
  const [reissue, verify, number] = [count('reissue', 1), count('verify', 1), count('number', 1)];
  const alone = [isOn('dry-run'), reissue !== undefined, verify !== undefined, isOn('list')];
  if (alone.filter(Boolean).length > 1)
    throw new CommandError({
      code: 'bad-arguments',
      message: `--dry-run, --reissue, --verify and --list each stand alone. Usage: ${usage}`,
      path: '--reissue',
    });
  const out = text('out');
  if (!out && verify === undefined && !isOn('list'))
    throw new CommandError({ code: 'bad-arguments', message: '--out DIR is missing.', path: '--out' });
  const quoteFile = text('quote');
  const quote = quoteFile === undefined ? undefined : await readJsonFile(quoteFile);
  const folder = archiveFolderOf(text('archive'));
  requireArchive(folder);
  const [purpose, by, documents] = [text('for'), text('by'), text('documents')];
  const asked = {
    ...(quote === undefined ? {} : { quote }),
    ...paperOf(text('paper')),
    ...(purpose === undefined ? {} : { purpose }),
    ...(by === undefined ? {} : { by }),
    ...(documents === undefined ? {} : { documents: documents.split(',') }),
  };
  const asZip = isOn('zip');

  return withArchive(folder, async ({ api }) => {
    const { document, revision } = await callApi(api, 'open-project', { projectId });
    const project = { projectId, name: document.job.name, revision };
    const password = text('password');
    // One password serves all plans that ask for one.
    const passwords =
      password === undefined
        ? {}
        : Object.fromEntries(Object.values(document.sheets).map(({ planSha256 }) => [planSha256, password]));
    const wishes = { ...asked, passwords } as IssueWishes;
    const issues = async () => (await callApi(api, 'list-issued', { projectId })).issues;
    if (isOn('list')) {
      const list = await issues();
      return {
        exitCode: 0,
        value: { project, issues: list },
        text: list.map(inWords).join('\n') || 'Nothing was issued yet.',
      };
    }
    if (verify !== undefined) {
      const again = await callApi(api, 'draw-issue-again', { projectId, number: verify, passwords });
      const others = again.files.filter(({ isSame }) => !isSame).map(({ fileName }) => fileName);
      const program = again.isSameProgram ? '' : ` It was made with ${again.madeWith}; this is another.`;
      return {
        exitCode: others.length === 0 ? 0 : 1,
        value: { project, number: verify, ...again },
        text:
          others.length === 0
            ? `Issue ${verify} comes out the same, byte for byte.${program}`
            : `Issue ${verify} comes out differently in ${others.join(', ')}; what was issued stays as it is.${program}`,
      };
    }
    if (reissue !== undefined) {
      const issue = (await issues()).find((one) => one.number === reissue);
      if (!issue)
        throw new CommandError({
          code: 'issue-missing',
          message: `There is no issue ${reissue} of this project in the archive.`,
          path: '--reissue',
        });
      const files = await writeIssue(api, projectId, issue, out ?? '', { asZip, replace: false });
      return {
        exitCode: 0,
        value: { project, issue, files },
        text: `${inWords(issue)}, as it went out:\n${linesOf(files)}`,
      };
    }
    if (isOn('dry-run')) {
      const { draft, files } = await previewInto(api, projectId, out ?? '', { wishes, asZip });
      return {
        exitCode: 0,
        value: { project, preview: { number: draft.number, at: draft.at, purpose: draft.purpose }, files },
        text: `Preview of issue ${draft.number}, kept nowhere:\n${linesOf(files)}`,
      };
    }
    const { issue, files } = await issueInto(api, projectId, out ?? '', {
      wishes,
      number,
      asZip,
      replace: false,
    });
    return {
      exitCode: 0,
      value: { project, issue, files },
      text: `${project.name}\n${inWords(issue)}:\n${linesOf(files)}`,
    };
  });
};
