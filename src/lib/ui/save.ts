/** Hands a text file to the browser to save. A blob of the own origin; nothing is sent anywhere. */
export function saveText(name: string, text: string, type = 'text/csv'): void {
  const address = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The click has handed the blob over by the next turn; until then it must live.
  setTimeout(() => URL.revokeObjectURL(address), 0);
}
