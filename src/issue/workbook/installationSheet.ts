import { HANDLING_LIMITS, HANDLING_SOURCE } from '../../access/handlingGuidance.ts';
import { installationOrder } from '../../quote/installationOrder.ts';
import { cells, empty, millimetres, number, section, text } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import type { WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

/** The order in which each run is put up, with hold points for other trades and people per piece. */
export const installationSheet = (input: WorkbookInput): WorkbookSheet => ({
  name: 'Installation order',
  above: sheetHead(
    'Installation order',
    input,
    'Set out from the datum on the floor, never from piece to piece: errors would add up.',
  ),
  columns: [
    { heading: 'Run', width: 16 },
    { heading: 'Step', width: 6 },
    { heading: 'Mark', width: 9 },
    { heading: 'What', width: 38 },
    { heading: 'Datum', width: 34 },
    { heading: 'From (mm)', width: 10 },
    { heading: 'To (mm)', width: 10 },
    { heading: 'After', width: 13 },
    { heading: 'How', width: 42 },
    { heading: 'Mass (kg)', width: 9 },
    { heading: 'People', width: 8 },
    { heading: 'Aid', width: 18 },
    { heading: 'Done', width: 8 },
  ],
  rows: [
    ...input.runs.flatMap(({ run, name, number: runNumber, alternative, zones }) =>
      installationOrder(run, runNumber, alternative, input.range, zones).map((step) =>
        cells(
          text(name),
          number(step.number, 'count'),
          text(step.mark),
          text(step.what, step.kind === 'hold' ? 'hold' : 'text'),
          text(step.datum),
          millimetres(step.fromMm),
          millimetres(step.toMm),
          text(step.after.join(', ')),
          text(step.how),
          number(step.massKg, 'kilograms'),
          number(step.people, 'count'),
          text(step.needsAid ? 'Trolley, skate or hoist' : ''),
          empty('entry'),
        ),
      ),
    ),
    ...section('Handling', [
      `People per piece follow published guidance; a competent person on site decides. ${HANDLING_LIMITS}`,
      `Source: ${HANDLING_SOURCE}`,
    ]),
  ],
});
