import { existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { MenuItemConstructorOptions } from 'electron';
import { afterEach, describe, expect, it } from 'vitest';
import { channels } from '../../electron/ipc/channels.ts';
import { menuChoices, menuWords } from '../../electron/ipc/menuChoices.ts';
import type { ShellSettings } from '../../electron/main/startShell.ts';
import type { MenuChoice } from '../../src/app/desktopBridge.ts';
import { menuItemsOf } from './electronStandIn.ts';
import { RecordingApi, removeFolders, startShellUnderTest, temporaryFolder } from './shellUnderTest.ts';

afterEach(removeFolders);

const click = (menu: readonly MenuItemConstructorOptions[], label: string): void => {
  const item = menuItemsOf(menu).find((entry) => entry.label === label);
  if (!item?.click || item.enabled === false) throw new Error(`no menu item "${label}" to click`);
  (item.click as () => void)();
};

describe('the shell', () => {
  it('opens one window with the page, or with the demo project', async () => {
    const plain = await startShellUnderTest();
    expect(plain.windows).toHaveLength(1);
    expect(plain.contents.getURL()).toBe('app://footrail/index.html');
    expect(plain.window.visible).toBe(true);
    const demo = await startShellUnderTest({}, { demo: true });
    expect(demo.contents.getURL()).toBe('app://footrail/index.html#project=demo');
  });

  it('gives way to the one that runs already', async () => {
    const second = await startShellUnderTest({ isFirstInstance: false });
    expect(second.windows).toHaveLength(0);
    expect(second.record.quits).toBe(1);
    expect(second.record.log).not.toContain('ready');
  });

  it('comes forward when it is started again', async () => {
    const { app, window } = await startShellUnderTest();
    window.minimized = true;
    app.emit('second-instance', {});
    expect([window.minimized, window.focused]).toEqual([false, true]);
  });

  it('ends with the window, once what is under way has ended and the archive is closed', async () => {
    let finish = (): void => {};
    const closing = new Promise<void>((resolve) => {
      finish = resolve;
    });
    const openApp = async () => ({ api: new RecordingApi(), notices: [], close: () => closing });
    const { window, record } = await startShellUnderTest({}, { openApp });
    window.close();
    await new Promise((resolve) => setImmediate(resolve));
    expect(record.quits).toBe(0);
    finish();
    await new Promise((resolve) => setImmediate(resolve));
    expect(record.quits).toBe(1);
  });

  it('asks before it closes on a page that has something unsaved, and stays where nothing else is said', async () => {
    const { contents, dialog } = await startShellUnderTest();
    const closes = (answer: number): boolean => {
      dialog.nextAnswer = answer;
      let isPrevented = false;
      const preventDefault = () => {
        isPrevented = true;
      };
      contents.emit('will-prevent-unload', { preventDefault });
      return isPrevented;
    };
    expect(closes(0)).toBe(false);
    expect(closes(1)).toBe(true);
    expect(dialog.shown.at(-1)?.options).toMatchObject({
      message: 'Not everything is saved yet.',
      buttons: ['Stay', 'Close without saving'],
      cancelId: 0,
    });
  });

  it('closes the archive once', async () => {
    const { window, record, closes } = await startShellUnderTest();
    window.close();
    await new Promise((resolve) => setImmediate(resolve));
    expect([record.quits, closes()]).toEqual([1, 1]);
  });

  it('tells the person what is wrong with an archive that still opens, and of a backup that fails later', async () => {
    let warn = (_line: string): void => {};
    const openApp: ShellSettings['openApp'] = async (_folder, warnPerson) => {
      warn = warnPerson;
      return { api: new RecordingApi(), notices: ['The archive is damaged.'], close: async () => {} };
    };
    const { windows, dialog } = await startShellUnderTest({}, { openApp });
    expect(windows).toHaveLength(1);
    warn('The archive could not be backed up: the disk is full');
    expect(dialog.shown.map(({ options }) => options['detail'])).toEqual([
      'The archive is damaged.',
      'The archive could not be backed up: the disk is full',
    ]);
  });

  it('says why when the archive cannot be opened, and ends without a window', async () => {
    const openApp = async () => {
      throw new Error('The archive was written by a newer Footrail.');
    };
    const { windows, dialog, record } = await startShellUnderTest({}, { openApp });
    expect(windows).toHaveLength(0);
    expect(record.exitCode).toBe(1);
    expect(dialog.shown).toEqual([
      {
        kind: 'error',
        options: {
          title: 'Footrail cannot start',
          content: 'The archive was written by a newer Footrail.',
        },
      },
    ]);
  });

  it('says so when the page was never built', async () => {
    const { windows, dialog, record } = await startShellUnderTest({}, { rendererFolder: temporaryFolder() });
    expect(windows).toHaveLength(0);
    expect(record.exitCode).toBe(1);
    expect(dialog.shown[0]?.options['content']).toMatch(/npm run build/);
  });

  it('shows the page again when it has died, and tells the person', async () => {
    const { contents, dialog } = await startShellUnderTest();
    contents.emit('render-process-gone', {}, { reason: 'crashed' });
    await new Promise((resolve) => setImmediate(resolve));
    expect(dialog.shown.map(({ kind }) => kind)).toEqual(['message']);
    expect(contents.reloads).toBe(1);
  });
});

describe('the window’s place', () => {
  it('is remembered from one time to the next', async () => {
    const userDataFolder = temporaryFolder();
    writeFileSync(
      join(userDataFolder, 'window.json'),
      JSON.stringify({ x: 40, y: 30, width: 1200, height: 800, maximized: true }),
    );
    const { window } = await startShellUnderTest({ userDataFolder });
    expect(window.settings).toMatchObject({ x: 40, y: 30, width: 1200, height: 800 });
    expect(window.maximized).toBe(true);
    window.maximized = false;
    window.close();
    const again = await startShellUnderTest({ userDataFolder });
    expect(again.window.settings).toMatchObject({ x: 40, y: 30, width: 1200, height: 800 });
    expect(again.window.maximized).toBe(false);
  });

  it.each([
    ['its screen is gone', { x: 3000, y: 30, width: 1200, height: 800, maximized: false }],
    ['its title bar is above every screen', { x: 40, y: -500, width: 1200, height: 800, maximized: false }],
    ['it is no window’s size', { x: 40, y: 30, width: 3, height: 800, maximized: false }],
    ['it is no place', { x: 'left', y: 30, width: 1200, height: 800, maximized: false }],
  ])('is left to the system where %s', async (_name, bounds) => {
    const userDataFolder = temporaryFolder();
    writeFileSync(join(userDataFolder, 'window.json'), JSON.stringify(bounds));
    const { window } = await startShellUnderTest({ userDataFolder });
    expect(window.settings).toMatchObject({ width: 1440, height: 900 });
    expect(window.settings).not.toHaveProperty('x');
  });

  it('survives a spoilt note', async () => {
    const userDataFolder = temporaryFolder();
    writeFileSync(join(userDataFolder, 'window.json'), '{"x": 4');
    const { window } = await startShellUnderTest({ userDataFolder });
    expect(window.settings).not.toHaveProperty('x');
  });
});

describe('the menu', () => {
  it.each(Object.entries(menuWords))('tells the page of "%s"', async (choice, label) => {
    const { record, bridge } = await startShellUnderTest();
    const heard: string[] = [];
    const stop = bridge.onMenuChoice((one) => heard.push(one));
    bridge.offerMenuChoices([choice as MenuChoice]);
    click(record.menu, label);
    expect(heard).toEqual([choice]);
    stop();
    click(record.menu, label);
    expect(heard).toHaveLength(1);
  });

  it('has available what the page offers to take, and nothing else', async () => {
    const { record, bridge, contents } = await startShellUnderTest();
    const available = () =>
      menuChoices.filter((id) => menuItemsOf(record.menu).find((item) => item.id === id)?.enabled);
    expect(available()).toEqual([]);
    bridge.offerMenuChoices(['add-plan', 'undo']);
    expect(available()).toEqual(['add-plan', 'undo']);
    const ourPage = { url: 'app://footrail/index.html', parent: null };
    for (const [frame, offers] of [
      [{ url: 'https://example.org/', parent: null }, ['redo']],
      [ourPage, ['redo', 'quit']],
      [ourPage, 'redo'],
      [ourPage, undefined],
    ] as const) {
      contents.sendFrom(frame, channels.menuOffers, offers);
      expect(available()).toEqual(['add-plan', 'undo']);
    }
    bridge.offerMenuChoices([]);
    expect(available()).toEqual([]);
  });

  it('takes no key from the page', async () => {
    const { record } = await startShellUnderTest();
    const keyed = menuItemsOf(record.menu).filter((item) => item.accelerator !== undefined);
    expect(keyed.length).toBeGreaterThan(0);
    expect(keyed.every((item) => item.registerAccelerator === false)).toBe(true);
  });

  it('shows the archive’s folder, and no developer tools once packaged', async () => {
    const development = await startShellUnderTest();
    click(development.record.menu, 'Show the archive’s folder');
    expect(development.record.openedPaths).toEqual(['/archive']);
    const rolesOf = (menu: readonly MenuItemConstructorOptions[]) =>
      menuItemsOf(menu).map(({ role }) => role);
    expect(rolesOf(development.record.menu)).toContain('toggleDevTools');
    const packaged = await startShellUnderTest({ isPackaged: true });
    expect(rolesOf(packaged.record.menu)).not.toContain('toggleDevTools');
    expect(rolesOf(packaged.record.menu)).not.toContain('reload');
  });

  it('has the application’s own menu on a Mac', async () => {
    const { record } = await startShellUnderTest({}, { platform: 'darwin' });
    expect(record.menu.map(({ label, role }) => label ?? role)).toEqual([
      'Footrail',
      'File',
      'Edit',
      'View',
      'windowMenu',
    ]);
  });
});

describe('the native dialogs', () => {
  it('hand over the plan that the person picked, and nothing when they think better of it', async () => {
    const { bridge, dialog } = await startShellUnderTest();
    expect(await bridge.pickPlan()).toEqual({ ok: true, value: null });
    const path = join(temporaryFolder(), 'plan.pdf');
    writeFileSync(path, '%PDF-1.7');
    dialog.nextOpen = { canceled: false, filePaths: [path] };
    const bytes = new TextEncoder().encode('%PDF-1.7');
    expect(await bridge.pickPlan()).toEqual({ ok: true, value: { fileName: 'plan.pdf', bytes } });
  });

  it('say so when the picked plan cannot be read, or is larger than any plan', async () => {
    const { bridge, dialog } = await startShellUnderTest();
    const folder = temporaryFolder();
    dialog.nextOpen = { canceled: false, filePaths: [join(folder, 'gone.pdf')] };
    expect(await bridge.pickPlan()).toMatchObject({ ok: false, error: { code: 'file-unreadable' } });
    const huge = join(folder, 'huge.pdf');
    writeFileSync(huge, '');
    truncateSync(huge, 600 * 1024 * 1024);
    dialog.nextOpen = { canceled: false, filePaths: [huge] };
    expect(await bridge.pickPlan()).toMatchObject({ ok: false, error: { code: 'plan-too-large' } });
  });

  it('write a file where the person says, over an older one, leaving nothing beside it', async () => {
    const { bridge, dialog } = await startShellUnderTest();
    const folder = temporaryFolder();
    const filePath = join(folder, 'schedule of the bar.csv');
    writeFileSync(filePath, 'an older and longer schedule');
    dialog.nextSave = { canceled: false, filePath };
    const bytes = new TextEncoder().encode('a,b\r\n');
    expect(await bridge.saveFile({ fileName: 'schedule.csv', bytes })).toEqual({
      ok: true,
      value: { fileName: 'schedule of the bar.csv' },
    });
    expect(readFileSync(filePath, 'utf8')).toBe('a,b\r\n');
    expect(readdirSync(folder)).toEqual(['schedule of the bar.csv']);
    expect(dialog.shown.at(-1)?.options).toMatchObject({
      defaultPath: 'schedule.csv',
      filters: [{ name: 'Table (CSV)', extensions: ['csv'] }],
    });
  });

  it('write nothing when the person thinks better of it, and say so when the folder refuses', async () => {
    const { bridge, dialog } = await startShellUnderTest();
    const file = { fileName: 'a.csv', bytes: Uint8Array.of(1) };
    expect(await bridge.saveFile(file)).toEqual({ ok: true, value: null });
    const filePath = join(temporaryFolder(), 'gone', 'a.csv');
    dialog.nextSave = { canceled: false, filePath };
    expect(await bridge.saveFile(file)).toMatchObject({ ok: false, error: { code: 'file-not-written' } });
    expect(existsSync(filePath)).toBe(false);
  });

  it.each([
    ['a path up', { fileName: '../a.csv', bytes: new Uint8Array() }],
    ['an absolute path', { fileName: '/etc/cron.d/a', bytes: new Uint8Array() }],
    ['a path of another system', { fileName: 'C:\\a.csv', bytes: new Uint8Array() }],
    ['a hidden file', { fileName: '.profile', bytes: new Uint8Array() }],
    ['no name', { fileName: '', bytes: new Uint8Array() }],
    ['text for bytes', { fileName: 'a.csv', bytes: 'a,b' as unknown as Uint8Array }],
  ])('are not even shown for %s', async (_name, file) => {
    const { bridge, dialog } = await startShellUnderTest();
    expect(await bridge.saveFile(file)).toMatchObject({ ok: false, error: { code: 'bad-call' } });
    expect(dialog.shown).toEqual([]);
  });
});
