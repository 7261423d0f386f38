import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import { zoneTitle } from '../zoneTitle.ts';
import { drawSection, type SectionDrawing, type SectionThrough } from './drawSection.ts';
import type { SectionCut } from './sectionCuts.ts';

/** What a cut goes through, and how it is named. */
const throughOf = (
  { run, through }: SectionCut,
  range: StockRange,
): { readonly what: string; readonly through: SectionThrough } => {
  if (through.kind === 'piece') {
    const item = range.items.find(({ id }) => id === run.alternative?.pieces[through.piece]?.item);
    const what = run.marks?.pieces[through.piece] ?? item?.name ?? 'a module';
    return { what, through: { kind: 'module', item } };
  }
  const { zone } = through;
  return {
    what: zoneTitle(zone),
    through:
      zone.kind === 'low'
        ? { kind: 'low', name: zone.name, topHeightMm: zone.topHeightMm }
        : {
            kind: 'bay',
            name: zone.name,
            clearance: zone.clearance,
            ...(zone.services ? { services: zone.services } : {}),
          },
  };
};

/** Where along the run a cut lies, 0 at its start and 1 at its end. */
const shareOf = ({ run, straight, alongMm }: SectionCut): number => {
  const lengths = run.straights.map(({ lengthMm }) => lengthMm);
  const sum = (list: readonly number[]) => list.reduce((total, one) => total + one, 0);
  return (sum(lengths.slice(0, straight)) + alongMm) / Math.max(1, sum(lengths));
};

/** The section of a cut, with what it is cut through and for which runs it stands too. */
export const sectionOfCut = (cut: SectionCut, range: StockRange, unit: DisplayUnit): SectionDrawing => {
  const { letter, run, alsoFor } = cut;
  const { what, through } = throughOf(cut, range);
  const others = alsoFor.map(({ number, run: { name } }) => `${number} ${name}`).join(', ');
  return drawSection({
    title: `Section ${letter}\u2013${letter}`,
    caption: [
      `through ${what} of ${run.number} ${run.run.name}`,
      ...(others ? [`the same for ${others}`] : []),
      `lengths in ${unit === 'mm' ? 'millimetres' : 'feet and inches'}`,
      ...(run.run.levels ? ['heights above the sheet’s datum'] : []),
    ].join('; '),
    depthMm: run.run.depthMm,
    claddingMm: run.run.allowances.claddingMm,
    through,
    levels: run.run.levels,
    share: shareOf(cut),
    range,
    unit,
  });
};
