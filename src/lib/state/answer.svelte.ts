import { tick, untrack } from 'svelte';
import type { Argument, CallName, Result, StudyName } from '#lib/worker/protocol.ts';
import type { Session } from './session.svelte.ts';

/** Questions under way on the page, over all answers. */
let underWay = 0;
/** Answers that came while others were still awaited: drawn together, the page shows one state and is drawn once. */
const landed: (() => void)[] = [];
/** Nobody waits for the slowest answer longer than this. */
const longestHoldMs = 50;
let holding: ReturnType<typeof setTimeout> | null = null;

function release(): void {
  if (holding !== null) clearTimeout(holding);
  holding = null;
  for (const draw of landed.splice(0)) draw();
}

function land(draw: () => void): void {
  landed.push(draw);
  holding ??= setTimeout(release, longestHoldMs);
}

/** Answers this long in coming are said to be. */
const lateMs = 500;

/** Whether the page still awaits answers: what it shows may be of a part of the records, or of what was before. */
class Awaited {
  #isLate = $state(false);
  #timer: ReturnType<typeof setTimeout> | null = null;

  get isLate(): boolean {
    return this.#isLate;
  }

  begin(): void {
    this.#timer ??= setTimeout(() => (this.#isLate = true), lateMs);
  }

  end(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    this.#isLate = false;
  }
}

export const awaited = new Awaited();

/** While files are read, a question leaves this many times its own duration to the reading before it is asked again. */
const readingShare = 4;

/** Told when the last answer under way has landed. */
const whenLanded: (() => void)[] = [];

/** Resolves when no question is under way that is answered at once. */
export async function quiet(): Promise<void> {
  while (underWay > 0) await new Promise<void>((resolve) => whenLanded.push(resolve));
}

async function settled(session: Session): Promise<void> {
  underWay--;
  if (underWay > 0) return;
  awaited.end();
  performance.mark('filter:answered');
  release();
  for (const tell of whenLanded.splice(0)) tell();
  await tick();
  requestAnimationFrame(() => {
    // Asked again in between: what is on the page is no longer what it shall be.
    if (underWay > 0) return;
    performance.mark('filter:shown');
    session.intake.shown();
  });
}

/**
 * The worker's answer to a question that follows what the page shows: asked again when the argument or the records
 * change, the last answer kept on screen until the new one is there. Made in a component's script. What may take
 * seconds is a `Study`.
 */
export class Answer<N extends Exclude<CallName, StudyName>> {
  #current = $state.raw<Result<N> | null>(null);
  #failure = $state.raw<string | null>(null);
  #pending = $state.raw(true);
  /** What was asked last, and of which records and verdicts. */
  #asked = '';
  #askedVersion = -1;
  #tookMs = 0;
  #answeredAtMs = 0;

  constructor(session: Session, slot: string, call: N, argument: () => Argument<N> | null) {
    const question = $derived.by(() => {
      const version = session.workspace?.version;
      const asked = argument();
      return version === undefined || asked === null ? null : { asked: JSON.stringify(asked), version };
    });
    $effect(() => {
      if (question === null) return;
      const { asked, version } = question;
      if (asked === this.#asked && version === this.#askedVersion) return;
      const ask = () => {
        const now = untrack(argument);
        if (now === null) return;
        this.#asked = asked;
        this.#askedVersion = version;
        void this.#ask(session, slot, call, now);
      };
      const waitMs = asked !== this.#asked || !session.isFilling ? 0 : this.#leftToReadingMs();
      if (waitMs <= 0) {
        ask();
        return;
      }
      const timer = setTimeout(ask, waitMs);
      return () => clearTimeout(timer);
    });
  }

  /** How long the same question still waits, so that dear answers do not keep files from being read. */
  #leftToReadingMs(): number {
    return this.#answeredAtMs + readingShare * this.#tookMs - performance.now();
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

  async #ask(session: Session, slot: string, call: N, argument: Argument<N>): Promise<void> {
    underWay++;
    awaited.begin();
    this.#pending = true;
    const startMs = performance.now();
    try {
      const answer = await session.ask(slot, call, argument);
      if (answer === null) return;
      this.#answeredAtMs = performance.now();
      this.#tookMs = this.#answeredAtMs - startMs;
      land(() => {
        this.#current = answer;
        this.#failure = null;
        this.#pending = false;
      });
    } catch (error) {
      this.#failure = error instanceof Error ? error.message : String(error);
      this.#pending = false;
    } finally {
      await settled(session);
    }
  }
}
