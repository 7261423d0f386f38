import { z } from 'zod';
import type { History } from '../../document/history.ts';
import { doAgain, emptyHistory, recordStep, takeBack } from '../../document/history.ts';
import { migrateDocument } from '../../document/migrateDocument.ts';
import { applyPatch, reversePatch } from '../../document/patch.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import { type StockRange, stockRangeSchema } from '../../stock/stockSchema.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { CallContext } from '../callContext.ts';
import type { ProjectEvent } from '../ports.ts';
import { noIssues, type ReadIssues, readIssues } from './bundledIssues.ts';
import {
  type BundledProject,
  bundledProjectSchema,
  bundleFormat,
  bundleFormatVersion,
  bundleLimits,
  bundlePaths,
  issuedOfPath,
  issuesSinceVersion,
  type Manifest,
  manifestSchema,
  planOfPath,
} from './bundleFormat.ts';
import { bundleRefusal } from './bundleRefusal.ts';
import { readZip, type ZipEntry } from './readZip.ts';
import { isForbiddenKey, isSameJson, parseSafeJson } from './safeJson.ts';

/** A project file that was found to be whole, true to its manifest, and a project. */
export interface ReadBundle {
  readonly project: Omit<BundledProject, 'document' | 'changes'>;
  /** As stored in the file; its changes lead to it. */
  readonly stored: ProjectDocument;
  /** Lifted to this program's version. */
  readonly document: ProjectDocument;
  readonly events: readonly ProjectEvent[];
  readonly ranges: readonly StockRange[];
  readonly plans: readonly {
    readonly sha256: string;
    readonly fileName: string;
    readonly bytes: Uint8Array;
  }[];
  readonly issues: ReadIssues;
  /** ISO 8601 instant in UTC. */
  readonly madeAt: string;
}

const limitOf = (path: string): number | null => {
  if (path === bundlePaths.manifest) return bundleLimits.manifest;
  if (path === bundlePaths.project) return bundleLimits.project;
  if (path === bundlePaths.stock) return bundleLimits.stock;
  if (path === bundlePaths.issues) return bundleLimits.issues;
  if (issuedOfPath(path) !== null) return bundleLimits.issued;
  return planOfPath(path) === null ? null : bundleLimits.plan;
};

const leadsOutside = (path: string): boolean => /^[/\\]|^[A-Za-z]:|\\|(^|\/)\.\.?(\/|$)/.test(path);

/** The entries by their paths, all of them known, none twice, none larger than it may be. */
const sortEntries = (entries: readonly ZipEntry[]): ReadonlyMap<string, ZipEntry> => {
  if (entries.length > bundleLimits.entries)
    throw bundleRefusal('bundle-too-large', `It has ${entries.length} entries.`);
  const byPath = new Map<string, ZipEntry>();
  let whole = 0;
  for (const entry of entries) {
    const { name, byteLength } = entry;
    if (leadsOutside(name)) throw bundleRefusal('bundle-path-outside', `“${name.slice(0, 200)}”.`);
    // A folder's own entry, as archivers write it, holds nothing.
    if ((name === 'plans/' || name === 'issued/') && byteLength === 0) continue;
    const most = limitOf(name);
    if (most === null) throw bundleRefusal('bundle-unknown-entry', `“${name.slice(0, 200)}”.`);
    if (byPath.has(name)) throw bundleRefusal('bundle-damaged', `“${name}” is there twice.`);
    whole += byteLength;
    if (byteLength > most || whole > bundleLimits.whole)
      throw bundleRefusal('bundle-too-large', `“${name}” claims ${byteLength} bytes.`);
    byPath.set(name, entry);
  }
  return byPath;
};

const readJson = (bytes: Uint8Array, path: string, code: 'bundle-not-ours' | 'bundle-project-unreadable') => {
  const parsed = parseSafeJson(bytes);
  if (!parsed.ok) throw bundleRefusal(code, `“${path}” ${parsed.problem}.`);
  return parsed.value;
};

const readManifest = (entry: ZipEntry | undefined): Manifest => {
  if (!entry) throw bundleRefusal('bundle-not-ours', 'It has no manifest.json.');
  const value = readJson(entry.read(), bundlePaths.manifest, 'bundle-not-ours');
  const version = (value as { readonly format?: unknown; readonly formatVersion?: unknown } | null) ?? {};
  if (version.format !== bundleFormat) throw bundleRefusal('bundle-not-ours', 'It names another format.');
  if (typeof version.formatVersion === 'number' && version.formatVersion > bundleFormatVersion)
    throw bundleRefusal('bundle-newer', `Its format is version ${version.formatVersion}.`);
  const parsed = manifestSchema.safeParse(value);
  if (!parsed.success) throw bundleRefusal('bundle-not-ours', z.prettifyError(parsed.error).slice(0, 300));
  const { formatVersion, issued, entries } = parsed.data;
  if (formatVersion >= issuesSinceVersion && issued === undefined)
    throw bundleRefusal('bundle-not-ours', 'Its manifest does not say whether what was issued is in it.');
  const early = entries.find(({ path }) => path === bundlePaths.issues || issuedOfPath(path) !== null);
  if (formatVersion < issuesSinceVersion && (issued !== undefined || early))
    throw bundleRefusal('bundle-unknown-entry', `Format version ${formatVersion} had no issues.`);
  return parsed.data;
};

/** What reading a project file needs, and what a host may hand along. */
export interface ReadingWith extends CallContext {
  readonly sha256: (bytes: Uint8Array) => Promise<string>;
}

/** Unpacks every entry and holds it against the manifest: neither more nor less, each with its SHA-256. */
const unpackAll = async (
  byPath: ReadonlyMap<string, ZipEntry>,
  { entries }: Manifest,
  { sha256, signal, onProgress }: ReadingWith,
): Promise<ReadonlyMap<string, Uint8Array>> => {
  const unpacked = new Map<string, Uint8Array>();
  const whole = entries.reduce((sum, { byteLength }) => sum + byteLength, 0);
  let done = 0;
  for (const { path, byteLength, sha256: due } of entries) {
    if (signal?.aborted) throw new ApiFailure('cancelled', 'The call was cancelled.', '');
    const entry = byPath.get(path);
    if (!entry || path === bundlePaths.manifest || unpacked.has(path))
      throw bundleRefusal('bundle-entry-missing', `“${path}” is listed but not there.`);
    const bytes = entry.read();
    if (bytes.byteLength !== byteLength || (await sha256(bytes)) !== due)
      throw bundleRefusal('bundle-tampered', `“${path}”.`);
    const plan = planOfPath(path);
    if (plan !== null && plan !== due) throw bundleRefusal('bundle-tampered', `“${path}” is another plan.`);
    const issued = issuedOfPath(path);
    if (issued !== null && issued !== due)
      throw bundleRefusal('bundle-tampered', `“${path}” is not what was issued.`);
    unpacked.set(path, bytes);
    done += byteLength;
    onProgress?.(done, whole);
  }
  for (const path of byPath.keys())
    if (path !== bundlePaths.manifest && !unpacked.has(path))
      throw bundleRefusal('bundle-tampered', `“${path}” is not in the manifest.`);
  return unpacked;
};

/** Walks the changes back from the document, and each one forward again; undo and redo must have something to take. */
const checkHistory = (document: ProjectDocument, events: readonly ProjectEvent[]): void => {
  for (const [index, { patch }] of events.entries())
    for (const { path } of [...patch.forward, ...patch.inverse])
      if (path.some(isForbiddenKey))
        throw bundleRefusal('bundle-history-broken', `Change ${index + 1} reaches behind the document.`);
  let history: History | null = emptyHistory;
  try {
    let after = document;
    for (const [index, { patch }] of [...events.entries()].reverse()) {
      const before = applyPatch(after, reversePatch(patch));
      if (!isSameJson(applyPatch(before, patch), after))
        throw bundleRefusal('bundle-history-broken', `Change ${index + 1} leads elsewhere.`);
      after = before;
    }
    for (const { kind, label, patch } of events)
      history =
        kind === 'command'
          ? recordStep(history, { label, patch })
          : ((kind === 'undo' ? takeBack(history) : doAgain(history))?.history ??
            (() => {
              throw bundleRefusal('bundle-history-broken', `There is nothing to ${kind}.`);
            })());
  } catch (error) {
    if (error instanceof Error && error.name === 'ApiFailure') throw error;
    const reason = error instanceof Error ? error.message : String(error);
    throw bundleRefusal('bundle-history-broken', `${reason.slice(0, 200)}.`);
  }
};

/**
 * Reads a project file whole before anything of it is used. Whatever is wrong with it is the reason of an ApiFailure;
 * what it costs in memory is bounded by {@link bundleLimits}, not by what the file claims or unpacks to.
 */
export const readBundle = async (bytes: Uint8Array, reading: ReadingWith): Promise<ReadBundle> => {
  const byPath = sortEntries(readZip(bytes));
  const manifest = readManifest(byPath.get(bundlePaths.manifest));
  const unpacked = await unpackAll(byPath, manifest, reading);
  const take = (path: string): Uint8Array => {
    const found = unpacked.get(path);
    if (!found) throw bundleRefusal('bundle-entry-missing', `“${path}” is not there.`);
    return found;
  };
  const unreadable = (found: string) => bundleRefusal('bundle-project-unreadable', found);

  const project = bundledProjectSchema.safeParse(
    readJson(take(bundlePaths.project), bundlePaths.project, 'bundle-project-unreadable'),
  );
  if (!project.success) throw unreadable(z.prettifyError(project.error).slice(0, 300));
  const { projectId, createdAt, document: stored, changes: events } = project.data;
  if (projectId !== manifest.project.projectId) throw unreadable('It is not the project of its manifest.');
  const migrated = migrateDocument(stored);
  if (!migrated.ok) {
    if (migrated.code === 'document-newer') throw bundleRefusal('bundle-newer', migrated.message);
    throw unreadable(`${migrated.message} ${migrated.path}`);
  }
  checkHistory(stored as unknown as ProjectDocument, events);

  const ranges = z
    .array(stockRangeSchema)
    .max(1000)
    .safeParse(readJson(take(bundlePaths.stock), bundlePaths.stock, 'bundle-project-unreadable'));
  if (!ranges.success) throw unreadable(z.prettifyError(ranges.error).slice(0, 300));

  const plans = manifest.entries.flatMap(({ path, fileName = 'plan.pdf' }) => {
    const plan = planOfPath(path);
    return plan === null ? [] : [{ sha256: plan, fileName, bytes: take(path) }];
  });
  const { document } = migrated;
  for (const { planSha256, planFileName } of Object.values(document.sheets))
    if (!plans.some((plan) => plan.sha256 === planSha256))
      throw bundleRefusal('bundle-entry-missing', `The plan “${planFileName}” is not there.`);
  const { id, version } = document.stockRange;
  if (!ranges.data.some((range) => range.id === id && range.version === version))
    throw bundleRefusal('bundle-entry-missing', `The stock range “${id}” version ${version} is not there.`);
  return {
    project: { projectId, createdAt },
    stored: stored as unknown as ProjectDocument,
    document,
    events,
    ranges: ranges.data,
    plans,
    madeAt: manifest.madeAt,
    issues: manifest.issued === undefined ? noIssues : readIssues(unpacked, manifest.issued),
  };
};
