import type { Store } from '../../src/app/ports.ts';
import { projectFactsOf } from '../../src/app/search/projectFacts.ts';
import type { ProjectId, RunId, SheetId, StationId, VertexId } from '../../src/document/ids.ts';
import { jobStates } from '../../src/document/job.ts';
import { emptyDocument, type ProjectDocument } from '../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { seededNumbers } from './editedSteps.ts';

/** Invented words to make up venues, clients and sites of. */
const venueWords = [
  'Quay',
  'Lantern',
  'Copper',
  'Otter',
  'Meridian',
  'Gable',
  'Plover',
  'Café',
  'Tannery',
  'Mill',
];
const kindWords = ['Tap', 'Rooms', 'Hall', 'Yard', 'Hotel', 'Terrace', 'Cellar', 'Assembly'];
const clientWords = [
  'Salt Lane',
  'Northgate',
  'Ferrow',
  'Brackwater',
  'Umber',
  'Tollhouse',
  'Straße & Söhne',
];
const siteWords = ['Dock Road', 'Market Hill', 'Weir Street', 'Old Wharf', 'Chapel Row', 'Canal Side'];
const stationItems = ['beer-tower', 'cocktail-station', 'hand-basin', 'glass-sink', 'till-point'];

/** One project of an archive, with the document as it is at `revision` 0. */
export interface ArchivedProject {
  readonly projectId: ProjectId;
  readonly document: ProjectDocument;
  readonly at: string;
}

const pad = (number: number, digits: number): string => String(number).padStart(digits, '0');

/** Projects as a busy office has them, by a seed: one to three runs each, half of them with a kept fit. */
export const archivedProjects = (count: number, seed: number): readonly ArchivedProject[] => {
  const next = seededNumbers(seed);
  const pick = <Value>(values: readonly Value[]): Value => values[Math.floor(next() * values.length)]!;
  return Array.from({ length: count }, (_, number) => {
    const sheetId = `sheet-${number}` as SheetId;
    const runIds = Array.from(
      { length: 1 + Math.floor(next() * 3) },
      (_run, index) => `run-${number}x${index}` as RunId,
    );
    const empty = emptyDocument(`${pick(venueWords)} ${pick(venueWords)} ${pick(kindWords)} ${number}`, {
      id: next() < 0.8 ? demoRange.id : 'other-range',
      version: 1,
    });
    const runs = runIds.map((id, index) => {
      const [across, up] = [600 + Math.floor(next() * 9000), 600 + Math.floor(next() * 4000)];
      // 1:50 and 72 points to the inch: 1 mm in the room is 72 / 25.4 / 50 points.
      const points = (mm: number): number => (mm * 72) / 25.4 / 50;
      const corners =
        next() < 0.5
          ? [
              [0, 0],
              [across, 0],
            ]
          : [
              [0, 0],
              [across, 0],
              [across, up],
            ];
      return {
        ...runDefaultsOf(demoRange),
        id,
        sheetId,
        name: `Run ${index + 1}`,
        frontLine: corners.map(([x = 0, y = 0], vertex) => ({
          id: `vertex-${number}x${index}x${vertex}` as VertexId,
          at: paperPoint(100 + points(x), 100 + points(y)),
          treatment: null,
        })),
        backSide: 'left' as const,
        depthMm: 700,
        ends: [
          { kind: 'wall' as const, giveInMm: 0, giveOutMm: 0 },
          { kind: 'wall' as const, giveInMm: 0, giveOutMm: 0 },
        ] as const,
        pickUncertaintyPt: 0.05,
      };
    });
    const stations = stationItems.filter(() => next() < 0.3);
    const planSha256 = pad(Math.floor(next() * count), 8).repeat(8);
    const day = `20${pad(20 + Math.floor(next() * 8), 2)}-${pad(1 + Math.floor(next() * 12), 2)}-${pad(1 + Math.floor(next() * 28), 2)}`;
    const document: ProjectDocument = {
      ...empty,
      job: {
        ...empty.job,
        number: `J${pad(number, 5)}`,
        client: next() < 0.05 ? '' : pick(clientWords),
        site: `${Math.floor(next() * 90)} ${pick(siteWords)}`,
        tenderDate: next() < 0.2 ? '' : day,
        state: pick(jobStates),
        retainUntil: next() < 0.3 ? day : '',
      },
      sheetIds: [sheetId],
      sheets: {
        [sheetId]: {
          id: sheetId,
          name: 'Ground floor',
          planSha256,
          planFileName: `${pick(siteWords)} GA rev ${pick(['A', 'B', 'C'])}.pdf`,
          pageNumber: 1,
          userUnit: 1,
          acceptedScale: next() < 0.1 ? null : { ratio: 50, relativeUncertainty: 0.002, because: 'test' },
          layers: {},
        },
      },
      runIds,
      runs: Object.fromEntries(runs.map((run) => [run.id, run])),
      stations: Object.fromEntries(
        stations.map((item, index) => [
          `station-${number}x${index}`,
          {
            id: `station-${number}x${index}` as StationId,
            runId: runIds[0]!,
            item,
            vertexId: runs[0]!.frontLine[0]!.id,
            at: runs[0]!.frontLine[0]!.at,
            withinMm: 100,
          },
        ]),
      ),
      keptFits:
        next() < 0.5
          ? {
              [runIds[0]!]: {
                runId: runIds[0]!,
                problem: '{}',
                solverVersion: '1',
                alternative: JSON.stringify({ score: { pieces: 1 + Math.floor(next() * 14) } }),
                explanation: '',
              },
            }
          : {},
    };
    return {
      projectId: `project-${number}` as ProjectId,
      document,
      at: `${day}T10:00:${pad(number % 60, 2)}.000Z`,
    };
  });
};

/** Puts them into a store, in their order. */
export const fillWith = async (store: Store, projects: readonly ArchivedProject[]): Promise<void> => {
  for (const { projectId, document, at } of projects)
    await store.createProject({ projectId, document, at, facts: projectFactsOf(document) });
};
