import { archiveCommand } from './archiveCommand.ts';
import { type CommandAnswer, CommandError } from './commandAnswer.ts';
import { accessCommand, fitCommand, readCommand } from './contractCommands.ts';
import { demoCommand } from './demoCommand.ts';
import { issueCommand } from './issueCommand.ts';
import { reviseCommand } from './reviseCommand.ts';
import { schemaCommand } from './schemaCommand.ts';

const commands: Readonly<Record<string, (args: readonly string[]) => Promise<CommandAnswer>>> = {
  read: readCommand,
  fit: fitCommand,
  access: accessCommand,
  issue: issueCommand,
  revise: reviseCommand,
  archive: archiveCommand,
  demo: demoCommand,
  schema: schemaCommand,
};

export const usage = `footrail: plan takeoff and stock-module fitting for bar counters

  footrail read PLAN.pdf [--page N] [--password P]   what a page says of itself, and its scale
  footrail fit PROBLEM.json [--alternatives K] [--order NAME]
                                                     the best fillings of a run
  footrail access WAYIN.json                         does each piece pass the way in?
  footrail schema read|fit|access                    the JSON Schema of a contract above
  footrail demo [--out DIR]                          the whole job on the demo plan
  footrail issue PROJECT --out DIR [--for PURPOSE] [--by NAME] [--zip] [--dry-run] …
                                                     drawings, schedules and quote under the next number
  footrail issue PROJECT --reissue N --out DIR | --verify N | --list
                                                     what was issued: as it went out, drawn again, listed
  footrail revise PROJECT PLAN.pdf [--sheet NAME] [--name B] [--picks x,y,X,Y,x,y,X,Y] [--dry-run] [--force] …
                                                     a later plan of a sheet: how it lies, what it changes
  footrail archive list | show PROJECT | history PROJECT | check
  footrail archive search [WORDS] [--state S,S] [--client C] [--station ITEM,ITEM] [--run-from MM] [--run-to MM] …
  footrail archive export PROJECT --out FILE [--without-issued]
  footrail archive import FILE [--compare | --theirs | --copy]
  footrail archive take-in FOLDER                    an enquiry of each plan in it
  footrail archive backup [--out FILE] | backups | restore BACKUP | salvage --out DIR
  footrail archive purge [PROJECT [--confirm] [--with-copies]] | purged

Every command takes --json; those that use an archive take --archive DIR (else FOOTRAIL_ARCHIVE, else the usual place).
Exit codes: 0 done, 1 the answer is "no", 2 bad input.`;

/** What a run of the program prints, and the code that it ends with. */
export interface Outcome {
  readonly exitCode: 0 | 1 | 2;
  readonly stdout: string;
  readonly stderr: string;
}

const refuse = (error: CommandError, isJson: boolean): Outcome => {
  const { code, message, path } = error;
  return isJson
    ? { exitCode: 2, stdout: `${JSON.stringify({ error: { code, message, path } })}\n`, stderr: '' }
    : { exitCode: 2, stdout: '', stderr: `footrail: ${message}${path === '' ? '' : ` [${path}]`}\n` };
};

/**
 * Runs one command line, given without the program's name. Bad input is an outcome with exit code 2; a fault of the
 * program rejects.
 */
export const runFootrail = async (args: readonly string[]): Promise<Outcome> => {
  const isJson = args.includes('--json');
  const words = args.filter((word, index) => !(word === '--json' && index === 0));
  const [name, ...rest] = words;
  try {
    if (name === undefined)
      throw new CommandError({ code: 'command-missing', message: `Name a command.\n\n${usage}` });
    if (name === 'help' || name === '--help' || name === '-h')
      return { exitCode: 0, stdout: isJson ? `${JSON.stringify({ usage })}\n` : `${usage}\n`, stderr: '' };
    const command = Object.hasOwn(commands, name) ? commands[name] : undefined;
    if (!command)
      throw new CommandError({
        code: 'unknown-command',
        message: `There is no command "${name}", only: ${Object.keys(commands).join(', ')}.`,
        path: name,
      });
    const { exitCode, value, text } = await command(rest);
    return { exitCode, stdout: isJson ? `${JSON.stringify(value)}\n` : `${text}\n`, stderr: '' };
  } catch (error) {
    if (error instanceof CommandError) return refuse(error, isJson);
    throw error;
  }
};
