/** A file as it was given. */
export interface Source {
  readonly name: string;
  readonly blob: Blob;
}
