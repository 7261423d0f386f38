import { parseArgs } from 'node:util';
import { defaultArchiveFolder } from './archiveFolder.ts';

export interface HostArguments {
  readonly archiveDir: string;
  /** Make sure that the demo project is there, and start with it. */
  readonly demo: boolean;
  /** Open the person's browser. */
  readonly open: boolean;
  /** 0 for any free one; null for the one that the archive's last host had. */
  readonly port: number | null;
}

export type ParsedHostArguments =
  | { readonly ok: true; readonly value: HostArguments }
  | { readonly ok: false; readonly message: string };

export const hostUsage = 'usage: host [--archive DIR] [--demo] [--open] [--port N]';

/** Reads the command line of the loopback host. */
export const parseHostArguments = (args: readonly string[]): ParsedHostArguments => {
  let values: { archive?: string; demo?: boolean; open?: boolean; port?: string };
  try {
    ({ values } = parseArgs({
      args: [...args],
      options: {
        archive: { type: 'string' },
        demo: { type: 'boolean' },
        open: { type: 'boolean' },
        port: { type: 'string' },
      },
    }));
  } catch (error) {
    return { ok: false, message: error instanceof Error ? error.message : String(error) };
  }
  const { archive = '', demo = false, open = false, port } = values;
  if (port !== undefined && (!/^\d{1,5}$/.test(port) || Number(port) > 65535))
    return { ok: false, message: `"${port}" is not a port: a whole number from 0 to 65535.` };
  return {
    ok: true,
    value: {
      archiveDir: archive || defaultArchiveFolder(),
      demo,
      open,
      port: port === undefined ? null : Number(port),
    },
  };
};
