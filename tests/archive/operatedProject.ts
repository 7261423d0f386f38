import { seededBytes } from './editedSteps.ts';

/** What the process that is killed in the midst of issuing, purging and taking in, and the test that looks after it, both know. */
export const operatedProject = { plan: seededBytes(20_000, 77) } as const;

/** The bytes of a file of an issue, some of them the same in every issue. */
export const issuedBytesOf = (number: number, file: number): Uint8Array =>
  Buffer.concat([seededBytes(90_000, file), seededBytes(20_000, number * 7 + file)]);

export const issueLabel = (number: number): string => `Issue ${number}`;
