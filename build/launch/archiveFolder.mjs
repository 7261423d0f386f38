import { homedir } from 'node:os';
import { join } from 'node:path';

/**
 * Where a person's archive lies, the same for the desktop window and the browser: each system's folder for
 * application data (on Linux by the XDG Base Directory Specification).
 */
export const archiveFolder = (platform = process.platform, environment = process.env, home = homedir()) => {
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Footrail', 'archive');
  if (platform === 'win32') {
    return join(environment.APPDATA || join(home, 'AppData', 'Roaming'), 'Footrail', 'archive');
  }
  return join(environment.XDG_DATA_HOME || join(home, '.local', 'share'), 'footrail', 'archive');
};
