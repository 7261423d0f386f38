import { z } from 'zod';
import { wayInSchema } from '../access/wayInSchema.ts';
import { fitProblemSchema } from '../fitting/problemSchema.ts';
import { readAnswerSchema } from '../scale/readContract.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';

/** The contracts of the command line, as the very definitions that validate them. */
const contracts = {
  /** What `footrail read` answers. */
  read: { schema: readAnswerSchema, title: 'Answer of footrail read' },
  /** What `footrail fit` takes. */
  fit: { schema: fitProblemSchema, title: 'Problem of footrail fit' },
  /** What `footrail access` takes. */
  access: { schema: wayInSchema, title: 'Way in of footrail access' },
} as const;

const isContract = (name: string): name is keyof typeof contracts => Object.hasOwn(contracts, name);

/** `footrail schema`: the JSON Schema (draft 2020-12) of a contract of the command line. */
export const schemaCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals } = readArguments(args, {
    names: ['CONTRACT'],
    usage: 'footrail schema read|fit|access [--json]',
  });
  const name = positionals[0] ?? '';
  if (!isContract(name))
    throw new CommandError({
      code: 'unknown-contract',
      message: `There is no contract "${name}", only: ${Object.keys(contracts).join(', ')}.`,
      path: name,
    });
  const { schema, title } = contracts[name];
  // Checks that JSON Schema has no word for (unique ids, zones that overlap) are made by the command itself.
  const value = {
    title,
    ...z.toJSONSchema(schema, { unrepresentable: 'any', io: name === 'read' ? 'output' : 'input' }),
  };
  return { exitCode: 0, value, text: JSON.stringify(value, null, 2) };
};
