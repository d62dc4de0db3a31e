import { untrack } from 'svelte';
import type { Argument, Result, StudyName } from '#lib/worker/protocol.ts';
import { quiet } from './answer.svelte.ts';
import type { Session } from './session.svelte.ts';

/** Nothing must have changed for so long before a study is asked for: a filter being dragged asks for none. */
const calmMs = 300;

/** Studies wanted on the page and not answered. */
let wanted = 0;

function answered(): void {
  wanted--;
  if (wanted === 0) performance.mark('study:answered');
}

/** A study's answer with what it was asked. */
interface Landed<N extends StudyName> {
  readonly asked: string;
  /** Null where there is no answer to give. */
  readonly result: Result<N> | null;
}

/**
 * The worker's answer to a question that may take seconds. It is asked for when nothing has changed for a while, the
 * quick answers of the page have landed and no file is being read, and let go as soon as it is wanted no more. There
 * is no answer while the one at hand is of another filter. Made in a component's script.
 */
export class Study<N extends StudyName> {
  #landed = $state.raw<Landed<N> | null>(null);
  #failure = $state.raw<string | null>(null);
  readonly #asked: () => string | null;

  constructor(session: Session, slot: string, call: N, argument: () => Argument<N> | null) {
    const asked = $derived.by(() => {
      const given = argument();
      return given === null ? null : JSON.stringify(given);
    });
    this.#asked = () => asked;
    const version = $derived(session.workspace?.version);
    $effect(() => {
      if (asked === null || version === undefined || session.isFilling) return;
      const now = asked;
      wanted++;
      const course = { isWanted: true };
      const isWanted = () => course.isWanted;
      const end = () => {
        if (course.isWanted) answered();
        course.isWanted = false;
      };
      const ask = async () => {
        await quiet();
        const given = untrack(argument);
        if (!isWanted() || given === null) return;
        const result = await session.ask(slot, call, given);
        // Null stands for dropped, and for an answer that there is none: only what is wanted counts.
        if (!isWanted()) return;
        this.#landed = { asked: now, result };
        this.#failure = null;
        end();
      };
      const timer = setTimeout(() => {
        ask().catch((error: unknown) => {
          this.#failure = error instanceof Error ? error.message : String(error);
          end();
        });
      }, calmMs);
      return () => {
        clearTimeout(timer);
        session.withdraw(slot);
        // Asked again at once or no more: either way it is not answered.
        if (course.isWanted) wanted--;
        course.isWanted = false;
      };
    });
  }

  /** The answer to what is asked now; null while it is worked out. */
  get current(): Result<N> | null {
    return this.#landed !== null && this.#landed.asked === this.#asked() ? this.#landed.result : null;
  }

  /** The answer that landed last, whatever was asked: for a place that names what it shows. */
  get latest(): Result<N> | null {
    return this.#landed?.result ?? null;
  }

  /** True while the answer to what is asked now is awaited. */
  get pending(): boolean {
    return this.#asked() !== null && this.#landed?.asked !== this.#asked() && this.#failure === null;
  }

  get failure(): string | null {
    return this.#failure;
  }
}
