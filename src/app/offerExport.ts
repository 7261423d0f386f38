import type { ProjectDocument } from '../document/projectDocument.ts';
import { type ClientPageInput, type ClientRun, clientPagePdf } from '../issue/clientPage/clientPagePdf.ts';
import { openQuestions } from '../issue/workbook/openQuestions.ts';
import type { WorkbookRun } from '../issue/workbook/workbookInput.ts';
import { documentAsMeasured } from '../measure/documentAsMeasured.ts';
import { placeOfZone } from '../measure/zonePlace.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { fileNameFor, type IssuedFile } from './exports.ts';
import type { Ports } from './ports.ts';
import { type WantedWorkbook, workbookInput } from './workbookExports.ts';

/** Bays and low sections of a run: there is a top and nothing under it. */
const topsOf = (document: ProjectDocument, { run }: WorkbookRun, range: StockRange) =>
  Object.values(document.zones)
    .filter(({ runId, kind }) => runId === run.id && (kind === 'bay' || kind === 'low'))
    .sort((one, other) => (one.id < other.id ? -1 : 1))
    .flatMap((zone) => {
      const place = placeOfZone(document, zone);
      const own = run.levels?.topHeightMm ?? range.heights.topMm;
      const topMm = zone.kind === 'bay' ? own : (zone.topHeightMm ?? range.heights.lowSectionTopMm);
      return place ? [{ straight: place.straight, fromMm: place.fromMm, toMm: place.toMm, topMm }] : [];
    });

/** All that the offer is made from. @throws ApiFailure `nothing-to-take-away` */
export const offerInput = (wanted: WantedWorkbook): ClientPageInput => {
  const input = workbookInput(wanted);
  const document = documentAsMeasured(wanted.project.document);
  return {
    job: input.job,
    range: input.range,
    runs: input.runs.map((run): ClientRun => ({ ...run, tops: topsOf(document, run, input.range) })),
    notFitted: input.notFitted,
    settings: input.settings,
    alsoAsked: openQuestions({ ...input, notFitted: [] }),
    unit: input.paper === 'letter' ? 'ft-in' : 'mm',
  };
};

/** The offer to the client as PDF: a picture of the bar, what is offered, the price and its terms. */
export const exportOffer = async (
  wanted: WantedWorkbook,
  ports: Pick<Ports, 'font'>,
): Promise<IssuedFile> => {
  const { document } = wanted.project;
  const { bytes } = await clientPagePdf(offerInput(wanted), {
    font: await ports.font(),
    at: wanted.at,
    system: wanted.paper === 'letter' ? 'us' : 'iso',
    legalOwner: document.issueSettings?.legalOwner,
  });
  return {
    fileName: fileNameFor(document.job.name, 'offer.pdf'),
    mediaType: 'application/pdf',
    bytes,
  };
};
