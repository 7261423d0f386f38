/** Hands a file to the browser to save; in the desktop shell this opens the native save dialog. */
export const saveFile = (file: {
  readonly fileName: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}): void => {
  const url = URL.createObjectURL(new Blob([new Uint8Array(file.bytes)], { type: file.mediaType }));
  const link = document.createElement('a');
  link.href = url;
  link.download = file.fileName;
  link.click();
  // The download has its own hold on the blob once it has begun; a minute is ample for it to begin.
  window.setTimeout(() => URL.revokeObjectURL(url), 60_000);
};
