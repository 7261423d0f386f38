import { CallRefused } from '../api/apiClient.ts';
import { desktopBridge } from '../api/carryOverDesktop.ts';

interface FileToSave {
  readonly fileName: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}

const download = ({ fileName, mediaType, bytes }: FileToSave): void => {
  const url = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type: mediaType }));
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  link.click();
  // The download has its own hold on the blob once it has begun; a minute is ample for it to begin.
  window.setTimeout(() => URL.revokeObjectURL(url), 60_000);
};

/**
 * Lets the person save a file: in the desktop shell with the native dialog, in a browser as a download.
 *
 * Throws CallRefused where the shell could not write it; a browser tells of its own downloads.
 */
export const saveFile = async (file: FileToSave): Promise<void> => {
  const bridge = desktopBridge();
  if (!bridge) return download(file);
  const answer = await bridge.saveFile({ fileName: file.fileName, bytes: file.bytes });
  if (!answer.ok) throw new CallRefused(answer.error);
};
