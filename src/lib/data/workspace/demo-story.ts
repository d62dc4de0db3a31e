/** What was planted in the demo, and what a reader is asked about it. */
export interface DemoStory {
  readonly number: number;
  readonly question: string;
  readonly what: string;
  readonly where: {
    readonly station?: string;
    readonly tail?: string;
    readonly vehicle?: string;
    readonly supplier?: string;
  };
  /** First and last instant, ISO 8601 UTC; null is open. */
  readonly from: string | null;
  readonly until: string | null;
  readonly size: number;
  readonly unit: string;
  readonly lesson: string;
}
