/** Hands a text file to the browser to save. */
export function saveText(name: string, text: string, type = 'text/csv'): void {
  saveBlob(name, new Blob([text], { type: `${type};charset=utf-8` }));
}

/** Hands a file to the browser to save. A blob of the own origin; nothing is sent anywhere. */
export function saveBlob(name: string, blob: Blob): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The click has handed the blob over by the next turn; until then it must live.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}
