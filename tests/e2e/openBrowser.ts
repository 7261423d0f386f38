import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const quietArguments = [
  '--headless',
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

interface Unpacked {
  readonly executablePath: string;
  readonly environment: Readonly<Record<string, string>>;
}

/** Names the package's own fonts and no others, so that text is as wide on every machine. */
const fontConfiguration = (folder: string): string =>
  `<?xml version="1.0"?>\n<!DOCTYPE fontconfig SYSTEM "fonts.dtd">\n<fontconfig>\n  <dir>${join(folder, 'fonts')}</dir>\n` +
  `  <cachedir>${join(folder, 'cache')}</cachedir>\n</fontconfig>\n`;

/**
 * Unpacks the Chromium that comes as an npm package into a folder of its own, once per version and user. The package
 * unpacks to a fixed name and takes what lies there as whole, so it gets a fresh folder that is renamed when complete:
 * two test runs at once never see half a browser.
 */
const unpackChromium = async (): Promise<Unpacked> => {
  const { version } = createRequire(import.meta.url)(
    '../../node_modules/@sparticuz/chromium/package.json',
  ) as {
    version: string;
  };
  const folder = join(tmpdir(), `footrail-chromium-${version}-${userInfo().uid}`);
  if (!existsSync(join(folder, 'chromium'))) {
    const draft = mkdtempSync(`${folder}-draft-`);
    const before = process.env['TMPDIR'];
    process.env['TMPDIR'] = draft;
    try {
      const { default: packaged } = await import('@sparticuz/chromium');
      await packaged.executablePath();
    } finally {
      if (before === undefined) delete process.env['TMPDIR'];
      else process.env['TMPDIR'] = before;
    }
    // The package's own file names folders of the service it is made for.
    writeFileSync(join(draft, 'fonts.conf'), fontConfiguration(folder));
    try {
      renameSync(draft, folder);
    } catch (error) {
      if (!existsSync(join(folder, 'chromium'))) throw error;
      rmSync(draft, { recursive: true, force: true });
    }
  }
  mkdirSync(join(folder, 'cache'), { recursive: true });
  return {
    executablePath: join(folder, 'chromium'),
    environment: { FONTCONFIG_FILE: join(folder, 'fonts.conf'), XDG_CACHE_HOME: join(folder, 'cache') },
  };
};

/** No graphics process: every machine draws alike. */
const withoutGraphics = ['--disable-gpu'];

/**
 * Opens the browser for tests: the one that `CHROMIUM_PATH` names, else the one from npm (Linux on x64), else an
 * installed Chrome. The caller closes it.
 *
 * @param graphics switches that say what draws; default: software, without a graphics process
 */
export const openBrowser = async (graphics: readonly string[] = withoutGraphics): Promise<Browser> => {
  const args = [...quietArguments, ...graphics];
  const installed = process.env['CHROMIUM_PATH'];
  if (installed) return chromium.launch({ executablePath: installed, args });
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    return chromium.launch({ channel: 'chrome', args });
  }
  const { executablePath, environment } = await unpackChromium();
  return chromium.launch({
    executablePath,
    args,
    env: { ...(process.env as Record<string, string>), ...environment },
  });
};
