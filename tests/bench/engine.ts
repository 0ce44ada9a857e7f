/**
 * Speed of the engine: nanoseconds per field, course and hour, and the ratio to the same loop in C at -O3 where a
 * compiler is present. Run by `npm run bench -- engine`.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, openSync, rmSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { hourlyReferenceEtMm } from '#core/science/air/evapotranspiration.ts'
import { type Course, emptySeries, runCourses } from '#core/science/engine/courses.ts'
import { type GrainDrivers, grainDrivers } from '#core/science/grain/exchange.ts'
import { infiltratedRain } from '#core/science/soil/runoff.ts'
import { type Topsoil, topsoilOf } from '#core/science/soil/topsoil.ts'
import { canopyWater } from '#core/science/wetness/canopy-water.ts'
import { seededRandom } from '#core/units/random.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'

const FIELDS = 100
const MEMBERS = 51
const HOURS = 384
const ROUNDS = 7

export function benchEngine(print: (line: string) => void): void {
  const weather = autumnWeather()
  const waterMm = canopyWater(weather, 'soybean').waterMm
  const grain = grainDrivers('soybean', weather, waterMm)
  const soilDrivers = {
    infiltrationMm: infiltratedRain(weather.rainMm, HOURS, 78),
    etMm: hourlyReferenceEtMm(weather),
  }
  const soil = topsoilOf('silt-loam', 'tiled')
  const courses = coursesOf(grain)
  const out = emptySeries(MEMBERS, HOURS)

  const ours: number[] = []
  const heapBefore: number[] = []
  for (let round = 0; round < ROUNDS; round++) {
    const heap = process.memoryUsage().heapUsed
    const start = process.hrtime.bigint()
    for (let field = 0; field < FIELDS; field++) runCourses(grain, soilDrivers, soil, courses, out)
    ours.push(Number(process.hrtime.bigint() - start) / (FIELDS * MEMBERS * HOURS))
    heapBefore.push(process.memoryUsage().heapUsed - heap)
  }
  const best = Math.min(...ours)
  print(`engine: ${best.toFixed(2)} ns per field, course and hour (bar 25), median ${median(ours).toFixed(2)}`)
  print(
    `engine: 1,000 fields x 51 members x 384 h would take ${((best * 1000 * MEMBERS * HOURS) / 1e9).toFixed(2)} s on one core (bar 1)`,
  )
  print(
    `engine: heap grows ${(Math.min(...heapBefore) / (FIELDS * MEMBERS * HOURS)).toFixed(5)} bytes per field, course and hour while it runs; ${(out.moistureWb.byteLength + out.depletionMm.byteLength) / (MEMBERS * HOURS)} bytes of each are kept (bar 8)`,
  )

  const c = cLoop(grain, soilDrivers, soil, courses, sumOf(out))
  print(
    c === undefined
      ? 'engine: no C compiler found, no ratio'
      : `engine: C at -O3 ${c.toFixed(2)} ns, ratio ${(best / c).toFixed(2)} (bar 1.5)`,
  )
}

function autumnWeather(): Weather {
  const size = MEMBERS * HOURS
  const arrays = unknownWeatherArrays(MEMBERS, HOURS)
  const random = seededRandom(11)
  for (let i = 0; i < size; i++) {
    const hour = i % HOURS
    const sun = Math.max(0, Math.sin(((hour % 24) - 12) * (Math.PI / 12) + Math.PI / 2))
    arrays.airTempC[i] = 13 + 8 * sun + random.normal()
    arrays.relHumidity[i] = Math.min(1, Math.max(0.15, 0.85 - 0.45 * sun + 0.05 * random.normal()))
    arrays.rainMm[i] = random.uniform() < 0.02 ? 4 * random.uniform() : 0
    arrays.windMs[i] = 2 + 3 * sun
    arrays.gustMs[i] = 4 + 5 * sun
    arrays.windFromDeg[i] = 200
    arrays.solarWm2[i] = 650 * sun
  }
  return {
    place: { latDeg: 40, lonDeg: -88.2, elevationM: 215 },
    startEpochH: 357_000,
    hours: HOURS,
    members: MEMBERS,
    ...arrays,
    provenance: {
      source: 'bench',
      attribution: '',
      licence: '',
      issuedAtEpochH: 357_000,
      spread: 'ensemble',
      remarks: [],
    },
  }
}

/** Ripe, drying and still green fields in equal parts, so that every branch is taken. */
const coursesOf = (grain: GrainDrivers): Course[] =>
  Array.from({ length: MEMBERS }, (_, member) => ({
    particle: {
      matureEpochH: grain.startEpochH + [-900, -200, 100][member % 3]!,
      moistureAtMaturityWb: 56,
      dryingFactor: 1,
      exchangeHours: 12 + 0.1 * member,
      equilibriumOffsetWb: 0.01 * member,
    },
    member,
    startMoistureWb: [12, 35, 60][member % 3]!,
    startDepletionMm: 6,
  }))

function sumOf(out: ReturnType<typeof emptySeries>): number {
  let sum = 0
  for (let i = 0; i < out.moistureWb.length; i++) sum += out.moistureWb[i]! + out.depletionMm[i]!
  return sum
}

/** @returns best time of the C loop [ns per field, course and hour]; undefined without a compiler. */
function cLoop(
  grain: GrainDrivers,
  soilDrivers: { infiltrationMm: Float32Array; etMm: Float32Array },
  soil: Topsoil,
  courses: readonly Course[],
  expectedSum: number,
): number | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'engine-'))
  try {
    const program = join(folder, 'engine')
    try {
      execFileSync('cc', ['-O3', '-o', program, join(import.meta.dirname, 'engine.c'), '-lm'], { stdio: 'pipe' })
    } catch {
      return undefined
    }
    const data = join(folder, 'data')
    const file = openSync(data, 'w')
    const { traits } = grain
    writeSync(file, new Int32Array([HOURS, MEMBERS, FIELDS]))
    writeSync(file, new Float64Array([grain.startEpochH]))
    writeSync(file, new Float64Array([traits.fillingPointsPerDay, traits.youngestWb, traits.ripeWb, traits.greenWb]))
    writeSync(
      file,
      new Float64Array([
        soil.rewMm,
        soil.tewMm,
        soil.perSecondStage,
        soil.floodedMm,
        soil.drainKeep,
        soil.evaporationRatio,
      ]),
    )
    for (const { particle, startMoistureWb, startDepletionMm } of courses) {
      const { matureEpochH, moistureAtMaturityWb, dryingFactor, exchangeHours, equilibriumOffsetWb } = particle
      writeSync(
        file,
        new Float64Array([
          matureEpochH,
          moistureAtMaturityWb,
          dryingFactor,
          exchangeHours,
          equilibriumOffsetWb,
          startMoistureWb,
          startDepletionMm,
        ]),
      )
    }
    const { dryTargetWb, wetTargetWb, dryRate, wetRate, greenDryingWb } = grain
    for (const values of [
      dryTargetWb,
      wetTargetWb,
      dryRate,
      wetRate,
      greenDryingWb,
      soilDrivers.infiltrationMm,
      soilDrivers.etMm,
    ]) {
      writeSync(file, values)
    }
    const lines = execFileSync(program, [data, String(ROUNDS)], { encoding: 'utf8' })
      .trim()
      .split('\n')
    const sum = Number(lines.at(-1)!.replace('sum ', ''))
    if (!(Math.abs(sum - expectedSum) < 1e-6 * Math.abs(expectedSum))) {
      throw new Error(`the C loop is not the same loop: its sum is ${sum}, ours ${expectedSum}`)
    }
    return Math.min(...lines.slice(0, -1).map(Number))
  } finally {
    rmSync(folder, { recursive: true })
  }
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!
