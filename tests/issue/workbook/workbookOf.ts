import type { WorkbookInput, WorkbookRun } from '../../../src/issue/workbook/workbookInput.ts';
import { cornersOf } from '../../../src/measure/corners.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import type { SheetScale } from '../../../src/measure/tracedRun.ts';
import { defaultQuoteSettings, type QuoteSettings } from '../../../src/quote/quoteSettings.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { problemFor, quotedRun } from '../../quote/quotedBar.ts';
import { runAt } from '../../services/fittedRun.ts';

const scale: SheetScale = { ratio: 50, relativeUncertainty: 0.002, userUnit: 1 };
const pointsPerMm = 72 / 25.4 / 50;

/** A bar of one straight, or an L, as traced and as fitted, with a basin and a beer station wanted in it. */
export const workbookRun = (name: string, number: number, lengthsMm: readonly number[]): WorkbookRun => {
  const [firstMm = 0, secondMm] = lengthsMm;
  const firstPt = firstMm * pointsPerMm;
  const run = runAt(
    [[0, 0], [firstPt, 0], ...(secondMm === undefined ? [] : [[firstPt, secondMm * pointsPerMm] as const])],
    'left',
    { name },
  );
  const problem = problemFor(lengthsMm, {
    wanted: [
      { id: 'station-1', item: 'beer-station-600', straight: 0, nearMm: firstMm / 2, withinMm: firstMm },
      { id: 'station-2', item: 'hand-basin-11l', straight: 0, nearMm: firstMm / 3, withinMm: firstMm },
    ],
  });
  return {
    ...quotedRun(name, number, problem),
    run,
    scale,
    corners: cornersOf(runAsTraced(run)),
  };
};

export const workbookInput = (
  runs: readonly WorkbookRun[],
  settings: Partial<QuoteSettings> = {},
  more: Partial<WorkbookInput> = {},
): WorkbookInput => ({
  job: {
    name: 'Taproom & kitchen',
    number: 'J-1',
    client: '',
    site: 'Invented Street 1',
    tenderDate: '',
    state: 'fitted',
    addenda: [],
    questions: [],
    retainUntil: '',
  },
  at: '2027-01-15T09:30:00.000Z',
  range: demoRange,
  runs,
  notFitted: [],
  access: null,
  settings: { ...defaultQuoteSettings('2027-01-15'), ...settings },
  paper: 'a4',
  ...more,
});
