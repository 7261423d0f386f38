import { type ParseArgsConfig, parseArgs } from 'node:util';
import { CommandError } from './commandAnswer.ts';

type Options = NonNullable<ParseArgsConfig['options']>;

export interface CommandArguments {
  readonly positionals: readonly string[];
  /** The value of a flag that takes one; undefined where it was left out. */
  readonly text: (flag: string) => string | undefined;
  /** Whether a switch, which takes no value, is given. */
  readonly isOn: (name: string) => boolean;
  /** A whole number from `least` up. */
  readonly count: (flag: string, least: number) => number | undefined;
}

const badArguments = (message: string, path: string, usage: string): CommandError =>
  new CommandError({ code: 'bad-arguments', message: `${message} Usage: ${usage}`, path });

/**
 * Reads a command's own arguments, which stand after its name.
 *
 * @param flags the flags that take a value; `--json` is known to every command
 * @param switches the flags that take none
 * @param names what must stand there besides, in order; a name that ends in "?" may be left out
 * @throws CommandError `bad-arguments`, with the flag or the name as its path
 */
export const readArguments = (
  args: readonly string[],
  {
    flags = [],
    switches = [],
    names = [],
    usage,
  }: {
    flags?: readonly string[];
    switches?: readonly string[];
    names?: readonly string[];
    usage: string;
  },
): CommandArguments => {
  const options: Options = { json: { type: 'boolean' } };
  for (const flag of flags) options[flag] = { type: 'string' };
  for (const name of switches) options[name] = { type: 'boolean' };
  let parsed: { values: Record<string, unknown>; positionals: string[] };
  try {
    parsed = parseArgs({ args: [...args], options, allowPositionals: true });
  } catch (error) {
    // Node's second sentence is advice about positional arguments.
    const [message = ''] = (error instanceof Error ? error.message : String(error)).split(/(?<=\.) |\. /);
    throw badArguments(`${message.replace(/\.$/, '')}.`, /--?[A-Za-z][\w-]*/.exec(message)?.[0] ?? '', usage);
  }
  const { values, positionals } = parsed;
  const missing = names.find((name, index) => !name.endsWith('?') && positionals[index] === undefined);
  if (missing !== undefined) throw badArguments(`${missing} is missing.`, missing, usage);
  const surplus = positionals[names.length];
  if (surplus !== undefined) throw badArguments(`"${surplus}" is one argument too many.`, surplus, usage);
  const text = (flag: string): string | undefined => {
    const value = values[flag];
    return typeof value === 'string' ? value : undefined;
  };
  return {
    positionals,
    text,
    isOn: (name) => values[name] === true,
    count: (flag, least) => {
      const value = text(flag);
      if (value === undefined) return undefined;
      if (!/^\d{1,9}$/.test(value) || Number(value) < least)
        throw badArguments(
          `--${flag} takes a whole number from ${least} up, not "${value}".`,
          `--${flag}`,
          usage,
        );
      return Number(value);
    },
  };
};
