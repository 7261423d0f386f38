import type { PieceVerdict } from '../../quote/wayInVerdicts.ts';
import type { WorkbookInput } from './workbookInput.ts';

const asks: Readonly<Partial<Record<PieceVerdict, string>>> = {
  'measure-on-site': 'passes the way in only if a site measure says so',
  'assemble-on-site': 'passes the way in only with its frames off; assembly on site is not priced',
  'in-parts': 'does not pass the way in whole; making it in parts is not priced',
};

/** What is open beside the fits: pieces that the way in holds up, and the job's questions without an answer. */
export const openQuestions = ({ access, job, notFitted }: WorkbookInput): readonly string[] => [
  ...notFitted.map(({ name, why }) => `${name} is not priced: ${why}`),
  ...(access?.groups ?? []).flatMap(({ verdict, marks, piece, answer }) => {
    const words = asks[verdict];
    const at = answer.limitedByName ?? answer.limitedBy;
    return words ? [`${marks.join(', ')}, ${piece.name}: ${words}${at ? ` (${at})` : ''}.`] : [];
  }),
  ...job.questions.filter(({ answer }) => answer === '').map(({ question }) => question),
];
