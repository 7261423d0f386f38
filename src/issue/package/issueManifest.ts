/**
 * `manifest.json` of an issue: what was issued, when, by whom, for what, and for every file its length and SHA-256. JSON
 * in UTF-8; the same issue always gives the same bytes.
 */
export const issueManifestFormat = 'footrail-issue';
export const issueManifestVersion = 1;

export interface IssueManifest {
  readonly format: typeof issueManifestFormat;
  readonly formatVersion: typeof issueManifestVersion;
  readonly project: { readonly projectId: string; readonly name: string; readonly number: string };
  readonly issue: {
    readonly number: number;
    /** Its letter in the title block's revision index. */
    readonly revision: string;
    /** ISO 8601 instant in UTC. */
    readonly issuedAt: string;
    readonly issuedBy: string;
    readonly purpose: string;
    /** The change of the project that it shows. */
    readonly projectRevision: number;
    /** False for a preview: it stands in no archive. */
    readonly isRecorded: boolean;
  };
  readonly madeWith: string;
  /** SHA-256 of the inputs that the archive keeps with the issue. */
  readonly inputsSha256: string;
  readonly files: readonly ManifestFile[];
}

export interface ManifestFile {
  readonly document: string;
  readonly path: string;
  readonly mediaType: string;
  readonly byteLength: number;
  /** In lower-case hexadecimal. */
  readonly sha256: string;
}

export const manifestName = 'manifest.json';
export const sumsName = 'SHA256SUMS';

/** The text of a manifest. */
export const manifestText = (manifest: Omit<IssueManifest, 'format' | 'formatVersion'>): string => {
  const whole: IssueManifest = {
    format: issueManifestFormat,
    formatVersion: issueManifestVersion,
    ...manifest,
  };
  return `${JSON.stringify(whole, null, 2)}\n`;
};
