import type { ApiInput } from '../app/apiMethods.ts';
import { createApi } from '../app/createApi.ts';
import { createPortsOver } from '../host/nodePorts.ts';
import { absentStore } from './absentStore.ts';
import { describeAccess, describeFit, describeReading } from './answerWords.ts';
import { callApi } from './callApi.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { readArguments } from './commandArguments.ts';
import { readInputFile, readJsonFile } from './readInputFile.ts';

const apiWithoutArchive = () => createApi(createPortsOver(absentStore));

/** Where a reader's refusal lies, if not in the file itself. */
const placeOf: Readonly<Record<string, string>> = {
  'no-such-page': '--page',
  'password-needed': '--password',
  'password-wrong': '--password',
};

/** `footrail read`: what a page of a plan says of itself, and its scale. */
export const readCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, count } = readArguments(args, {
    flags: ['page', 'password'],
    names: ['PLAN.pdf'],
    usage: 'footrail read PLAN.pdf [--page N] [--password P] [--json]',
  });
  const page = count('page', 1);
  const password = text('password');
  const bytes = await readInputFile(positionals[0] ?? '');
  const input = {
    bytes,
    ...(page === undefined ? {} : { page }),
    ...(password === undefined ? {} : { password }),
  };
  try {
    const { reading } = await callApi(apiWithoutArchive(), 'read-plan', input);
    return { exitCode: 0, value: reading, text: describeReading(reading) };
  } catch (error) {
    if (!(error instanceof CommandError) || error.path !== '') throw error;
    const { code, message } = error;
    throw new CommandError({ code, message, path: placeOf[code] ?? positionals[0] ?? '' });
  }
};

/** `footrail fit`: the best fillings of a run. Exit code 1 where there is none. */
export const fitCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals, text, count } = readArguments(args, {
    flags: ['alternatives', 'order'],
    names: ['PROBLEM.json'],
    usage: 'footrail fit PROBLEM.json [--alternatives K] [--order NAME] [--json]',
  });
  const alternatives = count('alternatives', 1);
  // Any word: the API says which orders there are.
  const order = text('order') as ApiInput<'fit'>['order'];
  const problem = await readJsonFile(positionals[0] ?? '');
  const { fit } = await callApi(
    apiWithoutArchive(),
    'fit',
    {
      problem,
      ...(alternatives === undefined ? {} : { alternatives }),
      ...(order === undefined ? {} : { order }),
    },
    { within: 'problem' },
  );
  return { exitCode: fit.status === 'infeasible' ? 1 : 0, value: fit, text: describeFit(fit) };
};

/** `footrail access`: does each piece pass the way in? Exit code 1 where one does not. */
export const accessCommand = async (args: readonly string[]): Promise<CommandAnswer> => {
  const { positionals } = readArguments(args, {
    names: ['WAYIN.json'],
    usage: 'footrail access WAYIN.json [--json]',
  });
  const wayIn = await readJsonFile(positionals[0] ?? '');
  const { access } = await callApi(apiWithoutArchive(), 'access', { wayIn }, { within: 'wayIn' });
  return {
    exitCode: access.pieces.every(({ passes }) => passes) ? 0 : 1,
    value: access,
    text: describeAccess(access),
  };
};
