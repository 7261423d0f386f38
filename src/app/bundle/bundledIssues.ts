import { strFromU8 } from 'fflate';
import { z } from 'zod';
import { issueManifestFormat, manifestName } from '../../issue/package/issueManifest.ts';
import { issueInputsFormat } from '../issue/issueInputs.ts';
import type { IssuedEntry, NewIssue, StoredIssue } from '../issue/issuePort.ts';
import {
  type BundledIssue,
  type BundledIssues,
  bundledIssuesSchema,
  bundlePaths,
  issuedOfPath,
  issuedPathOf,
} from './bundleFormat.ts';
import { bundleRefusal } from './bundleRefusal.ts';
import { parseSafeJson } from './safeJson.ts';

/** What a project file says of the issues, held against itself. */
export interface ReadIssues {
  /** Numbers up to this one were given out. */
  readonly lastNumber: number;
  /** Every issue that the file names, the first first, whether its files travel along or not. */
  readonly records: readonly StoredIssue[];
  /** The issues with their bytes; none where they were left out. */
  readonly whole: readonly NewIssue[];
}

/** What a file of a version before issues says of them. */
export const noIssues: ReadIssues = { lastNumber: 0, records: [], whole: [] };

/** An issue as the project file names it. */
export const bundledIssueOf = (
  { inputsSha256, files, ...issue }: StoredIssue,
  inputsLength: number,
): BundledIssue => ({
  ...issue,
  inputs: { byteLength: inputsLength, sha256: inputsSha256 },
  files,
});

const storedIssueOf = ({ inputs, files, ...issue }: BundledIssue): StoredIssue => ({
  ...issue,
  inputsSha256: inputs.sha256,
  files,
});

/** A name that would lead out of the folder that an issue is written to. */
const leadsElsewhere = (fileName: string): boolean =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is sought
  /[/\\\u0000-\u001f\u007f]|^\.{1,2}$|^[A-Za-z]:/.test(fileName);

const broken = (number: number, found: string) =>
  bundleRefusal('bundle-issue-broken', `Issue ${number}: ${found}.`);

const checkNames = ({ number, files }: BundledIssue): void => {
  const names = new Set<string>();
  for (const { fileName } of files) {
    if (leadsElsewhere(fileName))
      throw bundleRefusal('bundle-path-outside', `Issue ${number}: “${fileName.slice(0, 200)}”.`);
    if (names.has(fileName)) throw broken(number, `two files are named “${fileName.slice(0, 200)}”`);
    names.add(fileName);
  }
};

type Json = Readonly<Record<string, unknown>>;
const objectOf = (bytes: Uint8Array, number: number, what: string): Json => {
  const parsed = parseSafeJson(bytes);
  if (!parsed.ok) throw broken(number, `${what} ${parsed.problem}`);
  if (typeof parsed.value !== 'object' || parsed.value === null || Array.isArray(parsed.value))
    throw broken(number, `${what} is no JSON object`);
  return parsed.value as Json;
};

/** The inputs name the number, the date and the change that they were made for. */
const checkInputs = (issue: BundledIssue, bytes: Uint8Array): void => {
  const inputs = objectOf(bytes, issue.number, 'what it was made from');
  if (inputs['number'] !== issue.number)
    throw broken(issue.number, 'what it was made from is another issue’s');
  if (inputs['format'] !== issueInputsFormat) return;
  if (inputs['at'] !== issue.issuedAt || inputs['revision'] !== issue.revision)
    throw broken(issue.number, 'what it was made from has another date or change');
};

/** An issue's own manifest, which went out with it, names every other file with its SHA-256, and the inputs' own. */
const checkManifest = (issue: BundledIssue, bytes: Uint8Array): void => {
  const manifest = objectOf(bytes, issue.number, 'its manifest');
  if (manifest['format'] !== issueManifestFormat) return;
  const own = (manifest['issue'] ?? {}) as Json;
  if (own['number'] !== issue.number || own['issuedAt'] !== issue.issuedAt)
    throw broken(issue.number, 'its manifest is another issue’s');
  if (manifest['inputsSha256'] !== issue.inputs.sha256)
    throw broken(issue.number, 'it was made from something else than its manifest says');
  const listed = manifest['files'];
  if (!Array.isArray(listed)) throw broken(issue.number, 'its manifest lists no files');
  for (const one of listed as readonly Json[]) {
    const file = issue.files.find(({ fileName }) => fileName === one['path']);
    if (!file || file.sha256 !== one['sha256'])
      throw broken(issue.number, `“${String(one['path']).slice(0, 200)}” is not what its manifest says`);
  }
};

const parseIssues = (bytes: Uint8Array): BundledIssues => {
  const unreadable = (found: string) => bundleRefusal('bundle-project-unreadable', found);
  const read = parseSafeJson(bytes);
  if (!read.ok) throw unreadable(`“${bundlePaths.issues}” ${read.problem}.`);
  const parsed = bundledIssuesSchema.safeParse(read.value);
  if (!parsed.success) throw unreadable(z.prettifyError(parsed.error).slice(0, 300));
  let before = 0;
  for (const issue of parsed.data.issues) {
    if (issue.number <= before) throw broken(issue.number, 'it does not come in its turn');
    if (issue.number > parsed.data.lastNumber)
      throw broken(issue.number, `${parsed.data.lastNumber} is said to be the last`);
    before = issue.number;
    checkNames(issue);
  }
  return parsed.data;
};

const wholeOf = (issue: BundledIssue, unpacked: ReadonlyMap<string, Uint8Array>): NewIssue => {
  const bytesOf = ({ sha256, byteLength }: Pick<IssuedEntry, 'sha256' | 'byteLength'>): Uint8Array => {
    const bytes = unpacked.get(issuedPathOf(sha256));
    if (!bytes)
      throw bundleRefusal('bundle-entry-missing', `Issue ${issue.number}: “${issuedPathOf(sha256)}”.`);
    if (bytes.byteLength !== byteLength) throw broken(issue.number, 'a file has another length');
    return bytes;
  };
  const { inputs, files, ...rest } = issue;
  const inputsBytes = bytesOf(inputs);
  checkInputs(issue, inputsBytes);
  for (const file of files)
    if (file.document === 'manifest' && file.fileName === manifestName) checkManifest(issue, bytesOf(file));
  return {
    ...rest,
    inputs: strFromU8(inputsBytes),
    files: files.map((file) => ({
      document: file.document,
      fileName: file.fileName,
      mediaType: file.mediaType,
      bytes: bytesOf(file),
    })),
  };
};

/**
 * Reads the issues of a project file and holds each against its own record: inputs and manifest name its number, its date
 * and its files' SHA-256. That the bytes under `issued/` have the SHA-256 that their path names is known by then.
 *
 * @throws ApiFailure `bundle-project-unreadable`, `bundle-issue-broken`, `bundle-entry-missing`, `bundle-unknown-entry`,
 * `bundle-path-outside`
 */
export const readIssues = (
  unpacked: ReadonlyMap<string, Uint8Array>,
  issued: 'whole' | 'left-out',
): ReadIssues => {
  const bytes = unpacked.get(bundlePaths.issues);
  if (!bytes) throw bundleRefusal('bundle-entry-missing', `“${bundlePaths.issues}” is not there.`);
  const { lastNumber, issues } = parseIssues(bytes);
  const named = new Set(
    issued === 'whole'
      ? issues.flatMap(({ inputs, files }) => [inputs.sha256, ...files.map(({ sha256 }) => sha256)])
      : [],
  );
  for (const path of unpacked.keys()) {
    const sha256 = issuedOfPath(path);
    if (sha256 !== null && !named.has(sha256))
      throw bundleRefusal('bundle-unknown-entry', `“${path}” belongs to no issue.`);
  }
  return {
    lastNumber,
    records: issues.map(storedIssueOf),
    whole: issued === 'whole' ? issues.map((issue) => wholeOf(issue, unpacked)) : [],
  };
};
