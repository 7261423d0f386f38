import type { SheetId } from '../../document/ids.ts';
import type { ProjectDocument } from '../../document/projectDocument.ts';
import { isSuperseded, runIdsInForce } from '../../document/runsInForce.ts';
import type { IssuedAs } from '../../issue/issuedAs.ts';
import type { QuoteSettings } from '../../quote/quoteSettings.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { exportDxf, exportSettingOut } from '../drawingExports.ts';
import { exportPlan, exportSchedule, type IssuedFile } from '../exports.ts';
import { exportOffer } from '../offerExport.ts';
import type { Plans } from '../plans.ts';
import type { Ports } from '../ports.ts';
import type { OpenProject } from '../projects.ts';
import { utf8 } from '../utf8.ts';
import { exportCsvs, exportWorkbook } from '../workbookExports.ts';

/** All that a document of an issue is drawn from. Nothing else may decide its bytes. */
export interface IssueSource {
  readonly project: OpenProject;
  readonly range: StockRange;
  readonly plans: Plans;
  /** `now` is the instant of the issue, whenever this runs. */
  readonly ports: Pick<Ports, 'now' | 'font'>;
  readonly issue: IssuedAs;
  readonly paper: 'iso' | 'us';
  readonly quote: { readonly [Name in keyof QuoteSettings]?: QuoteSettings[Name] | undefined } | undefined;
  /** The password of a plan, by its SHA-256. */
  readonly passwordOf: (planSha256: string) => string | undefined;
}

/** A document that an issue may include. */
export interface IssueDocument {
  /** Stays the same for the same document of the same project. */
  readonly key: string;
  readonly name: string;
  readonly draw: (source: IssueSource) => Promise<readonly IssuedFile[]>;
}

const workbookOf = ({ project, range, ports, quote, paper, issue }: IssueSource) => ({
  project,
  range,
  at: ports.now(),
  quote,
  paper: paper === 'us' ? ('letter' as const) : ('a4' as const),
  issue,
});

/** What each sheet in force with runs on it can be issued as. */
const sheetDocuments = (document: ProjectDocument): readonly IssueDocument[] => {
  const withRuns = new Set(runIdsInForce(document).map((runId) => document.runs[runId]?.sheetId));
  const sheetIds = document.sheetIds.filter((id) => withRuns.has(id) && !isSuperseded(document, id));
  return sheetIds.flatMap((sheetId: SheetId): readonly IssueDocument[] => {
    const sheet = document.sheets[sheetId];
    if (!sheet) return [];
    const of = sheetIds.length > 1 ? ` of ${sheet.name}` : '';
    const wanted = ({ project, range, passwordOf, issue, paper }: IssueSource) => ({
      project,
      range,
      sheetId,
      password: passwordOf(sheet.planSha256),
      issue,
      paper,
    });
    return [
      {
        key: `setting-out ${sheetId}`,
        name: `Setting-out drawing${of} (PDF)`,
        draw: async (source) => [await exportSettingOut(source, wanted(source))],
      },
      {
        key: `plan ${sheetId}`,
        name: `Plan with runs${of} (PDF)`,
        draw: async (source) => [await exportPlan(source, wanted(source))],
      },
      {
        key: `dxf ${sheetId}`,
        name: `CAD file${of} (DXF)`,
        draw: async (source) => [await exportDxf(source, wanted(source))],
      },
    ];
  });
};

/** Every document that a project can be issued as, in the order of an issue. */
export const issueDocuments = (document: ProjectDocument): readonly IssueDocument[] => [
  ...sheetDocuments(document),
  {
    key: 'workbook',
    name: 'Workbook with quote (XLSX)',
    draw: async (source) => [exportWorkbook(workbookOf(source))],
  },
  {
    key: 'offer',
    name: 'Offer to the client (PDF)',
    draw: async (source) => [await exportOffer(workbookOf(source), source.ports)],
  },
  {
    key: 'tables',
    name: 'Tables of the workbook (CSV)',
    draw: async (source) =>
      exportCsvs(workbookOf(source)).map(({ fileName, mediaType, text }) => ({
        fileName,
        mediaType,
        bytes: utf8(text),
      })),
  },
  {
    key: 'schedule',
    name: 'Schedule (CSV)',
    draw: async ({ project, range }) => [exportSchedule(project, range)],
  },
];
