import type { ApiError } from './apiMethods.ts';
import { PlanError, StoreError } from './ports.ts';

/** A use case could not be carried out for a reason that the person should read. Becomes the API's error value. */
export class ApiFailure extends Error {
  readonly code: string;
  readonly path: string;
  constructor(code: string, message: string, path: string) {
    super(message);
    this.name = 'ApiFailure';
    this.code = code;
    this.path = path;
  }
}

/** The error value for anything thrown by a use case. What is not one of ours is a defect and says so. */
export const apiErrorOf = (thrown: unknown): ApiError => {
  if (thrown instanceof ApiFailure)
    return { code: thrown.code, message: thrown.message, ...(thrown.path ? { path: thrown.path } : {}) };
  if (thrown instanceof PlanError || thrown instanceof StoreError)
    return { code: thrown.code, message: thrown.message };
  const message = thrown instanceof Error ? thrown.message : String(thrown);
  return {
    code: 'defect',
    message: `Something went wrong inside Footrail: ${message}. Nothing was changed. Please report it with what you did.`,
  };
};
