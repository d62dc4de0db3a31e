/** What the bench hangs on its pages. */
interface Window {
  bench: {
    ask(call: string, argument: unknown): Promise<{ result: unknown; ms: number }>;
    newest(name: string): number;
    first(name: string): number;
    fileIds(): string[];
    longestTask(): number;
    step(hash: string): Promise<{ answered: number; shown: number }>;
    studied(hash: string): Promise<number>;
  };
  work(script: string, file: File | undefined): Promise<unknown>;
}
