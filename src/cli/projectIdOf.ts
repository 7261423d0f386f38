import { type ProjectId, projectIdSchema } from '../document/ids.ts';
import { CommandError } from './commandAnswer.ts';

/** Reads a project's id from the command line. @throws CommandError `bad-project-id` */
export const projectIdOf = (text: string): ProjectId => {
  const parsed = projectIdSchema.safeParse(text);
  if (parsed.success) return parsed.data;
  throw new CommandError({
    code: 'bad-project-id',
    message: `"${text}" is not a project’s id. "footrail archive list" shows them.`,
    path: 'PROJECT',
  });
};
