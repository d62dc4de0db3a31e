/**
 * The cell count that a record of the file should have: the header's where it is known, else the count of 2 or more
 * that most records so far have, the one that led first where two are level; 0 before there is any.
 */
export class UsualCount {
  readonly #known: boolean;
  readonly #others = new Map<number, number>();
  #value: number;
  #times = 0;

  constructor(known?: number) {
    this.#known = known !== undefined;
    this.#value = known ?? 0;
  }

  get value(): number {
    return this.#value;
  }

  add(cells: number): void {
    if (cells === this.#value) this.#times++;
    else if (!this.#known && cells > 1) this.#addOther(cells);
  }

  #addOther(cells: number): void {
    const times = (this.#others.get(cells) ?? 0) + 1;
    if (times <= this.#times) {
      this.#others.set(cells, times);
      return;
    }
    this.#others.set(this.#value, this.#times);
    this.#others.delete(cells);
    this.#value = cells;
    this.#times = times;
  }
}
