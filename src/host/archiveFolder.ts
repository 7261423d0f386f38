import { homedir } from 'node:os';
import { join } from 'node:path';

/** What the place of the archive hangs on; the process's own where left out. */
export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly home: string;
}

const own = (): Surroundings => ({ platform: process.platform, environment: process.env, home: homedir() });

/**
 * The archive folder when none is named: `FOOTRAIL_ARCHIVE` where set, else `archive` in the folder that the system
 * keeps for a program's data (XDG Base Directory on Linux, Application Support on macOS, LocalAppData on Windows).
 */
export const defaultArchiveFolder = ({ platform, environment, home }: Surroundings = own()): string => {
  const named = environment['FOOTRAIL_ARCHIVE'];
  if (named) return named;
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Footrail', 'archive');
  if (platform === 'win32')
    return join(environment['LOCALAPPDATA'] || join(home, 'AppData', 'Local'), 'Footrail', 'archive');
  return join(environment['XDG_DATA_HOME'] || join(home, '.local', 'share'), 'footrail', 'archive');
};
