import fc from 'fast-check';
import type { SimpleCommand } from '../../src/document/command.ts';
import type {
  ObstacleId,
  ReferenceId,
  RunId,
  SheetId,
  StationId,
  VertexId,
  WayInId,
  ZoneId,
} from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { DrawnObstacle } from '../../src/document/wayInRecords.ts';
import { paperPoint } from '../../src/geometry/point.ts';

/** Random editing as an operator might do it: mostly commands that apply, some that are refused. */

const pointArb = fc
  .tuple(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 0, max: 2000 }))
  .map(([x, y]) => paperPoint(x / 2, y / 2));

const runDefaults: Omit<Run, 'id' | 'sheetId' | 'name' | 'frontLine'> = {
  backSide: 'left',
  depthMm: 700,
  ends: [
    { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
    { kind: 'exposed', giveInMm: 0, giveOutMm: 100 },
  ],
  allowances: { jointMm: 0, scribeMm: 5, endPanelMm: 20, claddingMm: 0 },
  fillerMaxMm: 150,
  hostMarginMm: 30,
  maxWidthMm: null,
  order: 'best',
  pickUncertaintyPt: 0.5,
};

/** A stream of numbers that a seed gives; command drawing consumes it so that a sequence is one shrinkable value. */
export interface Draw {
  readonly kind: number;
  readonly which: number;
  readonly more: number;
  readonly points: readonly ReturnType<typeof paperPoint>[];
}

export const drawArb: fc.Arbitrary<Draw> = fc.record({
  kind: fc.nat(31),
  which: fc.nat(999),
  more: fc.nat(999),
  points: fc.array(pointArb, { minLength: 2, maxLength: 6 }),
});

const pickFrom = <Value>(list: readonly Value[], which: number): Value | undefined =>
  list.length ? list[which % list.length] : undefined;

/** The command that a draw means for a document. `serial` makes fresh ids. */
export const commandFor = (document: ProjectDocument, draw: Draw, serial: number): SimpleCommand => {
  const { kind, which, more, points } = draw;
  const runId = pickFrom(document.runIds, which) ?? ('run-none' as RunId);
  const run = document.runs[runId];
  const vertexId = pickFrom(run?.frontLine ?? [], more)?.id ?? ('vertex-none' as VertexId);
  const sheetId = pickFrom(document.sheetIds, which) ?? ('sheet-none' as SheetId);
  const first = points[0] ?? paperPoint(0, 0);
  const second = points[1] ?? paperPoint(1, 1);
  switch (kind) {
    case 0:
      return {
        type: 'change-job',
        changes: { name: `Job ${serial}`, client: which % 2 ? 'Harbour Rooms' : '' },
      };
    case 1:
      return {
        type: 'add-sheet',
        sheet: {
          id: `sheet-${serial}` as SheetId,
          name: `Sheet ${serial}`,
          planSha256: 'a'.repeat(64),
          planFileName: 'ground-floor.pdf',
          pageNumber: 1 + (which % 5),
          userUnit: 1,
          acceptedScale: null,
          layers: {},
        },
      };
    case 2:
      return { type: 'remove-sheet', sheetId };
    case 3:
      return {
        type: 'accept-scale',
        sheetId,
        scale: { ratio: 20 + more, relativeUncertainty: 0.002, because: 'note' },
      };
    case 4:
    case 5:
      return {
        type: 'add-reference',
        reference: {
          id: `reference-${serial}` as ReferenceId,
          sheetId,
          a: first,
          b: second,
          lengthMm: 1000 + more,
          typed: String(1000 + more),
          pickUncertaintyPt: 0.5,
        },
      };
    case 6: {
      const referenceId = pickFrom(Object.keys(document.references), which) as ReferenceId | undefined;
      return more % 2
        ? { type: 'remove-reference', referenceId: referenceId ?? ('reference-none' as ReferenceId) }
        : {
            type: 'change-reference',
            referenceId: referenceId ?? ('reference-none' as ReferenceId),
            changes: { lengthMm: 500 + more },
          };
    }
    case 7:
    case 8:
    case 9:
      return {
        type: 'add-run',
        run: {
          ...runDefaults,
          id: `run-${serial}` as RunId,
          sheetId,
          name: `Run ${serial}`,
          frontLine: points.map((at, index) => ({
            id: `vertex-${serial}x${index}` as VertexId,
            at,
            treatment: null,
          })),
        },
      };
    case 10:
      return { type: 'change-run', runId, changes: { depthMm: 400 + more, name: `Bar ${serial}` } };
    case 11:
      return more % 4 ? { type: 'release-fit', runId } : { type: 'remove-run', runId };
    case 12:
      return {
        type: 'insert-vertex',
        runId,
        index: more % ((run?.frontLine.length ?? 0) + 2),
        vertex: { id: `vertex-${serial}` as VertexId, at: first, treatment: null },
      };
    case 13:
    case 14:
      return { type: 'move-vertex', runId, vertexId, to: first };
    case 15:
      return { type: 'remove-vertex', runId, vertexId };
    case 16:
      return { type: 'pin-corner', runId, vertexId, treatment: more % 2 ? 'first-through' : null };
    case 17:
      return {
        type: 'add-zone',
        zone: {
          id: `zone-${serial}` as ZoneId,
          runId,
          kind: (['opening', 'blocked', 'bay', 'low'] as const)[which % 4]!,
          name: 'Flap',
          vertexId,
          a: first,
          b: second,
        },
      };
    case 18:
      return {
        type: 'want-station',
        station: {
          id: `station-${serial}` as StationId,
          runId,
          item: 'hand-basin',
          vertexId,
          at: first,
          withinMm: 300,
        },
      };
    case 19:
    case 20:
    case 21:
    case 22:
    case 23:
    case 24:
      return wayInCommandFor(document, draw, serial);
    case 25:
    case 26:
      return { type: 'bend-straight', runId, vertexId, through: which % 3 ? second : null };
    case 27:
      return {
        type: 'measure-on-site',
        runId,
        vertexId,
        siteMeasure:
          which % 4
            ? {
                lengthMm: 1000 + more,
                plusMinusMm: which % 5,
                measuredBy: 'Ines Holt',
                measuredOn: '2027-03-01',
              }
            : null,
      };
    case 28:
      return settingsCommandFor(which, more);
    case 29:
      return {
        type: 'change-run',
        runId,
        changes: {
          levels:
            which % 2
              ? {
                  topHeightMm: 900 + (more % 200),
                  shelfHeightsMm: [],
                  floorAtStartMm: 0,
                  floorAtEndMm: more % 40,
                  raisedFloorBehindMm: 0,
                }
              : null,
          ends: [
            { kind: 'meets', giveInMm: 0, giveOutMm: 0, meetsRunId: runId },
            { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
          ],
        },
      };
    case 30:
      return {
        type: 'add-sheet',
        sheet: {
          id: `sheet-${serial}` as SheetId,
          name: `Sheet ${serial}, revision B`,
          planSha256: 'b'.repeat(64),
          planFileName: 'ground-floor B.pdf',
          pageNumber: 1,
          userUnit: 1,
          acceptedScale: null,
          layers: {},
          revisionOf: {
            supersedes: sheetId,
            revision: 'B',
            map: { a: 0.5, b: 0, e: first.x, f: first.y },
            plusMinusPt: 0.1,
            method: 'linework',
            isSure: true,
            because: 'a test',
          },
        },
      };
    default: {
      const zoneId = (pickFrom(Object.keys(document.zones), which) ?? 'zone-none') as ZoneId;
      return more % 2
        ? { type: 'remove-zone', zoneId }
        : { type: 'change-zone', zoneId, changes: { a: second, name: 'Column' } };
    }
  }
};

/** Terms of the quote and words of the title block: set, set otherwise, and left to what is usual. */
const settingsCommandFor = (which: number, more: number): SimpleCommand => {
  if (which % 2)
    return {
      type: 'set-issue-settings',
      issueSettings:
        more % 3
          ? {
              legalOwner: `Office ${more}`,
              creator: '',
              approver: '',
              responsibleDepartment: '',
              purpose: 'tender',
              paper: 'iso',
            }
          : null,
    };
  return {
    type: 'set-quote-terms',
    quoteTerms:
      more % 3
        ? {
            number: `Q-${more}`,
            validDays: 30,
            discountBasisPoints: more,
            freightMinor: null,
            installationMinor: more * 100,
            tax: null,
            assumptions: ['Floors are level.'],
            exclusions: [],
          }
        : null,
  };
};

const wayInCommandFor = (
  document: ProjectDocument,
  { kind, which, more, points }: Draw,
  serial: number,
): SimpleCommand => {
  const wayInId = pickFrom(document.wayInIds, which) ?? ('way-in-none' as WayInId);
  const obstacles = document.waysIn[wayInId]?.obstacles ?? [];
  const obstacleId = pickFrom(obstacles, more)?.id ?? ('obstacle-none' as ObstacleId);
  const sheetId = pickFrom(document.sheetIds, more);
  const [a, b] = points;
  const obstacle = (id: ObstacleId): DrawnObstacle => ({
    id,
    kind: 'passage',
    name: `Passage ${serial}`,
    sizes: {
      widthMm:
        sheetId && a && b && which % 2
          ? { from: 'sheet', sheetId, a, b, pickUncertaintyPt: 0.5 }
          : { from: 'typed', lengthMm: 900 + more },
      heightMm: { from: 'typed', lengthMm: 2000 + more },
    },
    figures: {},
    typedPlusMinusMm: more % 20,
    confirmOnSite: false,
  });
  const runIds = document.runIds.filter((_, index) => (which >> index) % 2 === 0).slice(0, 3);
  switch (kind) {
    case 19:
      return which % 3
        ? {
            type: 'add-way-in',
            wayIn: { id: `way-in-${serial}` as WayInId, name: `Way ${serial}`, obstacles: [] },
          }
        : { type: 'choose-way-in', wayInId };
    case 20:
      return {
        type: 'add-obstacle',
        wayInId,
        index: more % (obstacles.length + 2),
        obstacle: obstacle(`obstacle-${serial}` as ObstacleId),
      };
    case 21:
      return { type: 'change-obstacle', wayInId, obstacle: obstacle(obstacleId) };
    case 22:
      return { type: 'move-obstacle', wayInId, obstacleId, toIndex: which % (obstacles.length + 1) };
    case 23:
      return more % 3 ? { type: 'remove-obstacle', wayInId, obstacleId } : { type: 'remove-way-in', wayInId };
    default:
      return more % 3
        ? {
            type: 'limit-runs',
            runIds: runIds.length ? runIds : ['run-none' as RunId],
            isLimited: which % 3 !== 0,
          }
        : {
            type: 'describe-vehicle',
            vehicle:
              which % 2 ? { lengthMm: 3000 + more, widthMm: 1700, heightMm: 1800, payloadKg: 900 } : null,
          };
  }
};
