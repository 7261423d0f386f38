import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import { projectDocumentSchema } from '../../src/document/projectDocument.ts';
import type { RunZone } from '../../src/measure/zonesOfRun.ts';
import { zonesOfRun } from '../../src/measure/zonesOfRun.ts';
import { bayMarks, markOfService } from '../../src/quote/bayMarks.ts';
import { installationOrder } from '../../src/quote/installationOrder.ts';
import { pieceMarks } from '../../src/quote/pieceMarks.ts';
import { zoneRows } from '../../src/quote/zoneRows.ts';
import { servicePoints } from '../../src/services/servicePoints.ts';
import { servicesSchedule } from '../../src/services/servicesSchedule.ts';
import { drainageSentences, waterSentences } from '../../src/services/servicesWords.ts';
import { usualServices } from '../../src/services/usualServices.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { serviceSchema } from '../../src/stock/stockSchema.ts';
import { demoFrontBar, documentOf } from '../issue/elevation/elevationScenes.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { fitOf, runAt } from './fittedRun.ts';

const scale = { ratio: 50, relativeUncertainty: 0, userUnit: 1 };
/** A point of paper is 25.4/72 mm; at 1:50 that is 17.6388… mm in the room. */
const mmPerPoint = (25.4 / 72) * 50;

const bay = (more: Partial<RunZone> = {}): RunZone => ({
  id: 'zone-1' as RunZone['id'],
  kind: 'bay',
  name: 'Glasswasher',
  straight: 0,
  fromMm: 4_050,
  toMm: 4_650,
  equipmentKind: 'glasswasher',
  services: usualServices('glasswasher', 600),
  ...more,
});

const run = runAt(
  [
    [0, 0],
    [500, 0],
  ],
  'left',
);
const alternative = fitOf([
  { straight: 0, item: 'module-1800', fromMm: 0, toMm: 1_800 },
  { straight: 0, item: 'hand-basin-11l', fromMm: 100, toMm: 480, host: 0 },
  { straight: 0, item: 'wash-sink-400', fromMm: 600, toMm: 1_040, host: 0 },
]);

describe('services of equipment by others', () => {
  it('come up from the equipment’s left end as the bartender sees it, whichever way the run was traced', () => {
    const random = seededRandom(20_261_125);
    for (let round = 0; round < 200; round += 1) {
      const angle = random.next() * 2 * Math.PI;
      const along = { x: Math.cos(angle), y: Math.sin(angle) };
      const backSide = random.pick(['left', 'right'] as const);
      const traced = runAt(
        [
          [40, 70],
          [40 + along.x * 300, 70 + along.y * 300],
        ],
        backSide,
      );
      const fromMm = random.integer(0, 2_000);
      const offsetMm = random.integer(0, 600);
      const services = [{ kind: 'waste', offsetMm, heightMm: 350, connection: 'DN 50' }] as const;
      const zone = bay({ fromMm, toMm: fromMm + 600, services });
      const [point] = servicePoints(traced, fitOf([]), demoRange, scale, [zone]);
      // Rebuilt without the code under test, in PDF user space, where y is up. The bartender looks from the back to the front;
      // what is on the left hand of who looks along (x, y) lies along (-y, x).
      const sign = backSide === 'left' ? 1 : -1;
      const towardsBack = { x: -along.y * sign, y: along.x * sign };
      const left = { x: towardsBack.y, y: -towardsBack.x };
      const leftEndMm = left.x * along.x + left.y * along.y > 0 ? fromMm + 600 : fromMm;
      const expected = {
        x: 40 + (along.x * leftEndMm - left.x * offsetMm + towardsBack.x * 75) / mmPerPoint,
        y: 70 + (along.y * leftEndMm - left.y * offsetMm + towardsBack.y * 75) / mmPerPoint,
      };
      const missMm = Math.hypot(point!.atPaper.x - expected.x, point!.atPaper.y - expected.y) * mmPerPoint;
      expect(missMm).toBeLessThan(0.01);
      expect(point).toMatchObject({ heightMm: 350, item: '', itemName: 'Glasswasher, by others' });
    }
  });

  it('count in the totals of their trades: basin, sink and dishwasher together by the standard’s worked figures', () => {
    const schedule = servicesSchedule([{ run, alternative, scale, zones: [bay()] }], demoRange);
    // EN 12056-2:2000, Tables 2 and 3, system I: 0.7 x sqrt(0.5 + 0.8 + 0.8) = 1.0144 l/s.
    expect(schedule.drainage.sumOfUnits).toBeCloseTo(2.1, 12);
    expect(schedule.drainage.flowLitresPerSecond).toBeCloseTo(1.0144, 4);
    expect(drainageSentences(schedule, 'metric').join(' ')).toContain('1 x dishwasher at 0.8 l/s');
    // EN 806-3 asks for non-domestic appliances to be checked with their maker; UPC 702.1 was not read for one.
    expect(schedule.water).toMatchObject({
      cold: 3,
      notInTable: [{ itemName: 'Glasswasher, by others', count: 1 }],
    });
    expect(waterSentences(schedule).join(' ')).toContain('in no sum: 1 x Glasswasher, by others');
    expect(schedule.fixtureUnits.notInTable).toEqual([{ itemName: 'Glasswasher, by others', count: 1 }]);
    expect(schedule.load.totalKw).toBe(3.2);
    expect(schedule.trades.map(({ trade, points }) => [trade, points])).toEqual([
      // basin and sink bring three each
      ['plumbing', 8],
      ['electrical', 1],
    ]);
    expect(schedule.cautions.at(-1)).toMatch(/by others.*supplier/);
  });

  it('of other equipment have no place in the drainage table, and are named outside the sum', () => {
    const services = usualServices('ice-machine', 500);
    const zones = [bay({ name: 'Ice machine', equipmentKind: 'ice-machine', services })];
    const { drainage, cautions } = servicesSchedule(
      [{ run, alternative: fitOf([]), scale, zones }],
      demoRange,
    );
    expect(drainage).toMatchObject({
      sumOfUnits: 0,
      notInTable: [{ itemName: 'Ice machine, by others', count: 1 }],
    });
    expect(cautions.length).toBeGreaterThan(servicesSchedule([], demoRange).cautions.length);
  });

  it('stand in the lists under the bay’s mark, which counts along the front', () => {
    const zones = [bay(), bay({ id: 'zone-0' as RunZone['id'], fromMm: 2_000, toMm: 2_600, services: [] })];
    const marks = pieceMarks(3, alternative);
    const points = servicePoints(run, alternative, demoRange, scale, zones);
    const waste = points.find(({ asker }) => asker.kind === 'bay')!;
    expect(markOfService(waste, 3, marks, zones)).toBe('3.Q2');
    expect(markOfService(points[0]!, 3, marks, zones)).toBe(marks.pieces[1]);
    const rows = zoneRows({ name: 'Front bar', number: 3 }, zones, demoRange);
    expect(rows.map(({ mark }) => mark)).toEqual([...bayMarks(3, zones).values()]);
    expect(rows[0]!.note).not.toContain('comes up');
    expect(rows[1]!.note).toContain('comes up: cold water, power, waste');
    expect(rows[1]!.note).toContain('check with the supplier');
  });

  it('hold the installation until they are up, where no piece asks for any', () => {
    const dry = fitOf([{ straight: 0, item: 'module-1800', fromMm: 0, toMm: 1_800 }]);
    const steps = (zones: readonly RunZone[]) =>
      installationOrder(run, 1, dry, demoRange, zones).map(({ what }) => what);
    expect(steps([])).not.toContain('Hold: services rough-in');
    expect(steps([bay()])).toContain('Hold: services rough-in');
  });

  it('start as is usual within the equipment’s width, each of them one that a range may hold', () => {
    for (const equipment of ['glasswasher', 'bottle-cooler', 'ice-machine'] as const)
      for (const widthMm of [300, 600, 1_200])
        for (const service of usualServices(equipment, widthMm)) {
          expect(serviceSchema.safeParse(service).success).toBe(true);
          expect(service.offsetMm).toBeLessThan(widthMm);
        }
  });

  it('are kept in the document, which opens without them too, and takes no more than twelve', () => {
    const document = documentOf({
      ...demoFrontBar,
      zones: [{ kind: 'bay', name: 'Bay', straight: 0, fromMm: 0, toMm: 600 }],
    });
    const zone = Object.values(document.zones)[0]!;
    expect(projectDocumentSchema.safeParse(document).success).toBe(true);
    const change = (count: number) =>
      projectDocumentSchema.safeParse({
        ...document,
        zones: { [zone.id]: { ...zone, services: Array(count).fill(bay().services![0]) } },
      }).success;
    expect([change(12), change(13)]).toEqual([true, false]);
    const changed = applyCommand(document, {
      type: 'change-zone',
      zoneId: zone.id,
      changes: { equipmentKind: 'glasswasher', services: [...bay().services!] },
    });
    if (!changed.ok) throw new Error(changed.refusal.message);
    expect(zonesOfRun(changed.document, zone.runId, scale)[0]).toMatchObject({
      equipmentKind: 'glasswasher',
      services: bay().services,
    });
    // What is no bay any more brings nothing up.
    const other = applyCommand(changed.document, {
      type: 'change-zone',
      zoneId: zone.id,
      changes: { kind: 'opening' },
    });
    if (!other.ok) throw new Error(other.refusal.message);
    expect(zonesOfRun(other.document, zone.runId, scale)[0]).not.toHaveProperty('services');
  });
});
