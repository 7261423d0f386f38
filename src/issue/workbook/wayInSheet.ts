import { ACCESS_CAUTIONS } from '../../access/accessCautions.ts';
import { loosePartWords } from '../../quote/loosePartWords.ts';
import type { ProjectAccess } from '../../quote/projectAccess.ts';
import type { PieceVerdict } from '../../quote/wayInVerdicts.ts';
import { cells, millimetres, number, section, text } from './cells.ts';
import { sheetHead } from './sheetHead.ts';
import type { WorkbookSheet } from './workbook.ts';
import type { WorkbookInput } from './workbookInput.ts';

const verdicts: Readonly<Record<PieceVerdict, string>> = {
  passes: 'passes',
  'measure-on-site': 'only the site can tell',
  'assemble-on-site': 'passes with its frames off: assemble on site',
  'in-parts': 'does not pass whole: in parts',
};

/** The pieces against the chosen way in: packed sizes, verdicts with margin and limiting obstacle, people. */
export const wayInSheet = (
  input: WorkbookInput,
  { wayIn, groups, loose, notJudged }: ProjectAccess,
): WorkbookSheet => ({
  name: 'Way in',
  above: sheetHead(
    'Way in',
    input,
    `By “${wayIn.name}”. Guidance for ordering; a competent person on site decides.`,
  ),
  columns: [
    { heading: 'Marks', width: 22 },
    { heading: 'Piece', width: 40 },
    { heading: 'Packed length (mm)', width: 11 },
    { heading: 'Packed width (mm)', width: 11 },
    { heading: 'Packed height (mm)', width: 11 },
    { heading: 'Mass (kg)', width: 10 },
    { heading: 'Verdict', width: 28 },
    { heading: 'Limited by', width: 22 },
    { heading: 'Margin (mm)', width: 10 },
    { heading: 'Held', width: 11 },
    { heading: 'People', width: 8 },
    { heading: 'Aid', width: 18 },
  ],
  rows: [
    ...groups.map(({ piece, marks, answer, verdict, parts }) =>
      cells(
        text(marks.join(', ')),
        text(piece.name),
        millimetres(piece.piece.lengthMm),
        millimetres(piece.piece.widthMm),
        millimetres(piece.piece.heightMm),
        number(Math.round(piece.piece.massKg * 10) / 10, 'kilograms'),
        text(parts === null ? verdicts[verdict] : `${verdicts[verdict]}, at least ${parts}`),
        text(answer.limitedByName ?? answer.limitedBy ?? ''),
        millimetres(Number.isFinite(answer.marginMm) ? Math.round(answer.marginMm * 10) / 10 : null),
        text(answer.orientation),
        number(answer.crew, 'count'),
        text(answer.needsAid ? 'Trolley, skate or hoist' : ''),
      ),
    ),
    ...section(
      'Loose parts',
      loose.map((part) => `${part.what}: ${loosePartWords(part, (mm) => `${mm} mm`)}.`),
    ),
    ...section('Not judged', [
      ...(notJudged.length === 0 ? [] : [`${notJudged.join(', ')}: the size is not known.`]),
      ...wayIn.measured.flatMap(({ fault }) => (fault === null ? [] : [fault])),
    ]),
    ...section('Cautions', ACCESS_CAUTIONS),
  ],
});
