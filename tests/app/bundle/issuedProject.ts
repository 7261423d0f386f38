import { createHash } from 'node:crypto';
import type { NewIssue } from '../../../src/app/issue/issuePort.ts';
import type { ProjectId } from '../../../src/document/ids.ts';
import { manifestText } from '../../../src/issue/package/issueManifest.ts';
import { type ApiForTest, apiForTest } from '../portsForTest.ts';
import { bundledProject } from './bundledProject.ts';

const sha256Of = (bytes: Uint8Array | string): string => createHash('sha256').update(bytes).digest('hex');
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** An invented issue of two files and its own manifest, as the program makes them; `said` makes issues differ. */
export const inventedIssue = (number: number, revision: number, said = ''): NewIssue => {
  const issuedAt = `2027-03-${String(15 + number).padStart(2, '0')}T09:00:00.000Z`;
  const inputs = JSON.stringify({
    format: 'footrail-issue-inputs',
    formatVersion: 1,
    number,
    at: issuedAt,
    revision,
    said,
  });
  // The architect's page is the same in every issue.
  const drawn = [
    {
      document: 'plan',
      fileName: 'plan.pdf',
      mediaType: 'application/pdf',
      bytes: utf8('%PDF-1.7 the page'),
    },
    {
      document: 'schedule',
      fileName: `Zeichnung Nº ${number}.csv`,
      mediaType: 'text/csv',
      bytes: utf8(`item,count\nunit ${number}${said},${number}\n`),
    },
  ];
  const manifest = manifestText({
    project: { projectId: 'project-t000001', name: 'Mezzanine', number: '' },
    issue: {
      number,
      revision: 'A',
      issuedAt,
      issuedBy: 'Ines',
      purpose: 'tender',
      projectRevision: revision,
      isRecorded: true,
    },
    madeWith: 'Footrail 0.1.0',
    inputsSha256: sha256Of(inputs),
    files: drawn.map(({ document, fileName, mediaType, bytes }) => ({
      document,
      path: fileName,
      mediaType,
      byteLength: bytes.length,
      sha256: sha256Of(bytes),
    })),
  });
  return {
    number,
    issuedAt,
    issuedBy: 'Ines',
    purpose: 'tender',
    revision,
    program: 'Footrail 0.1.0',
    inputs,
    files: [
      ...drawn,
      {
        document: 'manifest',
        fileName: 'manifest.json',
        mediaType: 'application/json',
        bytes: utf8(manifest),
      },
    ],
  };
};

/** The project of `bundledProject`, issued twice, and its file. */
export const issuedProject = async (over: ApiForTest = apiForTest(), said = '') => {
  const made = await bundledProject(over);
  const { projectId, revision } = made;
  for (const number of [1, 2]) {
    const issue = inventedIssue(number, revision, said);
    const kept = await made.ports.store.addIssue({ projectId, expectedRevision: revision, issue });
    if (!kept.ok) throw new Error(`issue ${number} was not kept`);
  }
  const file = await made.done('export-project', { projectId });
  return { ...made, file };
};

/** All of what an archive keeps as issued of a project: records, inputs and every byte. */
export const issuedIn = async ({ ports }: Pick<ApiForTest, 'ports'>, projectId: ProjectId) => {
  const { issues, nextNumber } = await ports.store.listIssues(projectId);
  const whole = [];
  for (const issue of issues) {
    const files = [];
    for (const { fileName } of issue.files)
      files.push(Buffer.from((await ports.store.issuedBytes(projectId, issue.number, fileName)) ?? []));
    whole.push({ issue, inputs: await ports.store.issueInputs(projectId, issue.number), files });
  }
  return { whole, nextNumber };
};
