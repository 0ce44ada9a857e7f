/**
 * Published equilibrium moisture. Typed 2026-11-25.
 * `[M]` = from memory, could not be confirmed. Moisture % wet basis, temperature deg F as printed, RH %.
 */
import type { CropName } from '#core/science/crop.ts'
import type { Isotherm } from '#core/science/grain/isotherm.ts'

/**
 * Encyclopedia table "Equilibrium moisture content" of grains, seen in the mirror
 * http://cryer.org.uk/Equilibrium_moisture_content (rows RH 25-40 % visible; durum to 35 %). Confirmed by look-up.
 * Columns: 35, 50, 70, 100 F.
 */
export const GRAIN_TABLE_TEMPS_F = [35, 50, 70, 100] as const
export const GRAIN_TABLE: {
  readonly crop: CropName
  readonly rows: readonly { readonly rhPct: number; readonly moistureWb: readonly number[] }[]
}[] = [
  {
    crop: 'corn',
    rows: [
      { rhPct: 25, moistureWb: [9.3, 8.6, 7.9, 7.1] },
      { rhPct: 30, moistureWb: [10.3, 9.5, 8.7, 7.8] },
      { rhPct: 35, moistureWb: [11.2, 10.4, 9.5, 8.5] },
      { rhPct: 40, moistureWb: [12.1, 11.2, 10.3, 9.2] },
    ],
  },
  {
    crop: 'soybean',
    rows: [
      { rhPct: 25, moistureWb: [5.9, 5.7, 5.5, 5.2] },
      { rhPct: 30, moistureWb: [6.5, 6.3, 6.1, 5.7] },
      { rhPct: 35, moistureWb: [7.1, 6.9, 6.6, 6.2] },
      { rhPct: 40, moistureWb: [7.8, 7.6, 7.3, 6.9] },
    ],
  },
  {
    crop: 'sorghum',
    rows: [
      { rhPct: 25, moistureWb: [11.5, 10.9, 10.2, 9.3] },
      { rhPct: 30, moistureWb: [12.1, 11.5, 10.8, 9.9] },
      { rhPct: 35, moistureWb: [12.7, 12.1, 11.4, 10.5] },
      { rhPct: 40, moistureWb: [13.3, 12.7, 12.0, 11.1] },
    ],
  },
  {
    crop: 'wheat-durum',
    rows: [
      { rhPct: 25, moistureWb: [8.3, 8.0, 7.7, 7.2] },
      { rhPct: 30, moistureWb: [8.9, 8.7, 8.3, 7.7] },
      { rhPct: 35, moistureWb: [9.6, 9.3, 8.9, 8.3] },
    ],
  },
]

/** Long grain rice in the same table: a control of the Henderson form with constants of its own (D245.5) [M]. */
export const RICE_ISOTHERM: Isotherm = { form: 'henderson', a: 4.1276e-5, b: 2.1191, c: 49.828 }
export const RICE_ROWS = [
  { rhPct: 25, moistureWb: [9.2, 8.6, 8.0, 7.3] },
  { rhPct: 30, moistureWb: [10.1, 9.5, 8.8, 8.0] },
  { rhPct: 35, moistureWb: [10.9, 10.3, 9.5, 8.7] },
] as const

/**
 * Shelled corn, table in a grain dryer manual, "calculated from the Henderson-Thompson equation"
 * (manualsdump.com, airstream-18model, p. 18). Confirmed by look-up. Columns: RH 10, 20, ... 90 %.
 * Constants: Thompson's, in the older ASAE set (secondary source).
 */
export const THOMPSON_CORN_ISOTHERM: Isotherm = { form: 'henderson', a: 8.6541e-5, b: 1.8634, c: 49.81 }
export const THOMPSON_CORN_TABLE: readonly { readonly tempF: number; readonly moistureWb: readonly number[] }[] = [
  { tempF: 35, moistureWb: [5.2, 7.6, 9.5, 11.3, 13.0, 14.8, 16.8, 19.1, 22.2] },
  { tempF: 40, moistureWb: [5.0, 7.4, 9.3, 11.0, 12.7, 14.5, 16.4, 18.7, 21.7] },
  { tempF: 45, moistureWb: [4.9, 7.2, 9.0, 10.8, 12.4, 14.2, 16.0, 18.3, 21.3] },
  { tempF: 50, moistureWb: [4.8, 7.0, 8.8, 10.5, 12.2, 13.9, 15.7, 17.9, 20.9] },
  { tempF: 55, moistureWb: [4.7, 6.9, 8.6, 10.3, 11.9, 13.6, 15.4, 17.5, 20.5] },
  { tempF: 60, moistureWb: [4.6, 6.7, 8.5, 10.1, 11.7, 13.3, 15.1, 17.2, 20.1] },
  { tempF: 65, moistureWb: [4.5, 6.6, 8.3, 9.9, 11.4, 13.0, 14.8, 16.9, 19.7] },
  { tempF: 70, moistureWb: [4.4, 6.4, 8.1, 9.7, 11.2, 12.8, 14.5, 16.6, 19.4] },
  { tempF: 75, moistureWb: [4.3, 6.3, 8.0, 9.5, 11.0, 12.6, 14.3, 16.3, 19.1] },
  { tempF: 80, moistureWb: [4.2, 6.2, 7.8, 9.3, 10.8, 12.4, 14.0, 16.0, 18.8] },
  { tempF: 85, moistureWb: [4.2, 6.1, 7.7, 9.2, 10.6, 12.1, 13.8, 15.8, 18.5] },
  { tempF: 90, moistureWb: [4.1, 6.0, 7.6, 9.0, 10.5, 12.0, 13.6, 15.5, 18.2] },
  { tempF: 95, moistureWb: [4.0, 5.9, 7.4, 8.9, 10.3, 11.8, 13.4, 15.3, 17.9] },
  { tempF: 100, moistureWb: [3.9, 5.8, 7.3, 8.7, 10.1, 11.6, 13.2, 15.1, 17.7] },
]

/** Single published points; `within` is the tolerance in points, with its reason. */
export const SINGLE_POINTS: readonly {
  readonly crop: CropName
  readonly tempF: number
  readonly rhPct: number
  readonly moistureWb: number
  readonly within: number
  readonly source: string
}[] = [
  {
    crop: 'soybean',
    tempF: 70,
    rhPct: 50,
    moistureWb: 8.8,
    within: 0.1,
    source: 'McNeill, University of Kentucky, Moisture content charts, 2012',
  },
  {
    crop: 'corn',
    tempF: 70,
    rhPct: 50,
    moistureWb: 11.3,
    // The chart agrees with the older constants (11.2); ours give 11.8, as the first table above asks for.
    within: 0.6,
    source: 'McNeill, University of Kentucky, Moisture content charts, 2012',
  },
  {
    crop: 'wheat-soft',
    tempF: 90,
    rhPct: 50,
    moistureWb: 10.8,
    within: 0.1,
    source: 'McNeill, Overhults, Montross, University of Kentucky ID-125, section 10, table 6',
  },
  {
    crop: 'wheat-hard',
    tempF: 65,
    rhPct: 60,
    moistureWb: 13.5,
    // Printed as "about".
    within: 0.3,
    source: 'Hellevang, NDSU offers tips on drying wheat, 2019',
  },
  {
    crop: 'soybean',
    tempF: 60,
    rhPct: 70,
    moistureWb: 13,
    // Printed as "13 % needs about 70 %": 70-75 % at the fan inlet, which warms by 3-5 F, so 62-70 % at the grain.
    within: 0.8,
    source: 'Hellevang, NDSU, drying and storing soybeans, 2015 and 2022',
  },
]

/**
 * Equilibrium of any seed from its oil content: 1 - R = exp(-[Me (1.1 + T/90) / (1 - Do)]^2 / 440), Me % dry basis
 * (Cromarty, Ellis & Roberts 1982; confirmed in the documentation of the R package viabilitymetrics, `SeedEqMC`).
 * Oil contents are typical values. A second opinion, used as a band of 1.5 points.
 */
export function cromartyMoistureDb(oilShare: number, tempC: number, relHumidity: number): number {
  return (Math.sqrt(-440 * Math.log(1 - relHumidity)) * (1 - oilShare)) / (1.1 + tempC / 90)
}
export const OIL_SHARE: Partial<Record<CropName, number>> = {
  'wheat-hard': 0.02,
  corn: 0.05,
  soybean: 0.2,
  canola: 0.44,
  sunflower: 0.45,
}
export const CROMARTY_BAND_POINTS = 1.5
