import type { Command, SimpleCommand } from '../../document/command.ts';
import type { ReferenceId, RunId, SheetId, StationId, VertexId, ZoneId } from '../../document/ids.ts';
import type { Run, Zone } from '../../document/projectDocument.ts';
import { runDefaultsOf } from '../../document/runDefaults.ts';
import type { PaperPoint } from '../../geometry/point.ts';
import { paperPointAt } from '../../measure/runPosition.ts';
import { usualServices } from '../../services/usualServices.ts';
import { demoRange } from '../../stock/demoRange.ts';
import type { Plans } from '../plans.ts';
import type { Ports } from '../ports.ts';
import type { OpenProject, Projects } from '../projects.ts';
import { demoPlanTruth } from './demoPlanTruth.ts';
import { demoWaysIn } from './demoWaysIn.ts';
import { drawDemoPlan } from './drawDemoPlan.ts';
import { demoProject } from './drawTitleBlock.ts';

/** By this job number the demo project is known in an archive. */
const demoJobNumber = 'DEMO-1';
const demoPlanFile = `${demoProject.number}${demoProject.revision} ground floor plan.pdf`;

/** Picks on the demo plan are caught by its lines, so that they are as sure as its coordinates. */
const snappedPt = 0.05;

/** The load space of the demo's delivery van: invented, as every van is measured. */
const demoVan = { lengthMm: 3_400, widthMm: 1_700, heightMm: 1_900, payloadKg: 1_150 };

/** What the demo's glasswasher asks for within its bay: invented, as every machine's data sheet says its own. */
const demoGlasswasher = { beforeMm: 50, afterMm: 50, heightMm: 820, doorSwingMm: 400 };

interface Fresh {
  readonly freshId: () => string;
}

const runFrom = (
  traced: {
    readonly name: string;
    readonly frontLine: readonly PaperPoint[];
    readonly backSide: Run['backSide'];
    readonly depthMm: number;
    readonly ends: readonly [Run['ends'][0]['kind'], Run['ends'][0]['kind']];
  },
  sheetId: SheetId,
  { freshId }: Fresh,
): Run => ({
  ...runDefaultsOf(demoRange),
  id: `run-${freshId()}` as RunId,
  sheetId,
  name: traced.name,
  backSide: traced.backSide,
  depthMm: traced.depthMm,
  frontLine: traced.frontLine.map((at) => ({ id: `vertex-${freshId()}` as VertexId, at, treatment: null })),
  ends: [endOf(traced.ends[0]), endOf(traced.ends[1])],
  pickUncertaintyPt: snappedPt,
});

/** An exposed end of the demo may come in by 50 mm and go out by 100. */
const endOf = (kind: Run['ends'][0]['kind']): Run['ends'][0] =>
  kind === 'wall' ? { kind, giveInMm: 0, giveOutMm: 0 } : { kind, giveInMm: 50, giveOutMm: 100 };

const tracingOf = (sheetId: SheetId, fresh: Fresh): Command => {
  const { frontBar, backBar, dimensions, ratio } = demoPlanTruth;
  const front = runFrom(frontBar, sheetId, fresh);
  const scale = { ratio, relativeUncertainty: 0, userUnit: 1 };
  const at = (straight: number, alongMm: number) =>
    paperPointAt({ ...frontBar, frontLine: [...frontBar.frontLine] }, straight, alongMm, 0, scale);
  const vertexOf = (straight: number): VertexId => {
    const vertex = front.frontLine[straight];
    if (!vertex) throw new Error(`The demo's front bar has no straight ${straight}.`);
    return vertex.id;
  };
  const zone = (
    kind: Zone['kind'],
    name: string,
    { straight, fromMm, toMm }: { readonly straight: number; readonly fromMm: number; readonly toMm: number },
    more: Pick<Zone, 'clearance' | 'equipmentKind' | 'services'> = {},
  ): SimpleCommand => ({
    type: 'add-zone',
    zone: {
      id: `zone-${fresh.freshId()}` as ZoneId,
      runId: front.id,
      kind,
      name,
      vertexId: vertexOf(straight),
      a: at(straight, fromMm),
      b: at(straight, toMm),
      ...more,
    },
  });
  return {
    type: 'together',
    label: 'Trace the demo’s counters',
    commands: [
      ...dimensions.slice(0, 2).map(
        ({ from, to, lengthMm, text }): SimpleCommand => ({
          type: 'add-reference',
          reference: {
            id: `reference-${fresh.freshId()}` as ReferenceId,
            sheetId,
            a: from,
            b: to,
            lengthMm,
            typed: text,
            pickUncertaintyPt: snappedPt,
          },
        }),
      ),
      { type: 'add-run', run: front },
      { type: 'add-run', run: runFrom(backBar, sheetId, fresh) },
      ...frontBar.blockedZones.map((blocked) => zone('blocked', blocked.why, blocked)),
      ...frontBar.openings.map((opening) => zone('opening', opening.why, opening)),
      ...frontBar.bays.map(({ equipment, straight, fromMm, toMm }) => {
        const { beforeMm, afterMm } = demoGlasswasher;
        const own = { straight, fromMm: fromMm + beforeMm, toMm: toMm - afterMm };
        return zone('bay', equipment, own, {
          clearance: demoGlasswasher,
          equipmentKind: 'glasswasher',
          services: [...usualServices('glasswasher', own.toMm - own.fromMm)],
        });
      }),
      ...frontBar.wantedStations.map(
        ({ item, straight, nearMm, withinMm }): SimpleCommand => ({
          type: 'want-station',
          station: {
            id: `station-${fresh.freshId()}` as StationId,
            runId: front.id,
            item,
            vertexId: vertexOf(straight),
            at: at(straight, nearMm),
            withinMm,
          },
        }),
      ),
      ...demoWaysIn(sheetId, snappedPt, fresh).map((wayIn): SimpleCommand => ({ type: 'add-way-in', wayIn })),
      { type: 'describe-vehicle', vehicle: demoVan },
    ],
  };
};

/** Opens the demo project of an archive; draws its plan and traces its counters where there is none yet. */
export const openDemo = async (over: {
  readonly ports: Ports;
  readonly projects: Projects;
  readonly plans: Plans;
  readonly newProject: (name: string) => Promise<OpenProject>;
}): Promise<OpenProject> => {
  const { ports, projects, plans } = over;
  const existing = (await ports.store.listProjects()).find(({ jobNumber }) => jobNumber === demoJobNumber);
  if (existing) return projects.open(existing.projectId);

  const { sha256, pages } = await plans.takeIn(demoPlanFile, await drawDemoPlan(), {});
  const project = await over.newProject(demoProject.venue);
  const { projectId } = project;
  const sheetId = `sheet-${ports.freshId()}` as SheetId;
  const begin: Command = {
    type: 'together',
    label: 'Take in the demo plan',
    commands: [
      {
        type: 'change-job',
        changes: {
          number: demoJobNumber,
          client: demoProject.client,
          site: demoProject.place,
          tenderDate: '2026-12-18',
          state: 'traced',
        },
      },
      {
        type: 'add-sheet',
        sheet: {
          id: sheetId,
          name: demoProject.drawing,
          planSha256: sha256,
          planFileName: demoPlanFile,
          pageNumber: 1,
          userUnit: pages[0]?.userUnit ?? 1,
          acceptedScale: null,
          layers: {},
        },
      },
    ],
  };
  const begun = await projects.change(projectId, project.revision, begin);
  const traced = await projects.change(projectId, begun.project.revision, tracingOf(sheetId, ports));
  return traced.project;
};
