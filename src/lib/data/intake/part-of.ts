const headBytes = 1 << 17;
const pieceBytes = 1 << 16;
const pieces = 8;
const lineFeed = 0x0a;

/**
 * A part of a file from which the whole is foreseen: its head, and whole lines from places spread over the rest. Lines
 * are cut at LF, so that a cell of several lines may be cut too: what is foreseen is held against the whole later.
 */
export async function partOf(blob: Blob): Promise<Blob> {
  const head = blob.slice(0, headBytes);
  if (blob.size <= headBytes) return head;
  const parts: Blob[] = [await wholeLines(head, true)];
  const step = (blob.size - headBytes) / pieces;
  for (let i = 0; i < pieces; i++) {
    const from = Math.floor(headBytes + i * step);
    parts.push(await wholeLines(blob.slice(from, from + Math.min(pieceBytes, Math.ceil(step))), false));
  }
  return new Blob(parts);
}

/** The bytes after the first line feed, unless the piece starts a line, up to the last one. */
async function wholeLines(piece: Blob, startsLine: boolean): Promise<Blob> {
  const bytes = new Uint8Array(await piece.arrayBuffer());
  const from = startsLine ? 0 : bytes.indexOf(lineFeed) + 1;
  return piece.slice(from, Math.max(from, bytes.lastIndexOf(lineFeed) + 1));
}
