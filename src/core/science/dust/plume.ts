/**
 * Dust behind a combine: how much, where it goes, how thick it is and how far one sees in it.
 *
 * What a combine really raises differs by four orders of magnitude between published figures, so every distance here
 * serves to compare one direction or wind with another, never as a promise of sight.
 */
import { type StabilityClass, sigmaYM, sigmaZM } from './stability.ts'

/** Slowest speed at which a cloud is taken to leave the machine [m/s]. Choice, no source. */
export const LEAST_RELATIVE_WIND_MS = 0.5
/** Initial spread of a volume source: width / 4.3 and height / 2.15 (US EPA ISC3 guide, table 3-1), from memory. */
const WIDTH_PER_SIGMA = 4.3
const HEIGHT_PER_SIGMA = 2.15
/** Height of the cloud as it leaves the machine, and of its middle and the eyes in a cab [m]. Common practice. */
const CLOUD_HEIGHT_M = 4
const CLOUD_MIDDLE_M = 2.5
const EYE_HEIGHT_M = 2.5
/** Light lost per mass of coarse dust [m2/g]: IMPROVE equation (Pitchford et al. 2007). */
export const COARSE_EXTINCTION_M2_PER_G = 0.6
/** Light lost in clean air [1/m]: Rayleigh scattering, 10 per Mm, IMPROVE equation. */
const CLEAN_AIR_EXTINCTION_PER_M = 1e-5
/** ln(1/0.02): contrast of 2 %, Koschmieder 1924. */
const KOSCHMIEDER = 3.912
/** ln(1/0.05): contrast of 5 %, meteorological optical range of the WMO. */
export const OPTICAL_RANGE = 2.996

const RAD_PER_DEG = Math.PI / 180

/** What drives a cloud and how it spreads. */
export interface Plume {
  /** Dust raised [g/s]. */
  readonly emissionGPerS: number
  readonly stability: StabilityClass
  /** Wind over the ground [m/s]. */
  readonly windMs: number
  /** Wind past the machine [m/s], see `relativeWind`. */
  readonly relativeMs: number
  /** Width of the cloud as it leaves the machine: the width cut [m]. */
  readonly swathM: number
}

export interface RelativeWind {
  /** Speed at which the cloud leaves the machine [m/s], not clamped. */
  readonly speedMs: number
  /** Where the cloud goes, from the machine's heading, clockwise [deg], -180..180; 0 is straight ahead. */
  readonly bearingDeg: number
}

/**
 * Dust raised per second.
 *
 * @param emissionGPerM2 dust raised per area cut [g/m2], > 0
 * @param swathM width cut [m]
 * @param travelMs speed [m/s]
 * @returns [g/s]
 */
export const emissionGPerS = (emissionGPerM2: number, swathM: number, travelMs: number): number =>
  emissionGPerM2 * swathM * travelMs

/**
 * The wind as the machine meets it: wind over the ground less the machine's own travel.
 *
 * @param windMs wind [m/s], >= 0
 * @param windFromDeg direction the wind comes from, clockwise from north [deg]
 * @param travelMs speed of the machine [m/s], >= 0
 * @param headingDeg direction the machine drives, clockwise from north [deg]
 * @returns speed [m/s] and where the cloud goes from the machine's heading [deg]
 *
 * w = u - v. Checked against rows computed from the equation (tests/truth/dust.ts).
 */
export function relativeWind(windMs: number, windFromDeg: number, travelMs: number, headingDeg: number): RelativeWind {
  const toward = (windFromDeg + 180 - headingDeg) * RAD_PER_DEG
  const ahead = windMs * Math.cos(toward) - travelMs
  const right = windMs * Math.sin(toward)
  return { speedMs: Math.hypot(ahead, right), bearingDeg: Math.atan2(right, ahead) / RAD_PER_DEG }
}

/**
 * Dust in the air at a point of the cloud, at the height of the eyes in a cab.
 *
 * @param plume the cloud; relative wind under 0.5 m/s counts as 0.5
 * @param alongM distance from the machine along the relative wind [m]; none before 0
 * @param acrossM distance from the middle of the cloud [m]
 * @returns [g/m3]
 *
 * Gaussian plume in the moving frame: after t = s / u_rel the air has gone x = u t; sigma y = sqrt(sigma y(x)^2 +
 * (swath / 4.3)^2), sigma z = sqrt(sigma z(x)^2 + (4 / 2.15)^2); C = Q / (2 pi u_rel sigma y sigma z) exp(-y^2 / 2
 * sigma y^2) [exp(-(z-H)^2 / 2 sigma z^2) + exp(-(z+H)^2 / 2 sigma z^2)] with H = z = 2.5 m. Checked against rows computed
 * from these equations (tests/truth/dust.ts), within 0.2 %. Settling of coarse dust is left out.
 */
export function dustGPerM3(plume: Plume, alongM: number, acrossM: number): number {
  if (alongM < 0) return 0
  const speed = Math.max(plume.relativeMs, LEAST_RELATIVE_WIND_MS)
  const { sigmaY, sigmaZ } = spreadAt(plume, speed, alongM)
  const peak = plume.emissionGPerS / (2 * Math.PI * speed * sigmaY * sigmaZ)
  return peak * Math.exp(-(acrossM ** 2) / (2 * sigmaY ** 2)) * overHeight(sigmaZ)
}

/**
 * Light lost on a path straight across the cloud.
 *
 * @param plume the cloud; relative wind under 0.5 m/s counts as 0.5
 * @param alongM distance from the machine along the relative wind [m], >= 0
 * @returns optical depth [-]; the cloud hides 1 - exp(-depth) of what is behind it
 *
 * Crosswind integral of `dustGPerM3`, Q / (sqrt(2 pi) u_rel sigma z) [...], times the extinction of coarse dust.
 */
export function crossDepth(plume: Plume, alongM: number): number {
  const speed = Math.max(plume.relativeMs, LEAST_RELATIVE_WIND_MS)
  const { sigmaZ } = spreadAt(plume, speed, alongM)
  const load = (plume.emissionGPerS * overHeight(sigmaZ)) / (Math.sqrt(2 * Math.PI) * speed * sigmaZ)
  return COARSE_EXTINCTION_M2_PER_G * load
}

function spreadAt(plume: Plume, speedMs: number, alongM: number): { sigmaY: number; sigmaZ: number } {
  const carriedM = (plume.windMs * alongM) / speedMs
  return {
    sigmaY: Math.hypot(sigmaYM(plume.stability, carriedM), plume.swathM / WIDTH_PER_SIGMA),
    sigmaZ: Math.hypot(sigmaZM(plume.stability, carriedM), CLOUD_HEIGHT_M / HEIGHT_PER_SIGMA),
  }
}

const overHeight = (sigmaZ: number): number =>
  Math.exp(-((EYE_HEIGHT_M - CLOUD_MIDDLE_M) ** 2) / (2 * sigmaZ ** 2)) +
  Math.exp(-((EYE_HEIGHT_M + CLOUD_MIDDLE_M) ** 2) / (2 * sigmaZ ** 2))

/**
 * Light lost per metre in dusty air.
 *
 * @param dust dust in the air [g/m3], >= 0
 * @returns extinction [1/m], clean air included
 */
export const extinctionPerM = (dust: number): number => COARSE_EXTINCTION_M2_PER_G * dust + CLEAN_AIR_EXTINCTION_PER_M

/**
 * Distance at which a dark object just fades into even dust.
 *
 * @param dust dust in the air [g/m3], >= 0
 * @returns Koschmieder's range at 2 % contrast [m], 391 km in clean air
 */
export const visualRangeM = (dust: number): number => KOSCHMIEDER / extinctionPerM(dust)

/**
 * Meteorological optical range in even dust.
 *
 * @param dust dust in the air [g/m3], >= 0
 * @returns range at 5 % contrast [m], WMO definition
 */
export const opticalRangeM = (dust: number): number => OPTICAL_RANGE / extinctionPerM(dust)
