/** The HTTP status that goes with an error's code; the code itself is what a client should look at. */
const statuses: Readonly<Record<string, number>> = {
  'bad-input': 400,
  'malformed-json': 400,
  'malformed-input': 400,
  'too-deep': 400,
  'forbidden-key': 400,
  'bad-request': 400,
  'no-session': 401,
  'wrong-host': 403,
  'wrong-origin': 403,
  'token-spent': 403,
  'unknown-method': 404,
  'not-found': 404,
  'project-missing': 404,
  'plan-missing': 404,
  'wrong-http-method': 405,
  'request-timed-out': 408,
  'revision-conflict': 409,
  'project-exists': 409,
  'too-large': 413,
  'wrong-content-type': 415,
  'too-many-requests': 429,
  cancelled: 499,
  'reading-cancelled': 499,
  defect: 500,
  'host-busy': 503,
  'archive-busy': 503,
  'archive-full': 507,
};

/** @returns 422 for a refusal that has no status of its own; 503 for other troubles with the archive */
export const statusOfError = (code: string): number => {
  if (Object.hasOwn(statuses, code)) return statuses[code] ?? 422;
  return code.startsWith('archive-') ? 503 : 422;
};
