/** Whether a drag carries files, as far as the browser tells before the drop. */
export function hasFiles(transfer: Pick<DataTransfer, 'types'> | null): boolean {
  return transfer?.types.includes('Files') ?? false;
}

/** The files of a drop in the order given; folders and text are left out. */
export function filesOf(transfer: Pick<DataTransfer, 'files'> | null): File[] {
  return transfer === null ? [] : [...transfer.files];
}
