import type { ProjectId, SheetId } from '../../document/ids.ts';
import type { ProjectDocument, Sheet, SheetRevision } from '../../document/projectDocument.ts';
import type { PaperPoint } from '../../geometry/point.ts';
import { changeRows } from '../../issue/changes/changeRows.ts';
import { takeoffChanges } from '../../issue/changes/takeoffChanges.ts';
import { takeoffFacts } from '../../issue/changes/takeoffFacts.ts';
import { openQuestions } from '../../issue/workbook/openQuestions.ts';
import type { LineFinding } from '../../measure/revision/followMovedLines.ts';
import { reviseSheet } from '../../measure/revision/reviseSheet.ts';
import { drawnScaleOfRun } from '../../measure/scaleOfSheet.ts';
import { mmPerUserUnit } from '../../measure/tracedRun.ts';
import { quoteOf } from '../../quote/quote.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import { ApiFailure } from '../apiFailure.ts';
import type { CallContext } from '../callContext.ts';
import type { Plans } from '../plans.ts';
import type { Ports } from '../ports.ts';
import type { OpenProject, Projects } from '../projects.ts';
import { workbookInput } from '../workbookExports.ts';
import { type RegisteredPages, type RegistrationBasis, sizeUncertainty } from './registeredPages.ts';
import { carriedIds, documentWithout, withIds } from './takeoffBefore.ts';

/** A page that is to follow a sheet. */
export interface RevisedPage {
  readonly projectId: ProjectId;
  readonly sheetId: SheetId;
  readonly sha256: string;
  readonly page: number;
  readonly password?: string | undefined;
  readonly oldPassword?: string | undefined;
  readonly picks?: readonly { readonly old: PaperPoint; readonly new: PaperPoint }[] | undefined;
}

/** How many matches stay at hand between looking at one and taking it. */
const heldMost = 4;

/** What is registered, as the API gives it. */
export const shownRegistration = (registered: RegisteredPages) => {
  if (!registered.isRegistered) return { isRegistered: false as const, reasons: registered.reasons };
  const { isSure, method, transform, plusMinusPt, reasons, changes } = registered;
  const ends = ({ x0, y0, x1, y1 }: { x0: number; y0: number; x1: number; y1: number }) =>
    [x0, y0, x1, y1] as const;
  return {
    isRegistered: true as const,
    isSure,
    method,
    map: { a: transform.a, b: transform.b, e: transform.x0, f: transform.y0 },
    plusMinusPt,
    reasons,
    changes: {
      gone: changes.gone.map(ends),
      added: changes.added.map(ends),
      moved: changes.moved.map(({ gone, added, vector }) => ({ gone, added, x: vector.x, y: vector.y })),
    },
  };
};

/** A sheet's name and the revision's: of a revision of a revision, only the last. */
const nameOfRevision = (old: Sheet, revision: string): string => {
  const earlier = old.revisionOf ? `, revision ${old.revisionOf.revision}` : '';
  const name = earlier && old.name.endsWith(earlier) ? old.name.slice(0, -earlier.length) : old.name;
  return revision ? `${name}, revision ${revision}`.slice(0, 200) : name;
};

const whereWords = (document: ProjectDocument, { of }: LineFinding): string => {
  if (of.kind === 'straight') return `Straight ${of.straight + 1}`;
  if (of.kind === 'end') return of.end === 0 ? 'Start' : 'End';
  return document.zones[of.zoneId]?.name || 'Zone';
};

/** Use cases of plan revisions. Nothing is overwritten: both sheets and what is traced on them stay. */
export const revisionsOver = (over: {
  readonly ports: Ports;
  readonly projects: Projects;
  readonly plans: Plans;
  readonly rangeOf: (project: OpenProject) => Promise<StockRange>;
}) => {
  const { ports, projects, plans, rangeOf } = over;
  const held = new Map<string, RegisteredPages>();

  const sheetOf = (document: ProjectDocument, sheetId: SheetId): Sheet => {
    const sheet = document.sheets[sheetId];
    if (!sheet) throw new ApiFailure('sheet-missing', 'That sheet is no longer in the project.', 'sheetId');
    return sheet;
  };

  const lay = async (
    old: Sheet,
    next: { readonly sha256: string; readonly page: number; readonly password?: string | undefined },
    oldPassword: string | undefined,
    basis: RegistrationBasis,
    context: CallContext,
  ): Promise<RegisteredPages> => {
    const key = JSON.stringify([old.planSha256, old.pageNumber, old.layers, next.sha256, next.page, basis]);
    const known = held.get(key);
    if (known) return known;
    const [before, after] = [await plans.bytesOf(old.planSha256), await plans.bytesOf(next.sha256)];
    const registered = await ports.plans.register(
      { bytes: before.bytes, page: old.pageNumber, password: oldPassword, layers: old.layers },
      { bytes: after.bytes, page: next.page, password: next.password },
      basis,
      context,
    );
    held.set(key, registered);
    const oldest = held.keys().next();
    if (held.size > heldMost && !oldest.done) held.delete(oldest.value);
    return registered;
  };

  const register = (document: ProjectDocument, page: RevisedPage, context: CallContext) =>
    lay(
      sheetOf(document, page.sheetId),
      page,
      page.oldPassword,
      page.picks ? { by: 'picks', pairs: page.picks } : { by: 'linework' },
      context,
    );

  const factsOf = (project: OpenProject, range: StockRange) => {
    const input = workbookInput({ project, range, at: ports.now() });
    const { totals } = quoteOf(input.runs, range, input.settings, openQuestions(input));
    return takeoffFacts(project.document, input, totals.total);
  };

  return {
    async register(page: RevisedPage, context: CallContext) {
      const { document } = await projects.open(page.projectId);
      return shownRegistration(await register(document, page, context));
    },

    async compareLinework(
      {
        projectId,
        sheetId,
        password,
        oldPassword,
      }: {
        readonly projectId: ProjectId;
        readonly sheetId: SheetId;
        readonly password?: string | undefined;
        readonly oldPassword?: string | undefined;
      },
      context: CallContext,
    ) {
      const { document } = await projects.open(projectId);
      const sheet = sheetOf(document, sheetId);
      const { revisionOf } = sheet;
      if (!revisionOf)
        throw new ApiFailure('not-a-revision', `${sheet.name} follows no other sheet.`, 'sheetId');
      const { map, plusMinusPt } = revisionOf;
      const transform = { a: map.a, b: map.b, x0: map.e, y0: map.f };
      const next = { sha256: sheet.planSha256, page: sheet.pageNumber, password };
      const old = sheetOf(document, revisionOf.supersedes);
      const basis = { by: 'known', transform, plusMinusPt: plusMinusPt / sheet.userUnit } as const;
      return shownRegistration(await lay(old, next, oldPassword, basis, context));
    },

    /** @throws ApiFailure `revision-not-registered` where the two can't be laid on one another. */
    async revise(
      wanted: RevisedPage & {
        readonly revision?: number | undefined;
        readonly name: string;
        readonly follow: boolean;
      },
      context: CallContext,
    ) {
      const { projectId, sheetId, sha256, page } = wanted;
      const { document, revision: latest } = await projects.open(projectId);
      const old = sheetOf(document, sheetId);
      if (Object.values(document.sheets).some(({ revisionOf }) => revisionOf?.supersedes === sheetId))
        throw new ApiFailure(
          'sheet-superseded',
          `A later revision follows ${old.name} already. Revise that one.`,
          'sheetId',
        );
      const registered = await register(document, wanted, context);
      if (!registered.isRegistered)
        throw new ApiFailure(
          'revision-not-registered',
          `Nothing says how the new page lies to the old one: ${registered.reasons.join(' ')} Pick the same two places on both.`,
          'picks',
        );
      const { plan } = await plans.bytesOf(sha256);
      const reading = await plans.reading(sha256, page, {
        ...context,
        password: wanted.password,
        layers: {},
      });
      const { transform } = registered;
      const revisionOf: SheetRevision = {
        supersedes: sheetId,
        revision: wanted.name,
        map: { a: transform.a, b: transform.b, e: transform.x0, f: transform.y0 },
        plusMinusPt: registered.plusMinusPt * reading.sheet.userUnit,
        method: registered.method,
        isSure: registered.isSure,
        because: registered.reasons.join(' ').slice(0, 500),
      };
      const newId = `sheet-${ports.freshId()}` as SheetId;
      const revised = reviseSheet(
        document,
        sheetId,
        {
          id: newId,
          name: nameOfRevision(old, wanted.name),
          planSha256: sha256,
          planFileName: plan.fileName,
          pageNumber: page,
          userUnit: reading.sheet.userUnit,
          revisionOf,
          mapUncertainty: sizeUncertainty(registered),
        },
        { changes: wanted.follow ? registered.changes : null, freshId: ports.freshId },
      );
      if (!revised) throw new Error('The sheet was there a moment ago.');
      const label = `Take in a revision of ${old.name}`.slice(0, 120);
      const changed = await projects.change(projectId, wanted.revision ?? latest, {
        type: 'together',
        label,
        commands: [...revised.commands],
      });
      const after = changed.project.document;
      const findings = revised.runs.flatMap(({ runId, name, findings: own }) => {
        const run = after.runs[runId];
        const scale = run && drawnScaleOfRun(after, run);
        return own.map((finding) => ({
          runId,
          run: name,
          where: whereWords(after, finding),
          became: finding.became,
          byMm: scale ? finding.byPt * mmPerUserUnit(scale) : 0,
        }));
      });
      return { changed, sheetId: newId, findings };
    },

    /** What the revised sheet changes in the takeoff, as it is traced now. */
    async compare(projectId: ProjectId, sheetId: SheetId, unit: DisplayUnit) {
      const project = await projects.open(projectId);
      const sheet = sheetOf(project.document, sheetId);
      if (!sheet.revisionOf)
        throw new ApiFailure('not-a-revision', `${sheet.name} follows no other sheet.`, 'sheetId');
      const range = await rangeOf(project);
      const before = factsOf({ ...project, document: documentWithout(project.document, sheetId) }, range);
      const after = factsOf(project, range);
      const ids = carriedIds(project.document, sheetId);
      const { sheets } = before;
      return changeRows(takeoffChanges({ ...withIds(before, ids), sheets }, after), unit);
    },
  };
};
