import { strToU8, zipSync } from 'fflate';
import type { ProjectId } from '../../document/ids.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { ProjectEvent } from '../ports.ts';
import {
  type BundledIssues,
  type BundledProject,
  bundleFormat,
  bundleFormatVersion,
  bundlePaths,
  issuedPathOf,
  type Manifest,
  planPathOf,
} from './bundleFormat.ts';

/** What goes into a project file. */
export interface BundleContent {
  readonly projectId: ProjectId;
  readonly name: string;
  readonly createdAt: string;
  readonly document: unknown;
  readonly events: readonly ProjectEvent[];
  readonly ranges: readonly StockRange[];
  readonly plans: readonly {
    readonly sha256: string;
    readonly fileName: string;
    readonly bytes: Uint8Array;
  }[];
  readonly issues: BundledIssues;
  /** The inputs and files of the issues, each once; null where they are left out. */
  readonly issued: readonly IssuedPart[] | null;
}

export interface IssuedPart {
  readonly sha256: string;
  readonly mediaType: string;
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** ZIP keeps local times from 1980 on; a fixed one makes equal projects equal files, whatever the clock's zone. */
const noTime = new Date(1980, 0, 1);

/** PDF and XLSX are packed in themselves. */
const isPackable = (mediaType: string): boolean => /json|text|dxf/.test(mediaType);

/** Packs a project as {@link bundleFormat} has it. Plans are stored as they are: PDF is packed in itself. */
export const writeBundle = async (
  content: BundleContent,
  over: {
    readonly madeWith: string;
    readonly madeAt: string;
    readonly sha256: (bytes: Uint8Array) => Promise<string>;
    readonly onPart?: ((byteLength: number) => void) | undefined;
  },
): Promise<Uint8Array> => {
  const project: BundledProject = {
    projectId: content.projectId,
    createdAt: content.createdAt,
    document: content.document as BundledProject['document'],
    changes: content.events.map(({ kind, label, patch, at, by }) => ({
      kind,
      label,
      patch,
      at,
      ...(by === undefined ? {} : { by }),
    })),
  };
  const json = 'application/json';
  const parts: readonly {
    readonly path: string;
    readonly mediaType: string;
    readonly bytes: Uint8Array;
    readonly fileName?: string;
  }[] = [
    { path: bundlePaths.project, mediaType: json, bytes: strToU8(JSON.stringify(project)) },
    { path: bundlePaths.stock, mediaType: json, bytes: strToU8(JSON.stringify(content.ranges)) },
    ...content.plans.map(({ sha256, fileName, bytes }) => ({
      path: planPathOf(sha256),
      mediaType: 'application/pdf',
      bytes,
      fileName,
    })),
    { path: bundlePaths.issues, mediaType: json, bytes: strToU8(JSON.stringify(content.issues)) },
    ...(content.issued ?? []).map(({ sha256, mediaType, fileName, bytes }) => ({
      path: issuedPathOf(sha256),
      mediaType,
      bytes,
      fileName,
    })),
  ];
  const entries: Manifest['entries'] = [];
  for (const { path, mediaType, bytes, fileName } of parts) {
    entries.push({
      path,
      mediaType,
      byteLength: bytes.byteLength,
      sha256: await over.sha256(bytes),
      ...(fileName === undefined ? {} : { fileName }),
    });
    over.onPart?.(bytes.byteLength);
  }
  const manifest: Manifest = {
    format: bundleFormat,
    formatVersion: bundleFormatVersion,
    madeWith: over.madeWith,
    madeAt: over.madeAt,
    project: { projectId: content.projectId, name: content.name },
    issued: content.issued === null ? 'left-out' : 'whole',
    entries,
  };
  const packed = { level: 6, mtime: noTime } as const;
  return zipSync({
    [bundlePaths.manifest]: [strToU8(JSON.stringify(manifest, null, 2)), packed],
    ...Object.fromEntries(
      parts.map(({ path, mediaType, bytes }) => [
        path,
        [bytes, isPackable(mediaType) ? packed : { level: 0, mtime: noTime }] as const,
      ]),
    ),
  });
};
