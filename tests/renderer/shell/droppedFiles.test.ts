import { describe, expect, it } from 'vitest';
import { droppedFiles } from '../../../renderer/shell/droppedFiles.ts';

type Tree = { readonly [name: string]: Tree | string };

/** An entry as the File and Directory Entries API has it; a folder gives its entries two at a time. */
const entryOf = (name: string, content: Tree | string): FileSystemEntry =>
  (typeof content === 'string'
    ? {
        name,
        isFile: true,
        isDirectory: false,
        file: (give: (file: File) => void) => give(new File([content], name)),
      }
    : {
        name,
        isFile: false,
        isDirectory: true,
        createReader: () => {
          const left = Object.entries(content).map(([one, inner]) => entryOf(one, inner));
          return { readEntries: (give: (entries: FileSystemEntry[]) => void) => give(left.splice(0, 2)) };
        },
      }) as unknown as FileSystemEntry;

const drop = (tree: Tree): DataTransfer =>
  ({
    files: Object.keys(tree).map((name) => new File([''], name)),
    items: Object.entries(tree).map(([name, content]) => ({
      webkitGetAsEntry: () => entryOf(name, content),
    })),
  }) as unknown as DataTransfer;

const namesOf = async (tree: Tree) => (await droppedFiles(drop(tree))).map(({ name }) => name);

describe('what is dropped on the window', () => {
  it('is the files themselves', async () => {
    expect(await namesOf({ 'plan.pdf': 'a', 'letter.txt': 'b' })).toEqual(['plan.pdf', 'letter.txt']);
  });

  it('is every plan and project file of a folder, however deep, and nothing else of it', async () => {
    const folder = {
      'a.pdf': '1',
      'notes.txt': '2',
      'b.PDF': '3',
      older: { 'c.pdf': '4', deeper: { 'd.zip': '5', 'e.dwg': '6' }, empty: {} },
    };
    expect(await namesOf({ 'loose.pdf': '0', tenders: folder })).toEqual([
      'loose.pdf',
      'a.pdf',
      'b.PDF',
      'c.pdf',
      'd.zip',
    ]);
  });
});
