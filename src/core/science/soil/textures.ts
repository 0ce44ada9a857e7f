/**
 * Soil water by texture class, and how soils shed rain.
 *
 * Water contents, readily and total evaporable water: FAO-56 (Allen, Pereira, Raes & Smith 1998), Table 19. The table
 * prints ranges; the middle of each range is used. Porosity: Rawls, Brakensiek & Saxton 1982, Trans. ASAE
 * 25:1316-1320, Table 2 (from memory; silt is not in it and takes the silt loam value).
 */
export const SOIL_TEXTURES = [
  'sand',
  'loamy-sand',
  'sandy-loam',
  'loam',
  'silt-loam',
  'silt',
  'silty-clay-loam',
  'silty-clay',
  'clay',
] as const
export type SoilTextureName = (typeof SOIL_TEXTURES)[number]
export type DrainageName = 'well' | 'moderate' | 'poor' | 'tiled'

export interface SoilWater {
  /** Volumetric water at field capacity [m3/m3]. */
  readonly fieldCapacity: number
  /** Volumetric water at wilting point [m3/m3]. */
  readonly wiltingPoint: number
  /** Volumetric water with every pore full [m3/m3]. */
  readonly porosity: number
  /** Readily evaporable water: lost at the full rate before the surface dries [mm]. */
  readonly rewMm: number
  /** Time in which free water above field capacity falls to 37 % where nothing below holds it up [h]. */
  readonly drainTimeH: number
}

/**
 * Drain times are an assumption: the convention that field capacity is reached one day after soaking on sand, two
 * to three on loams and three to four on clays (Veihmeyer & Hendrickson 1931, from memory), read as three time
 * constants of the exponential that the SWAT model uses (Neitsch et al. 2011, eq. 2:3.2.3, from memory).
 */
export const SOIL_WATER: { readonly [T in SoilTextureName]: SoilWater } = {
  sand: { fieldCapacity: 0.12, wiltingPoint: 0.045, porosity: 0.437, rewMm: 4.5, drainTimeH: 6 },
  'loamy-sand': { fieldCapacity: 0.15, wiltingPoint: 0.065, porosity: 0.437, rewMm: 6, drainTimeH: 8 },
  'sandy-loam': { fieldCapacity: 0.23, wiltingPoint: 0.11, porosity: 0.453, rewMm: 8, drainTimeH: 10 },
  loam: { fieldCapacity: 0.25, wiltingPoint: 0.12, porosity: 0.463, rewMm: 9, drainTimeH: 16 },
  'silt-loam': { fieldCapacity: 0.29, wiltingPoint: 0.15, porosity: 0.501, rewMm: 9.5, drainTimeH: 18 },
  silt: { fieldCapacity: 0.32, wiltingPoint: 0.17, porosity: 0.501, rewMm: 9.5, drainTimeH: 20 },
  'silty-clay-loam': { fieldCapacity: 0.335, wiltingPoint: 0.205, porosity: 0.471, rewMm: 9.5, drainTimeH: 24 },
  'silty-clay': { fieldCapacity: 0.36, wiltingPoint: 0.23, porosity: 0.479, rewMm: 10, drainTimeH: 28 },
  clay: { fieldCapacity: 0.36, wiltingPoint: 0.22, porosity: 0.475, rewMm: 10, drainTimeH: 32 },
}

/** How much longer free water stays than in a freely drained profile. Assumption, no source. */
export const DRAINAGE_DELAY: { readonly [D in DrainageName]: number } = { well: 1, tiled: 1.25, moderate: 2, poor: 5 }

export type HydrologicGroup = 'A' | 'B' | 'C' | 'D'

const GROUP_BY_TEXTURE: { readonly [T in SoilTextureName]: HydrologicGroup } = {
  sand: 'A',
  'loamy-sand': 'A',
  'sandy-loam': 'A',
  loam: 'B',
  'silt-loam': 'B',
  silt: 'B',
  'silty-clay-loam': 'D',
  'silty-clay': 'D',
  clay: 'D',
}
const ONE_WORSE: { readonly [G in HydrologicGroup]: HydrologicGroup } = { A: 'B', B: 'C', C: 'D', D: 'D' }

/**
 * Hydrologic soil group of a field.
 *
 * @param texture topsoil texture class.
 * @param drainage drainage of the field; tiled soils count as drained, as the first letter of dual groups does.
 * @returns A (sheds least) to D (sheds most).
 *
 * By texture: USDA-NRCS TR-55 (1986), appendix A, which does not list silt (taken with silt loam). Poorly drained and
 * untiled is D (dual groups, NEH-630 ch. 7). One group worse for moderate drainage is an assumption. A soil survey's
 * own group is better where known: many well-structured silty clay loams are mapped B or C, not D.
 * Checked: tests/truth/soil.ts, appendix A from memory.
 */
export function hydrologicGroup(texture: SoilTextureName, drainage: DrainageName): HydrologicGroup {
  const group = GROUP_BY_TEXTURE[texture]
  if (drainage === 'poor') return 'D'
  return drainage === 'moderate' ? ONE_WORSE[group] : group
}

export type CropCover = 'row-crop' | 'small-grain'

/** Straight row with crop residue, good hydrologic condition: TR-55 (1986), Table 2-2b. */
const CURVE_NUMBERS: { readonly [C in CropCover]: { readonly [G in HydrologicGroup]: number } } = {
  'row-crop': { A: 64, B: 75, C: 82, D: 85 },
  'small-grain': { A: 60, B: 72, C: 80, D: 84 },
}

/**
 * Runoff curve number for average antecedent moisture under a standing crop with residue on the ground.
 *
 * @param cover row crop or small grain.
 * @param group hydrologic soil group.
 * @returns curve number II [-], 0-100.
 *
 * USDA-NRCS TR-55 (1986), Table 2-2b, straight row plus crop residue, good condition.
 * Checked: tests/truth/soil.ts.
 */
export const curveNumberOf = (cover: CropCover, group: HydrologicGroup): number => CURVE_NUMBERS[cover][group]
