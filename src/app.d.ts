declare global {
  namespace App {}

  /** Trusted Types as this site uses them; the DOM library of TypeScript does not name them yet. */
  interface Window {
    readonly trustedTypes?: {
      createPolicy(
        name: string,
        rules: { createScriptURL(url: string): string }
      ): { createScriptURL(url: string): unknown };
    };
  }
}

export {};
