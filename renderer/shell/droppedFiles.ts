/** Deeper folders than these are no folder of plans. */
const depthMost = 12;

const fileOf = (entry: FileSystemFileEntry): Promise<File> =>
  new Promise((resolve, reject) => entry.file(resolve, reject));

/** A folder gives its entries in portions; an empty one is the last. */
const entriesOf = async (folder: FileSystemDirectoryEntry): Promise<readonly FileSystemEntry[]> => {
  const reader = folder.createReader();
  const all: FileSystemEntry[] = [];
  for (;;) {
    const portion = await new Promise<FileSystemEntry[]>((resolve, reject) =>
      reader.readEntries(resolve, reject),
    );
    if (portion.length === 0) return all;
    all.push(...portion);
  }
};

const filesIn = async (entry: FileSystemEntry, depth: number): Promise<readonly File[]> => {
  if (entry.isFile) return [await fileOf(entry as FileSystemFileEntry)];
  if (depth === 0) return [];
  const files: File[] = [];
  for (const one of await entriesOf(entry as FileSystemDirectoryEntry))
    files.push(...(await filesIn(one, depth - 1)));
  return files;
};

/**
 * The files that were dropped: those dropped themselves, and in their place for each folder the plans and project files
 * anywhere in it. To be called while the drop is being told of, for the browser forgets it afterwards.
 */
export const droppedFiles = async (dropped: DataTransfer): Promise<readonly File[]> => {
  const plain = [...dropped.files];
  const folders = [...dropped.items].flatMap((item) => {
    const entry = item.webkitGetAsEntry();
    return entry?.isDirectory ? [entry] : [];
  });
  if (folders.length === 0) return plain;
  const names = new Set(folders.map(({ name }) => name));
  const files = plain.filter(({ name }) => !names.has(name));
  for (const folder of folders)
    files.push(...(await filesIn(folder, depthMost)).filter(({ name }) => /\.(pdf|zip)$/i.test(name)));
  return files;
};
