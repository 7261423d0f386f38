import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import { drawSection, type SectionDrawing } from './drawSection.ts';
import type { SectionCut } from './sectionCuts.ts';

/** The section of a cut, with what it is cut through and for which runs it stands too. */
export const sectionOfCut = (cut: SectionCut, range: StockRange, unit: DisplayUnit): SectionDrawing => {
  const { letter, run, piece, alsoFor } = cut;
  const item = range.items.find(({ id }) => id === run.alternative?.pieces[piece]?.item);
  const mark = run.marks?.pieces[piece];
  const others = alsoFor.map(({ number, run: { name } }) => `${number} ${name}`).join(', ');
  return drawSection({
    title: `Section ${letter}\u2013${letter}`,
    caption: [
      `through ${mark ?? item?.name ?? 'a module'} of ${run.number} ${run.run.name}`,
      ...(others ? [`the same for ${others}`] : []),
      `lengths in ${unit === 'mm' ? 'millimetres' : 'feet and inches'}`,
    ].join('; '),
    depthMm: run.run.depthMm,
    claddingMm: run.run.allowances.claddingMm,
    item,
    range,
    unit,
  });
};
