import type { Point } from '../../geometry/point.ts';
import { bayMarks, markOfService } from '../../quote/bayMarks.ts';
import { verdictWord } from '../../quote/schedule.ts';
import { serviceWord } from '../../services/servicePoint.ts';
import { type DisplayUnit, formatPlusMinus } from '../../units/formatLength.ts';
import { drawnLength } from '../elevation/elevationChains.ts';
import { zoneTitle } from '../zoneTitle.ts';
import type { FloorPlan, FloorRun } from './floorPlan.ts';
import type { SheetTable } from './tableBlocks.ts';

const distance = (one: Point, other: Point): number => Math.hypot(other.x - one.x, other.y - one.y);

/** What stands where: every mark with its place from the datum of its straight, in the order of the front line. */
const marksOf = (run: FloorRun, unit: DisplayUnit): SheetTable => {
  const bays = bayMarks(run.number, run.zones);
  const rows = run.straights.flatMap((straight) => {
    const byOthers = run.zones
      .filter(({ id, straight: index }) => index === straight.index && bays.has(id))
      .map((zone) => ({
        fromMm: zone.fromMm,
        toMm: zone.toMm,
        cells: [
          bays.get(zone.id) ?? '',
          zoneTitle(zone),
          straight.datum,
          drawnLength(zone.fromMm, unit),
          drawnLength(zone.toMm, unit),
          drawnLength(zone.toMm - zone.fromMm, unit),
        ],
      }));
    const standing = run.parts
      .flatMap((part) => {
        if (part.kind === 'corner') return [];
        const index = Number(part.part.split(':')[1]);
        const { pieces = [], leftovers = [], wedges = [] } = run.alternative ?? {};
        const span = { piece: pieces, leftover: leftovers, wedge: wedges }[part.kind][index];
        return span?.straight === straight.index ? [{ part, span }] : [];
      })
      .map(({ part, span }) => ({
        fromMm: span.fromMm,
        toMm: span.toMm,
        cells: [
          part.mark,
          part.kind === 'wedge'
            ? `Wedge made to measure, ${drawnLength(part.frontMm, unit)} at the front, ${drawnLength(part.backMm, unit)} at the back, ${part.angleDeg.toFixed(1)}°`
            : part.kind === 'piece'
              ? part.name
              : `Leftover: ${verdictWord(part.verdict)}${part.confirmed ? '' : ', measure on site'}`,
          straight.datum,
          drawnLength(span.fromMm, unit),
          drawnLength(span.toMm, unit),
          drawnLength(part.kind === 'piece' ? part.widthMm : span.toMm - span.fromMm, unit),
        ],
      }));
    return [...standing, ...byOthers]
      .sort((one, other) => one.fromMm - other.fromMm || other.toMm - one.toMm)
      .map(({ cells }) => cells);
  });
  const corners = run.parts.flatMap((part) =>
    part.kind === 'corner' ? [[part.mark, part.name, '', '', '', '']] : [],
  );
  return {
    title: `Run ${run.number}, ${run.run.name}: what stands where`,
    columns: [
      { title: 'Mark', share: 13 },
      { title: 'What', share: 52 },
      { title: 'Datum', share: 11 },
      { title: 'From', share: 14, align: 'end' },
      { title: 'To', share: 14, align: 'end' },
      { title: 'Width', share: 14, align: 'end' },
    ],
    rows: [...rows, ...corners],
  };
};

/** What comes up where, set out from the datum of its straight. */
const servicesOf = (run: FloorRun, unit: DisplayUnit): SheetTable => ({
  title: `Run ${run.number}, ${run.run.name}: services, heights above finished floor`,
  columns: [
    { title: 'Tag', share: 13 },
    { title: 'Service', share: 24 },
    { title: 'Connection', share: 24 },
    { title: 'Datum', share: 11 },
    { title: 'Along', share: 14, align: 'end' },
    { title: 'From front', share: 15, align: 'end' },
    { title: 'Height', share: 13, align: 'end' },
    { title: 'For', share: 14, align: 'end' },
    { title: 'kW', share: 10, align: 'end' },
  ],
  rows: run.services.map((point) => [
    point.tag,
    `${serviceWord[point.kind]}${point.count > 1 ? ` × ${point.count}` : ''}`,
    point.connection,
    run.straights[point.straight]?.datum ?? '',
    drawnLength(point.alongMm, unit),
    drawnLength(point.fromFrontMm, unit),
    drawnLength(point.heightMm, unit),
    markOfService(point, run.number, run.marks, run.zones),
    point.loadKw === null ? '' : String(point.loadKw),
  ]),
});

const datumsOf = (plan: FloorPlan) =>
  plan.runs.flatMap(({ straights, lastDatum }) => [
    ...straights.map(({ datum, start }) => ({ name: datum, at: start })),
    lastDatum,
  ]);

const mostChecks = 24;

/** The tables of a set: marks of each run, datums with their coordinates, distances that check them. */
export const settingOutTables = (plan: FloorPlan, unit: DisplayUnit): readonly SheetTable[] => {
  const datums = datumsOf(plan);
  const checks = plan.runs.flatMap((run, index) => {
    const own = [...run.straights.map(({ datum, start }) => ({ name: datum, at: start })), run.lastDatum];
    const [first, last] = [own[0]!, own.at(-1)!];
    const others = plan.runs
      .slice(index + 1)
      .flatMap((other) => [
        { name: other.straights[0]!.datum, at: other.straights[0]!.start },
        other.lastDatum,
      ]);
    const diagonal = own.length > 2 ? [[first, last] as const] : [];
    return [...diagonal, ...others.flatMap((other) => [[first, other] as const, [last, other] as const])];
  });
  const lengths = plan.runs.flatMap((run) =>
    run.straights.map((straight) => [
      `${straight.datum} to ${run.straights[straight.index + 1]?.datum ?? run.lastDatum.name}`,
      drawnLength(straight.lengthMm, unit),
      formatPlusMinus(straight.plusMinusMm, { unit }).replace(/^±\s*|\s*mm$/g, ''),
    ]),
  );
  const tables: readonly SheetTable[] = [
    ...plan.runs.filter(({ alternative }) => alternative).map((run) => marksOf(run, unit)),
    ...plan.runs.map((run) => servicesOf(run, unit)),
    {
      title: `Datums: coordinates from ${plan.origin}, x to the right of the sheet, y up`,
      columns: [
        { title: 'Datum', share: 20 },
        { title: 'x', share: 30, align: 'end' },
        { title: 'y', share: 30, align: 'end' },
        { title: '', share: 20 },
      ],
      rows: datums.map(({ name, at }) => [name, drawnLength(at.x, unit), drawnLength(at.y, unit), '']),
    },
    {
      title: 'Straights: traced length of the front line, ± at k = 2',
      columns: [
        { title: 'From, to', share: 40 },
        { title: 'Length', share: 30, align: 'end' },
        { title: '±', share: 30, align: 'end' },
      ],
      rows: lengths,
    },
    {
      title: 'Checks: distances between datums, straight across',
      columns: [
        { title: 'From, to', share: 40 },
        { title: 'Distance', share: 30, align: 'end' },
        { title: '', share: 30 },
      ],
      rows: checks
        .slice(0, mostChecks)
        .map(([one, other]) => [
          `${one.name} to ${other.name}`,
          drawnLength(distance(one.at, other.at), unit),
          '',
        ]),
    },
  ];
  return tables.filter(({ rows }) => rows.length > 0);
};
