import type { ApiMethod } from '../../src/app/apiMethods.ts';

/**
 * The API's methods by name. The preload cannot load the API's table, which brings its validation along, so the names
 * stand here; the compiler refuses one too many and one too few.
 */
const listed: Readonly<Record<ApiMethod, true>> = {
  'app-info': true,
  'list-projects': true,
  'create-project': true,
  'open-project': true,
  'open-demo': true,
  'remove-project': true,
  'apply-command': true,
  undo: true,
  redo: true,
  'take-in-plan': true,
  'plan-bytes': true,
  'read-sheet': true,
  'sheet-linework': true,
  'read-plan': true,
  fit: true,
  'fit-run': true,
  access: true,
  'list-stock-ranges': true,
  'save-stock-range': true,
  'stock-range-csv': true,
  'read-stock-csv': true,
  'export-schedule': true,
  'export-plan': true,
  'export-workbook': true,
  'export-csvs': true,
  'export-dxf': true,
  'export-setting-out': true,
  'archive-health': true,
  'search-projects': true,
  'export-project-list': true,
  'similar-runs': true,
  'list-saved-searches': true,
  'save-search': true,
  'remove-saved-search': true,
  'take-in-enquiry': true,
  'export-project': true,
  'import-project': true,
  'project-history': true,
  'copy-project-at': true,
  'projects-past-retention': true,
  'preview-purge': true,
  'purge-project': true,
  'purged-projects': true,
};

/** Every method of the API, once. */
export const apiMethodNames: readonly ApiMethod[] = Object.keys(listed) as ApiMethod[];
