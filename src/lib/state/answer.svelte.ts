import { tick } from 'svelte';
import type { Argument, CallName, Result } from '#lib/worker/protocol.ts';
import type { Session } from './session.svelte.ts';

/** Questions under way on the page, over all answers. */
let underWay = 0;

async function markShown(): Promise<void> {
  if (underWay > 0) return;
  performance.mark('filter:answered');
  await tick();
  requestAnimationFrame(() => performance.mark('filter:shown'));
}

/**
 * The worker's answer to a question that follows what the page shows: asked again when the argument or the records
 * change, the last answer kept on screen until the new one is there. Made in a component's script.
 */
export class Answer<N extends CallName> {
  #current = $state.raw<Result<N> | null>(null);
  #failure = $state.raw<string | null>(null);
  #pending = $state.raw(true);

  constructor(session: Session, slot: string, call: N, argument: () => Argument<N> | null) {
    $effect(() => {
      const workspace = session.workspace;
      const asked = argument();
      if (workspace === null || asked === null) return;
      // Naming the version makes the effect run again when records or verdicts change.
      void this.#ask(session, slot, call, asked, workspace.version);
    });
  }

  get current(): Result<N> | null {
    return this.#current;
  }

  get pending(): boolean {
    return this.#pending;
  }

  get failure(): string | null {
    return this.#failure;
  }

  async #ask(
    session: Session,
    slot: string,
    call: N,
    argument: Argument<N>,
    _version: number
  ): Promise<void> {
    underWay++;
    this.#pending = true;
    try {
      const answer = await session.ask(slot, call, argument);
      if (answer === null) return;
      this.#current = answer;
      this.#failure = null;
      this.#pending = false;
    } catch (error) {
      this.#failure = error instanceof Error ? error.message : String(error);
      this.#pending = false;
    } finally {
      underWay--;
      await markShown();
    }
  }
}
