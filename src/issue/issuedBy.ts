import type { IssueSettings } from '../document/issueSettings.ts';

/** What the title block says of who issues a document and what for; a field left out or empty stays open to be filled by hand. */
export interface IssuedBy {
  readonly legalOwner?: string | undefined;
  readonly responsibleDepartment?: string | undefined;
  readonly creator?: string | undefined;
  readonly approvalPerson?: string | undefined;
  readonly documentStatus?: string | undefined;
  readonly revision?: string | undefined;
}

const statusWords: Readonly<Record<IssueSettings['purpose'], string>> = {
  information: 'For information',
  tender: 'For tender',
  approval: 'For approval',
  construction: 'For construction, after site measure',
  'as-built': 'As built',
};

/** The title block's words from a project's settings for issuing; nothing where it has none. */
export const issuedByOf = (settings: IssueSettings | null): IssuedBy =>
  settings === null
    ? {}
    : {
        legalOwner: settings.legalOwner,
        responsibleDepartment: settings.responsibleDepartment,
        creator: settings.creator,
        approvalPerson: settings.approver,
        documentStatus: statusWords[settings.purpose],
      };
