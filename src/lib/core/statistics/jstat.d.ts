// The few functions of jstat this room uses; the package ships no types.
declare module 'jstat' {
  interface Distribution {
    inv(probability: number, first: number, second: number): number;
  }
  interface JStat {
    gammaln(x: number): number;
    readonly beta: Distribution;
    readonly gamma: Distribution;
    readonly normal: Distribution;
  }
  const jstat: JStat;
  export default jstat;
}
