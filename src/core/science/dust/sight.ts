/**
 * How far the crew sees past a combine's dust, and how to lay the passes so that the wind clears the line.
 *
 * A warning only. It ranks directions and winds against each other and never says that a sight distance is safe:
 * what is raised is uncertain by four orders of magnitude, people and wires are not seen at the range of a dark wall.
 */
import { angleBetweenLines, wrapDeg } from '#core/units/angles.ts'
import { dustGPerM3, emissionGPerS, extinctionPerM, OPTICAL_RANGE, type Plume, relativeWind } from './plume.ts'
import { type StabilityClass, stabilityClass, WIND_SWING_DEG } from './stability.ts'

/** Relative thickness of the dust seen through; the limits are choices without a source, for ranking only. */
export type Visibility = 'clear' | 'thin' | 'poor' | 'blind'

/** How dusty the crop and ground are. */
export type DustClass = 'light' | 'usual' | 'heavy'

/**
 * Dust raised per area cut [g/m2]. PM10 of grain harvest: light, wet climates, and usual, dry climates, EMEP/EEA
 * guidebook 2019 chapter 3.D; heavy, California Air Resources Board method 7.5 for wheat. All from memory.
 */
const EMISSION_G_PER_M2: { readonly [D in DustClass]: number } = { light: 0.049, usual: 0.245, heavy: 0.65 }
/** Old straw from the crop before doubles the dust. Common practice, no source. */
const STRAW_FACTOR = 2

/** Sight at and above which the class holds [m]. Choices, no source. */
const CLEAR_FROM_M = 500
const THIN_FROM_M = 150
const POOR_FROM_M = 50
/** Under this the wind has no direction to plan by and the cloud hangs [m/s]. Common practice, no source. */
const CALM_BELOW_MS = 1
/** Stretch ahead over which the loss of light is summed, in steps, and the longest sight given [m]. */
const LOOK_M = 100
const STEP_M = 2
const LONGEST_SIGHT_M = 1000
/** Gap between two machines that is tried, from least to most [m], and the sight it must leave [m]. Choices. */
const LEAST_GAP_M = 30
const MOST_GAP_M = 300
const GAP_STEP_M = 10
const SIGHT_IN_GAP_M = 100

const RAD_PER_DEG = Math.PI / 180

/**
 * How far the driver of a machine near the dusty one sees straight ahead, in the common direction of travel.
 *
 * @param plume the cloud of the dusty machine
 * @param cloudBearingDeg where the cloud goes from the heading, clockwise [deg], see `relativeWind`
 * @param behindM how far the driver is behind the dusty machine [m]; 0 is its own driver
 * @param asideM how far to the right of its line [m]
 * @returns optical range (5 % contrast) of even dust that takes as much light over the next 100 m [m], at most 1,000
 *
 * Extinction of `dustGPerM3` summed along 100 m of the line of sight in 2 m steps; in even dust it is
 * `opticalRangeM`.
 */
export function sightAheadM(plume: Plume, cloudBearingDeg: number, behindM: number, asideM: number): number {
  const cos = Math.cos(cloudBearingDeg * RAD_PER_DEG)
  const sin = Math.sin(cloudBearingDeg * RAD_PER_DEG)
  let depth = 0
  for (let seen = STEP_M / 2; seen < LOOK_M; seen += STEP_M) {
    const ahead = seen - behindM
    const dust = dustGPerM3(plume, ahead * cos + asideM * sin, asideM * cos - ahead * sin)
    depth += STEP_M * extinctionPerM(dust)
  }
  return Math.min(LONGEST_SIGHT_M, (LOOK_M * OPTICAL_RANGE) / depth)
}

/** @returns the relative class of a sight distance [m]; null if not known. */
export function visibilityOf(sightM: number): Visibility | null {
  if (Number.isNaN(sightM)) return null
  if (sightM >= CLEAR_FROM_M) return 'clear'
  if (sightM >= THIN_FROM_M) return 'thin'
  return sightM >= POOR_FROM_M ? 'poor' : 'blind'
}

export interface PassWeather {
  /** Wind at 10 m [m/s]. */
  readonly windMs: number
  /** Direction the wind comes from, clockwise from north [deg]. */
  readonly windFromDeg: number
  /** Global radiation [W/m2]; under 20 counts as night. */
  readonly solarWm2: number
}

export interface PassWork {
  /** Speed of the machines [m/s], > 0. */
  readonly travelMs: number
  /** Width cut [m], > 0. */
  readonly swathM: number
  readonly dustClass: DustClass
  /** Old straw of the crop before lies under this one. */
  readonly straw: boolean
  /** Bearing of the rows if they fix the direction of the passes, clockwise from north [deg]. */
  readonly rowBearingDeg?: number
}

export interface PassAdvice {
  /** Too little wind to plan by: the cloud hangs where it is raised, whatever the direction. */
  readonly calm: boolean
  /** Direction of passes that lets the wind clear the line, across the wind [deg, 0-180); NaN when calm. */
  readonly preferBearingDeg: number
  /** Direction that keeps the dust on the line, along the wind [deg, 0-180); NaN when calm. */
  readonly worstBearingDeg: number
  readonly across: Visibility
  readonly along: Visibility
  /** Where upwind lies [deg, 0-360); NaN when calm. Start at the far edge, work toward it, follow on that side. */
  readonly upwindDeg: number
  /** Rows, if they fix the direction: how far off the best direction [deg, 0-90; NaN when calm], and what it costs. */
  readonly rows?: { readonly bearingDeg: number; readonly offBestDeg: number; readonly visibility: Visibility }
  /** Gap to keep behind another machine, on its upwind side, in the direction of the rows or else the best one [m]. */
  readonly staggerM: number
  /** No gap up to 300 m leaves 100 m of sight: do not follow in this dust. */
  readonly staggerFails: boolean
}

/**
 * How to lay the passes in this wind.
 *
 * @param weather wind and sunlight of the hour
 * @param work machine, dust and rows
 * @returns advice in relative classes, or null if wind or sunlight is not known
 *
 * A direction is judged by the worse of its two headings, and of the driver's own sight and that of a machine 30 m
 * behind on the next pass upwind. The two clouds of two dusty machines are not added. Checked by wind-angle rows
 * (tests/truth/dust.ts) and by search over all bearings.
 */
export function passAdvice(weather: PassWeather, work: PassWork): PassAdvice | null {
  const { windMs, windFromDeg, solarWm2 } = weather
  const calm = windMs < CALM_BELOW_MS
  const stability = stabilityClass(windMs, solarWm2)
  if (stability === null || (!calm && Number.isNaN(windFromDeg))) return null
  const sightOn = (bearingDeg: number, gapM: number) => sightOnPass(weather, work, stability, bearingDeg, gapM)
  const prefer = calm ? Number.NaN : wrapDeg(windFromDeg + 90, 180)
  const worst = calm ? Number.NaN : wrapDeg(windFromDeg, 180)
  const rowDeg = work.rowBearingDeg === undefined ? undefined : wrapDeg(work.rowBearingDeg, 180)
  const driven = rowDeg ?? (calm ? 0 : prefer)
  const gap = leastGapM((gapM) => sightOn(driven, gapM))
  const across = visibilityOf(sightOn(calm ? 0 : prefer, LEAST_GAP_M))
  const along = visibilityOf(sightOn(calm ? 0 : worst, LEAST_GAP_M))
  const onRows = visibilityOf(sightOn(driven, LEAST_GAP_M))
  if (across === null || along === null || onRows === null) return null
  return {
    calm,
    preferBearingDeg: prefer,
    worstBearingDeg: worst,
    across,
    along,
    upwindDeg: calm ? Number.NaN : wrapDeg(windFromDeg, 360),
    ...(rowDeg === undefined
      ? {}
      : { rows: { bearingDeg: rowDeg, offBestDeg: angleBetweenLines(rowDeg, prefer), visibility: onRows } }),
    staggerM: gap ?? MOST_GAP_M,
    staggerFails: gap === null,
  }
}

/**
 * Least sight on passes of a bearing, over both headings and the usual swing of the wind to either side, for the driver
 * and for one who follows.
 *
 * @param weather wind and sunlight of the hour
 * @param work machine and dust
 * @param stability Pasquill class
 * @param bearingDeg bearing of the passes [deg]
 * @param gapM how far the second machine follows behind [m], on the next pass upwind; in calm air in the same track
 * @returns [m], at most 1,000
 */
export function sightOnPass(
  weather: PassWeather,
  work: PassWork,
  stability: StabilityClass,
  bearingDeg: number,
  gapM: number,
): number {
  const calm = weather.windMs < CALM_BELOW_MS
  const perM2 = EMISSION_G_PER_M2[work.dustClass] * (work.straw ? STRAW_FACTOR : 1)
  const swingDeg = WIND_SWING_DEG[stability]
  let least = LONGEST_SIGHT_M
  for (const headingDeg of [bearingDeg, bearingDeg + 180]) {
    const upwindIsRight = Math.sin((weather.windFromDeg - headingDeg) * RAD_PER_DEG) >= 0
    const asideM = calm ? 0 : upwindIsRight ? work.swathM : -work.swathM
    const alignedDeg = wrapDeg(headingDeg - weather.windFromDeg, 360) - 180
    const sightAt = (swing: number): number => {
      const wind = calm
        ? { speedMs: work.travelMs, bearingDeg: 180 }
        : relativeWind(weather.windMs, weather.windFromDeg + swing, work.travelMs, headingDeg)
      const plume: Plume = {
        emissionGPerS: emissionGPerS(perM2, work.swathM, work.travelMs),
        stability,
        windMs: weather.windMs,
        relativeMs: wind.speedMs,
        swathM: work.swathM,
      }
      return Math.min(sightAheadM(plume, wind.bearingDeg, 0, 0), sightAheadM(plume, wind.bearingDeg, gapM, asideM))
    }
    least = Math.min(least, calm ? sightAt(0) : leastInSwing(sightAt, swingDeg, alignedDeg))
  }
  return least
}

/**
 * Where to look before the search closes in [deg from a wind that blows straight along the way of the machine]. There the
 * cloud turns from behind to beside within a fraction of a degree when both are about as fast, so the points crowd.
 */
const NEAR_ALIGNED_DEG = [0, 0.01, 0.03, 0.1, 0.3, 1, 3, 8, 20].flatMap((deg) => (deg === 0 ? [0] : [-deg, deg]))
/** To a millionth of a degree. */
const SEARCH_STEPS = 36
const GOLDEN = (Math.sqrt(5) - 1) / 2

/**
 * Least sight while the wind swings: one somewhat slower than the machine blinds most when it stands a little off the
 * line, so the ends and the middle of the swing do not tell the least.
 *
 * @param sightAt sight at a swing of the wind [deg]. @param reachDeg how far it swings to either side [deg].
 * @param alignedDeg swing at which the wind blows straight along the way of the machine [deg].
 *
 * Golden section (Kiefer 1953, doi:10.1090/S0002-9939-1953-0055639-3) between the neighbours of the lowest point.
 */
function leastInSwing(sightAt: (swingDeg: number) => number, reachDeg: number, alignedDeg: number): number {
  const points = [-reachDeg, -reachDeg / 2, 0, reachDeg / 2, reachDeg]
    .concat(NEAR_ALIGNED_DEG.map((deg) => alignedDeg + deg).filter((deg) => Math.abs(deg) < reachDeg))
    .sort((one, other) => one - other)
  const values = points.map(sightAt)
  let least = Math.min(...values)
  const lowest = values.indexOf(least)
  if (lowest < 0) return least
  let from = points[Math.max(0, lowest - 1)]!
  let to = points[Math.min(points.length - 1, lowest + 1)]!
  for (let step = 0; step < SEARCH_STEPS; step++) {
    const left = to - GOLDEN * (to - from)
    const right = from + GOLDEN * (to - from)
    const [atLeft, atRight] = [sightAt(left), sightAt(right)]
    least = Math.min(least, atLeft, atRight)
    if (atLeft <= atRight) to = right
    else from = left
  }
  return least
}

function leastGapM(sightAt: (gapM: number) => number): number | null {
  for (let gapM = LEAST_GAP_M; gapM <= MOST_GAP_M; gapM += GAP_STEP_M) {
    if (sightAt(gapM) >= SIGHT_IN_GAP_M) return gapM
  }
  return null
}
