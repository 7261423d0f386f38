import { readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import type { BrowserWindow, IpcMainEvent, IpcMainInvokeEvent } from 'electron';
import { z } from 'zod';
import type { ApiAnswer } from '../../src/app/apiMethods.ts';
import { planBytesMost } from '../../src/app/apiShapes.ts';
import type { PickedFile, SavedFile } from '../../src/app/desktopBridge.ts';
import { channels } from '../ipc/channels.ts';
import type { MainElectron } from './mainElectron.ts';

const saveSchema = z.strictObject({
  fileName: z
    .string()
    .min(1)
    .max(255)
    // A suggestion for the dialog, not a path: a name that says where to go could mislead the person who confirms it.
    .refine(
      (name) => !/[\\/\0]/.test(name) && !name.startsWith('.'),
      'expected a file name without a folder',
    ),
  bytes: z
    .instanceof(Uint8Array)
    .refine((bytes) => bytes.byteLength <= planBytesMost, 'the file is too large'),
});

const refusal = (code: string, message: string): ApiAnswer<never> => ({
  ok: false,
  error: { code, message },
});

const reason = (thrown: unknown): string => (thrown instanceof Error ? thrown.message : String(thrown));

const kindNames: Readonly<Record<string, string>> = {
  pdf: 'PDF',
  csv: 'Table (CSV)',
  dxf: 'Drawing (DXF)',
  zip: 'Project file (ZIP)',
};

const filtersFor = (fileName: string) => {
  const extension = extname(fileName).slice(1).toLowerCase();
  return extension === ''
    ? []
    : [{ name: kindNames[extension] ?? extension.toUpperCase(), extensions: [extension] }];
};

const readPicked = async (path: string): Promise<ApiAnswer<PickedFile>> => {
  try {
    const { size } = await stat(path);
    if (size > planBytesMost) {
      return refusal(
        'plan-too-large',
        `${basename(path)} has ${Math.round(size / 1048576)} MB; the most is ${planBytesMost / 1048576} MB.`,
      );
    }
    return { ok: true, value: { fileName: basename(path), bytes: new Uint8Array(await readFile(path)) } };
  } catch (thrown) {
    return refusal('file-unreadable', `${basename(path)} could not be read: ${reason(thrown)}.`);
  }
};

/** Writes beside the target first and renames, so that a full disk never leaves half a file under the chosen name. */
const writeChosen = async (path: string, bytes: Uint8Array): Promise<ApiAnswer<SavedFile>> => {
  const draft = `${path}.${process.pid}.part`;
  try {
    await writeFile(draft, bytes, { flag: 'wx' });
    await rename(draft, path);
    return { ok: true, value: { fileName: basename(path) } };
  } catch (thrown) {
    await rm(draft, { force: true });
    return refusal('file-not-written', `${basename(path)} could not be written: ${reason(thrown)}.`);
  }
};

/** Serves the two native dialogs. The page names no path, in or out: the person picks, and only that file is touched. */
export const serveDialogs = (
  { ipcMain, dialog }: Pick<MainElectron, 'ipcMain' | 'dialog'>,
  window: BrowserWindow,
  isTrusted: (event: IpcMainEvent | IpcMainInvokeEvent) => boolean,
): void => {
  ipcMain.handle(channels.pickPlan, async (event): Promise<ApiAnswer<PickedFile | null>> => {
    if (!isTrusted(event)) return refusal('untrusted-sender', 'Only the program’s own page may ask.');
    const { canceled, filePaths } = await dialog.showOpenDialog(window, {
      title: 'Add a plan',
      buttonLabel: 'Add',
      filters: [{ name: 'Plan (PDF)', extensions: ['pdf'] }],
      properties: ['openFile'],
    });
    const path = filePaths[0];
    return canceled || path === undefined ? { ok: true, value: null } : readPicked(path);
  });

  ipcMain.handle(channels.saveFile, async (event, payload: unknown): Promise<ApiAnswer<SavedFile | null>> => {
    if (!isTrusted(event)) return refusal('untrusted-sender', 'Only the program’s own page may ask.');
    const parsed = saveSchema.safeParse(payload);
    if (!parsed.success) {
      return refusal('bad-call', `The file cannot be saved: ${z.prettifyError(parsed.error)}`);
    }
    const { fileName, bytes } = parsed.data;
    const { canceled, filePath } = await dialog.showSaveDialog(window, {
      title: 'Save',
      defaultPath: fileName,
      filters: filtersFor(fileName),
      properties: ['showOverwriteConfirmation', 'createDirectory'],
    });
    return canceled || !filePath ? { ok: true, value: null } : writeChosen(filePath, bytes);
  });
};
