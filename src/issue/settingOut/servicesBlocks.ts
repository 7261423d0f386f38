import { continuousExamples } from '../../services/connectedLoad.ts';
import { BY_OTHERS_CAUTION } from '../../services/servicesCautions.ts';
import { servicesSchedule } from '../../services/servicesSchedule.ts';
import {
  drainageSentences,
  gapSentences,
  loadSentences,
  tradeSentences,
  waterSentences,
} from '../../services/servicesWords.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import type { FloorPlan } from './floorPlan.ts';

/** What the services of a set come to, for each trade, with sources and limits; nothing where nothing comes up. */
export const servicesBlocks = (
  plans: readonly FloorPlan[],
  range: StockRange,
  unit: DisplayUnit,
): readonly { readonly heading: string; readonly paragraphs: readonly string[] }[] => {
  const served = plans.flatMap((plan) =>
    plan.runs.flatMap(({ run, alternative, zones }) =>
      alternative ? [{ run, alternative, zones, scale: plan.scale }] : [],
    ),
  );
  const schedule = servicesSchedule(served, range);
  const points = schedule.runs.flatMap((run) => run.points);
  if (points.length === 0) return [];
  return [
    { heading: 'Services: totals for each trade', paragraphs: tradeSentences(schedule) },
    {
      heading: 'Services: loads and flows, for whoever designs them',
      paragraphs: [
        ...(points.some(({ asker }) => asker.kind === 'bay') ? [BY_OTHERS_CAUTION] : []),
        ...loadSentences(schedule, continuousExamples(points)),
        ...waterSentences(schedule),
        ...drainageSentences(schedule, unit === 'mm' ? 'metric' : 'us'),
      ],
    },
    {
      heading: 'Services gap (line sizes: common practice, no source)',
      paragraphs: gapSentences(schedule, unit),
    },
  ].filter(({ paragraphs }) => paragraphs.length > 0);
};
