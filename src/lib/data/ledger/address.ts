/** A record's address: the first eight hex digits of its file's sha-256 and the physical line it starts on. */
export interface RecordAddress {
  readonly sha8: string;
  readonly line: number;
}

/** The address as it stands in links and exports: `7c1e94b0-214`. */
export function addressText(address: RecordAddress): string {
  return `${address.sha8}-${address.line}`;
}

/** Reads an address; null where the text is none. */
export function addressFrom(text: string): RecordAddress | null {
  const match = /^([0-9a-f]{8})-([1-9]\d{0,9})$/.exec(text);
  const [, sha8, line] = match ?? [];
  return sha8 === undefined || line === undefined ? null : { sha8, line: Number(line) };
}
