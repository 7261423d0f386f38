import type { Point } from '../../geometry/point.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import { capital, ink, quiet } from './planInk.ts';

/**
 * The data fields of ISO 7200:2004 (from memory): the mandatory ones are legal owner, identification number, date of
 * issue, sheet number, title, approval person, creator and document type. A field that nobody has filled stays open to
 * be written in by hand.
 */
export interface TitleFields {
  readonly legalOwner: string;
  readonly identificationNumber: string;
  readonly dateOfIssue: string;
  readonly revision: string;
  readonly title: string;
  readonly supplementaryTitle: string;
  readonly approvalPerson: string;
  readonly creator: string;
  readonly responsibleDepartment: string;
  readonly documentType: string;
  readonly status: string;
  readonly client: string;
  readonly scale: string;
  readonly paperSize: string;
  readonly sheet: number;
  readonly sheets: number;
}

/** The block's width is the standard's: 180 mm. */
export const titleBlock = { widthMm: 180, heightMm: 60 } as const;

interface Cell {
  readonly label: string;
  readonly text: string;
  /** In mm from the block's lower left corner. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly capitalMm?: number;
}

const cellsOf = (fields: TitleFields): readonly Cell[] => [
  { label: 'Legal owner', text: fields.legalOwner, x: 0, y: 46, width: 60, height: 14 },
  { label: 'Client', text: fields.client, x: 60, y: 46, width: 70, height: 14 },
  { label: 'Document status', text: fields.status, x: 130, y: 46, width: 50, height: 14 },
  {
    label: 'Responsible department',
    text: fields.responsibleDepartment,
    x: 0,
    y: 34,
    width: 45,
    height: 12,
  },
  { label: 'Created by', text: fields.creator, x: 45, y: 34, width: 42, height: 12 },
  { label: 'Approved by', text: fields.approvalPerson, x: 87, y: 34, width: 43, height: 12 },
  { label: 'Document type', text: fields.documentType, x: 130, y: 34, width: 50, height: 12 },
  { label: 'Title', text: fields.title, x: 0, y: 12, width: 120, height: 22, capitalMm: capital.title },
  {
    label: 'Identification number',
    text: fields.identificationNumber,
    x: 120,
    y: 23,
    width: 60,
    height: 11,
    capitalMm: capital.title,
  },
  { label: 'Scale', text: fields.scale, x: 120, y: 12, width: 60, height: 11 },
  { label: 'Revision', text: fields.revision, x: 0, y: 0, width: 30, height: 12 },
  { label: 'Date of issue', text: fields.dateOfIssue, x: 30, y: 0, width: 45, height: 12 },
  { label: 'Paper', text: fields.paperSize, x: 75, y: 0, width: 45, height: 12 },
  {
    label: 'Sheet',
    text: `${fields.sheet} of ${fields.sheets}`,
    x: 120,
    y: 0,
    width: 60,
    height: 12,
    capitalMm: capital.title,
  },
];

/** Draws the title block with its lower left corner at a place. */
export const drawTitleBlock = (pen: PaperPen, at: Point, fields: TitleFields): void => {
  const { widthMm, heightMm } = titleBlock;
  const corner = (x: number, y: number): Point => ({ x: at.x + x, y: at.y + y });
  pen.ring([corner(0, 0), corner(widthMm, 0), corner(widthMm, heightMm), corner(0, heightMm)], {
    fill: [1, 1, 1],
    line: { widthMm: 0.7, colour: ink },
  });
  for (const { label, text, x, y, width, height, capitalMm = capital.usual } of cellsOf(fields)) {
    pen.ring([corner(x, y), corner(x + width, y), corner(x + width, y + height), corner(x, y + height)], {
      line: { widthMm: 0.25, colour: ink },
    });
    pen.text({ text: label, at: corner(x + 1.5, y + height - 3.2), capitalMm: 1.8, colour: quiet });
    const room = width - 3;
    // A long text is set smaller before it is squeezed.
    const natural = pen.textWidth(text, capitalMm);
    const own = natural > room ? Math.max(1.8, (capitalMm * room) / natural) : capitalMm;
    const isTitle = label === 'Title';
    pen.text({
      text,
      at: corner(x + 1.5, isTitle ? y + 9.5 : y + 2.4),
      capitalMm: own,
      colour: ink,
      mostMm: room,
    });
    if (isTitle)
      pen.text({
        text: fields.supplementaryTitle,
        at: corner(x + 1.5, y + 3),
        capitalMm: capital.usual,
        colour: ink,
        mostMm: room,
      });
  }
};
