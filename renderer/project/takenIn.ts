import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { SheetId } from '../../src/document/ids.ts';

/** A page of a plan that was taken in and chosen to work on. */
export interface TakenIn {
  readonly fileName: string;
  readonly sha256: string;
  readonly page: ApiOutput<'take-in-plan'>['pages'][number];
  readonly password: string | undefined;
}

/** The sheet that a page is a later revision of, and what the architect calls it. */
export interface Follows {
  readonly sheetId: SheetId;
  readonly name: string;
}
