/** One at a time, in the order of asking. */
export class Turn {
  readonly #waiting: (() => void)[] = [];
  #taken = false;

  take(): Promise<void> {
    if (!this.#taken) {
      this.#taken = true;
      return Promise.resolve();
    }
    return new Promise((resolve) => this.#waiting.push(resolve));
  }

  give(): void {
    const next = this.#waiting.shift();
    if (next === undefined) this.#taken = false;
    else next();
  }
}
