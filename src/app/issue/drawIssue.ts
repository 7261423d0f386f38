import { emptyHistory } from '../../document/history.ts';
import { thisIssue } from '../../issue/issuedAs.ts';
import { manifestName, manifestText, sumsName } from '../../issue/package/issueManifest.ts';
import { ownNames } from '../../issue/package/ownNames.ts';
import { sha256Sums } from '../../issue/package/sha256Sums.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { IssuedFile } from '../exports.ts';
import type { Plans } from '../plans.ts';
import type { Ports } from '../ports.ts';
import { utf8 } from '../utf8.ts';
import { type IssueSource, issueDocuments } from './issueDocuments.ts';
import { type IssueInputs, issuedAsOf } from './issueInputs.ts';
import type { IssuedEntry } from './issuePort.ts';

/** A file of an issue with its bytes. */
export type DrawnFile = IssuedEntry & { readonly bytes: Uint8Array };

/** Draws one document of an issue from its inputs; the same inputs give the same bytes. */
export const drawDocument = async (
  inputs: IssueInputs,
  key: string,
  over: {
    readonly ports: Pick<Ports, 'font'>;
    readonly plans: Plans;
    readonly passwordOf: IssueSource['passwordOf'];
  },
): Promise<readonly IssuedFile[]> => {
  const { projectId, revision, settings, at, range, quote } = inputs;
  const document = { ...inputs.document, issueSettings: settings };
  const wanted = issueDocuments(document).find((one) => one.key === key);
  if (!wanted)
    throw new ApiFailure('no-such-document', `This project has no document "${key}" to issue.`, 'document');
  return wanted.draw({
    project: { projectId, revision, document, history: emptyHistory },
    range,
    plans: over.plans,
    ports: { now: () => at, font: over.ports.font },
    issue: issuedAsOf(inputs),
    paper: settings.paper,
    quote,
    passwordOf: over.passwordOf,
  });
};

/**
 * The drawn documents as one delivery: each file under a name of its own, with the manifest and the list of sums.
 *
 * @param inputsText the inputs as they are kept.
 */
export const packageIssue = async (
  inputs: IssueInputs,
  inputsText: string,
  drawn: readonly { readonly key: string; readonly files: readonly IssuedFile[] }[],
  over: { readonly ports: Pick<Ports, 'sha256'>; readonly isRecorded: boolean },
): Promise<readonly DrawnFile[]> => {
  const flat = drawn.flatMap(({ key, files }) => files.map((file) => ({ document: key, ...file })));
  const names = ownNames(flat.map(({ fileName }) => fileName));
  const entryOf = async (file: IssuedFile & { readonly document: string }): Promise<DrawnFile> => ({
    document: file.document,
    fileName: file.fileName,
    mediaType: file.mediaType,
    byteLength: file.bytes.byteLength,
    sha256: await over.ports.sha256(file.bytes),
    bytes: file.bytes,
  });
  const files: DrawnFile[] = [];
  for (const [index, file] of flat.entries())
    files.push(await entryOf({ ...file, fileName: names[index] ?? file.fileName }));
  const { document, projectId, number, at, by, revision, settings, program } = inputs;
  const manifest = await entryOf({
    document: 'manifest',
    fileName: manifestName,
    mediaType: 'application/json',
    bytes: utf8(
      manifestText({
        project: { projectId, name: document.job.name, number: document.job.number },
        issue: {
          number,
          revision: thisIssue(issuedAsOf(inputs)).letter,
          issuedAt: at,
          issuedBy: by,
          purpose: settings.purpose,
          projectRevision: revision,
          isRecorded: over.isRecorded,
        },
        madeWith: `Footrail ${program.app}`,
        inputsSha256: await over.ports.sha256(utf8(inputsText)),
        files: files.map(({ document: key, fileName, mediaType, byteLength, sha256 }) => ({
          document: key,
          path: fileName,
          mediaType,
          byteLength,
          sha256,
        })),
      }),
    ),
  });
  const summed = [...files, manifest];
  const sums = await entryOf({
    document: 'manifest',
    fileName: sumsName,
    mediaType: 'text/plain',
    bytes: utf8(sha256Sums(summed.map(({ fileName, sha256 }) => ({ path: fileName, sha256 })))),
  });
  return [...summed, sums];
};
