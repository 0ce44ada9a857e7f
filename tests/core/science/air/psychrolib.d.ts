/** The few functions used of `psychrolib` 1.1.1, which ships no types. Pressure in Pa, temperature in deg C (SI). */
declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: number
    SetUnitSystem(system: number): void
    GetSatVapPres(tDryBulb: number): number
    GetTDewPointFromRelHum(tDryBulb: number, relHum: number): number
    GetTWetBulbFromRelHum(tDryBulb: number, relHum: number, pressure: number): number
    GetTWetBulbFromHumRatio(tDryBulb: number, humRatio: number, pressure: number): number
    GetHumRatioFromVapPres(vapPres: number, pressure: number): number
    GetSatHumRatio(tDryBulb: number, pressure: number): number
    GetRelHumFromTDewPoint(tDryBulb: number, tDewPoint: number): number
  }
  const psychrolib: Psychrolib
  export default psychrolib
}
