import { spawn } from 'node:child_process';

const openers: Readonly<Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>>> = {
  darwin: ['open'],
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
};

/**
 * Opens an address in the person's browser. Resolves with false where the system has nothing to open it with, or no
 * display to show it on.
 */
export const openBrowser = (
  url: string,
  platform: NodeJS.Platform = process.platform,
  environment: Readonly<Record<string, string | undefined>> = process.env,
): Promise<boolean> => {
  const isDesktop = platform === 'darwin' || platform === 'win32';
  if (!isDesktop && !environment['DISPLAY'] && !environment['WAYLAND_DISPLAY']) return Promise.resolve(false);
  const [program, ...args] = openers[platform] ?? (['xdg-open'] as const);
  return new Promise((resolve) => {
    const child = spawn(program, [...args, url], { stdio: 'ignore', detached: true });
    child.once('error', () => resolve(false));
    child.once('spawn', () => {
      child.unref();
      resolve(true);
    });
  });
};
