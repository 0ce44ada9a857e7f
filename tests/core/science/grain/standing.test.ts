import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CROPS, type CropName } from '#core/science/crop.ts'
import { type GrainDrivers, grainDrivers } from '#core/science/grain/exchange.ts'
import { fillingMoistureWb, type GrainParticle, runGrain, stepGrain } from '#core/science/grain/standing.ts'
import { GRAIN_TRAITS } from '#core/science/grain/traits.ts'
import {
  CORN_BY_MONTH,
  CORN_FIRST_20_DAYS,
  CORN_R2_TO_R6_DAYS,
  CORN_STAGES,
  SOYBEAN_58_TO_12,
  SOYBEAN_EARLY,
  SOYBEAN_R6_TO_R7_DAYS,
  SOYBEAN_STAGES,
  WHEAT_MATURITY_WB,
  WHEAT_POINTS_PER_DAY,
} from '#tests/truth/dry-down.ts'
import {
  FIRST_ORDER,
  SOYBEAN_DRYING_DAY_POINTS,
  SOYBEAN_NIGHT_WITHOUT_DEW,
  SOYBEAN_SWING_POINTS,
} from '#tests/truth/grain-swing.ts'
import {
  autumnsOf,
  DAY,
  dryDownTrial,
  nightWithoutDewTrial,
  northDakotaTrial,
  ripeSoybeanTrial,
  usualParticle,
  weatherOf,
} from './trials.ts'

const HOURS_PER_DAY = 24
/** Drivers of one hour that are given, not computed. */
const hourOf = (dryTargetWb: number, wetTargetWb = dryTargetWb, rate = 1, green = 0, crop: CropName = 'soybean') =>
  ({
    startEpochH: 0,
    hours: 1,
    members: 1,
    traits: GRAIN_TRAITS[crop],
    dryTargetWb: Float32Array.of(dryTargetWb),
    wetTargetWb: Float32Array.of(wetTargetWb),
    dryRate: Float32Array.of(rate),
    wetRate: Float32Array.of(rate),
    greenDryingWb: Float32Array.of(green),
  }) satisfies GrainDrivers
const particleOf = (change: Partial<GrainParticle> = {}): GrainParticle => ({
  ...usualParticle('soybean', 0),
  ...change,
})

describe('the hourly step', () => {
  it.each(FIRST_ORDER)('$fromWb % towards $towardsWb % for $hours h gives $endWb %', (worked) => {
    let moistureWb: number = worked.fromWb
    for (let h = 0; h < worked.hours; h++)
      moistureWb = stepGrain(moistureWb, 1, hourOf(worked.towardsWb), 0, particleOf({ exchangeHours: 20 }))
    expect(Math.abs(moistureWb - worked.endWb)).toBeLessThan(0.02)
  })

  const moistures = fc.double({ min: 2, max: 80, noNaN: true })
  const targets = fc.double({ min: 3, max: 26, noNaN: true })
  const hours = fc.record({
    rate: fc.double({ min: 0.01, max: 1e4, noNaN: true }),
    green: fc.double({ min: 0, max: 5, noNaN: true }),
    gap: fc.double({ min: 0, max: 2, noNaN: true }),
  })

  it('never overshoots at any speed, and keeps the order of two fields', () => {
    fc.assert(
      fc.property(moistures, moistures, targets, hours, (a, b, target, { rate, green, gap }) => {
        const drivers = hourOf(target, target - gap, rate, green)
        const next = (moistureWb: number) => stepGrain(moistureWb, 1, drivers, 0, particleOf())
        const [low, high] = [Math.min(a, b), Math.max(a, b)]
        expect(next(low)).toBeLessThanOrEqual(next(high) + 1e-9)
        const dry = drivers.dryTargetWb[0]!
        const wet = drivers.wetTargetWb[0]!
        if (a >= dry) expect(next(a)).toBeGreaterThanOrEqual(dry - 1e-9)
        if (a >= dry) expect(next(a)).toBeLessThanOrEqual(a)
        if (a <= wet) expect(next(a)).toBeLessThanOrEqual(wet + 1e-9)
        if (a <= wet) expect(next(a)).toBeGreaterThanOrEqual(a)
        if (a > wet && a < dry) expect(next(a)).toBe(a)
      }),
    )
  })

  it('holds green grain back and lets ripe grain go', () => {
    const still = hourOf(10, 9, 1, 0)
    expect(stepGrain(45, 1, still, 0, particleOf())).toBe(45)
    expect(stepGrain(15, 1, still, 0, particleOf())).toBeLessThan(15)
  })

  it('has no jump at the thresholds', () => {
    for (const wb of [GRAIN_TRAITS.soybean.ripeWb, GRAIN_TRAITS.soybean.greenWb]) {
      const at = (moistureWb: number) => stepGrain(moistureWb, 1, hourOf(10, 9, 1, 0.2), 0, particleOf())
      expect(at(wb + 1e-6) - at(wb - 1e-6)).toBeCloseTo(0, 4)
    }
  })

  it('does not know what it cannot know', () => {
    const gap = Number.NaN
    expect(stepGrain(gap, 1, hourOf(10, 9), 0, particleOf())).toBeNaN()
    expect(stepGrain(12, 1, hourOf(gap, gap), 0, particleOf())).toBeNaN()
    expect(stepGrain(12, 1, hourOf(15, gap), 0, particleOf())).toBeNaN()
    expect(stepGrain(40, 1, hourOf(10, 9, 1, gap), 0, particleOf())).toBeNaN()
    expect(stepGrain(12, gap, hourOf(10, 9, gap), 0, particleOf())).toBeNaN()
    expect(stepGrain(12, gap, hourOf(12.5, 11.5), 0, particleOf())).toBeNaN()
  })
})

describe('filling', () => {
  it('meets the published stages of corn', () => {
    const corn = particleOf({ moistureAtMaturityWb: CORN_STAGES.r6Wb })
    const r2 = fillingMoistureWb(GRAIN_TRAITS.corn, -CORN_R2_TO_R6_DAYS * HOURS_PER_DAY, corn)
    expect(Math.abs(r2 - CORN_STAGES.r2Wb)).toBeLessThan(3)
    expect(fillingMoistureWb(GRAIN_TRAITS.corn, 0, corn)).toBe(CORN_STAGES.r6Wb)
  })

  it('meets the published stages of soybean', () => {
    const { moistureAtMaturityWb } = usualParticle('soybean', 0)
    expect(moistureAtMaturityWb).toBeGreaterThan(SOYBEAN_STAGES.r7Wb[0])
    expect(moistureAtMaturityWb).toBeLessThan(SOYBEAN_STAGES.r7Wb[1])
    const r6 = fillingMoistureWb(GRAIN_TRAITS.soybean, -SOYBEAN_R6_TO_R7_DAYS * HOURS_PER_DAY, particleOf())
    expect(r6).toBeGreaterThan(SOYBEAN_STAGES.r6Wb[0])
    expect(r6).toBeLessThan(SOYBEAN_STAGES.r6Wb[1])
  })

  it('runs into dry-down without a jump', () => {
    for (const crop of CROPS) {
      const { drivers } = autumnsOf('soybean')[0]!
      const out = new Float32Array(drivers.hours)
      runGrain(
        { ...drivers, traits: GRAIN_TRAITS[crop] },
        0,
        usualParticle(crop, drivers.startEpochH + 1500.4),
        12,
        out,
      )
      for (let h = 1480; h < 1520; h++) expect(Math.abs(out[h]! - out[h - 1]!)).toBeLessThan(1.5)
    }
  })
})

describe('dry-down against published figures, 28 autumns near Champaign, Illinois', () => {
  it('soybeans mature in mid September: 58 to 12 % in about 15 days, 3.2 points a day at first', () => {
    const { fromWb, toWb, days } = SOYBEAN_58_TO_12
    const trial = dryDownTrial('soybean', DAY['10 Sep'], fromWb, SOYBEAN_EARLY.days, toWb)
    expect(Math.abs(trial.daysUntil.median - days)).toBeLessThanOrEqual(1)
    expect(Math.abs(trial.pointsPerDay.median - SOYBEAN_EARLY.pointsPerDay)).toBeLessThan(0.4)
  })

  it('corn slows from month to month as the rule says', () => {
    const rate = (start: keyof typeof DAY, fromWb: number) =>
      dryDownTrial('corn', DAY[start], fromWb, 20).pointsPerDay.median
    for (const [value, [low, high]] of [
      [rate('10 Sep', 33), CORN_BY_MONTH.september],
      [rate('1 Oct', 28), CORN_BY_MONTH.october],
      [rate('1 Nov', 20), CORN_BY_MONTH.november],
    ] as const) {
      expect(value).toBeGreaterThan(low)
      expect(value).toBeLessThan(high)
    }
    expect(Math.abs(rate('1 Sep', 35) - CORN_FIRST_20_DAYS)).toBeLessThan(0.15)
  })

  it('corn in North Dakota: about 27 % on 1 November and 22 % on 1 December, within what his own points give', () => {
    const [november, december] = northDakotaTrial()
    expect(Math.abs(november!.oursWb - november!.publishedWb)).toBeLessThan(1)
    // His own monthly points add up to 23.1, not 22.
    expect(Math.abs(december!.oursWb - december!.publishedWb)).toBeLessThan(1.5)
  })

  it('wheat loses the points a day that are remembered for it', () => {
    const { median } = dryDownTrial('wheat-soft', 4, WHEAT_MATURITY_WB, 8).pointsPerDay
    expect(median).toBeGreaterThan(WHEAT_POINTS_PER_DAY[0])
    expect(median).toBeLessThan(WHEAT_POINTS_PER_DAY[1])
  })
})

describe('ripe soybeans against published figures, 28 autumns near Champaign, Illinois', () => {
  const trial = ripeSoybeanTrial()

  it('stand near 11 % on rain-free afternoons, nine in ten between 9 and 13-15', () => {
    expect(Math.abs(trial.afternoonWb.median - 11)).toBeLessThan(0.5)
    expect(Math.abs(trial.afternoonWb.p10 - 9)).toBeLessThan(0.6)
    expect(trial.afternoonWb.p90).toBeGreaterThan(13)
    expect(trial.afternoonWb.p90).toBeLessThan(15)
  })

  it('swing by 3 to 5 points between late afternoon and dawn, and can lose 5 in a day', () => {
    expect(trial.swing.median).toBeGreaterThan(2.7)
    expect(trial.range.median).toBeGreaterThan(SOYBEAN_SWING_POINTS[0])
    expect(trial.range.median).toBeLessThan(SOYBEAN_SWING_POINTS[1])
    expect(trial.largestDayDrop).toBeGreaterThan(SOYBEAN_DRYING_DAY_POINTS)
  })

  it('take up rain and give it back in two dry days', () => {
    expect(trial.rainRise.median).toBeGreaterThan(3)
    expect(trial.rainRise.median).toBeLessThan(9)
    expect(Math.abs(trial.left2DaysAfterRain.median)).toBeLessThan(1)
  })

  it('rise to 14.5 % in the night of 2014 at a humidity such a night can have', () => {
    expect(nightWithoutDewTrial(0.7)).toBeLessThan(SOYBEAN_NIGHT_WITHOUT_DEW.morningWb)
    expect(nightWithoutDewTrial(0.9)).toBeGreaterThan(SOYBEAN_NIGHT_WITHOUT_DEW.morningWb)
  })
})

describe('a run', () => {
  it('is wetter the later the grain matures (a green patch)', () => {
    const { drivers } = autumnsOf('soybean')[12]!
    const field = new Float32Array(drivers.hours)
    const patch = new Float32Array(drivers.hours)
    const mature = drivers.startEpochH + DAY['10 Sep'] * HOURS_PER_DAY
    runGrain(drivers, 0, usualParticle('soybean', mature), 12, field)
    runGrain(drivers, 0, usualParticle('soybean', mature + 8 * HOURS_PER_DAY), 12, patch)
    for (const [h, moistureWb] of patch.entries()) expect(moistureWb).toBeGreaterThanOrEqual(field[h]! - 1e-4)
    const week = (DAY['10 Sep'] + 10) * HOURS_PER_DAY
    expect(patch[week]! - field[week]!).toBeGreaterThan(10)
  })

  it('stays between bone dry and young seed in all autumns and crops', () => {
    for (const crop of ['soybean', 'corn', 'wheat-hard', 'canola', 'sunflower'] as const)
      for (const { drivers } of autumnsOf(crop).slice(0, 6)) {
        const out = new Float32Array(drivers.hours)
        runGrain(drivers, 0, usualParticle(crop, drivers.startEpochH + 1200), 12, out)
        for (const moistureWb of out) {
          expect(moistureWb).toBeGreaterThan(2)
          expect(moistureWb).toBeLessThanOrEqual(GRAIN_TRAITS[crop].youngestWb)
        }
      }
  })

  it('can be cut in two anywhere', () => {
    const { weather, drivers } = autumnsOf('soybean')[3]!
    const whole = new Float32Array(drivers.hours)
    const particle = usualParticle('soybean', drivers.startEpochH + 1600)
    runGrain(drivers, 0, particle, 12, whole)
    const cut = 1800
    const tail = (series: Float32Array) => series.subarray(cut)
    const later: GrainDrivers = {
      ...drivers,
      startEpochH: drivers.startEpochH + cut,
      hours: weather.hours - cut,
      dryTargetWb: tail(drivers.dryTargetWb),
      wetTargetWb: tail(drivers.wetTargetWb),
      dryRate: tail(drivers.dryRate),
      wetRate: tail(drivers.wetRate),
      greenDryingWb: tail(drivers.greenDryingWb),
    }
    const out = new Float32Array(later.hours + 7)
    runGrain(later, 0, particle, whole[cut - 1]!, out, 7)
    for (let h = 0; h < later.hours; h++) expect(out[7 + h]!).toBeCloseTo(whole[cut + h]!, 4)
  })

  it('runs the member it is asked for', () => {
    const weather = weatherOf(6, (h) => ({ airTempC: 20, relHumidity: h < 3 ? 0.3 : 0.8 }))
    const drivers = { ...grainDrivers('soybean', weather, new Float32Array(6)), hours: 3, members: 2 }
    const out = new Float32Array(6)
    for (const member of [0, 1]) runGrain(drivers, member, usualParticle('soybean', 0), 12, out, member * 3)
    expect(out[2]!).toBeLessThan(12)
    expect(out[5]!).toBeGreaterThan(12)
  })

  it('knows nothing after an hour of unknown weather', () => {
    const weather = weatherOf(6, (h) => ({ airTempC: h === 3 ? Number.NaN : 20, relHumidity: 0.5 }))
    const out = new Float32Array(6)
    runGrain(grainDrivers('soybean', weather, new Float32Array(6)), 0, usualParticle('soybean', 0), 14, out)
    expect([...out].map(Number.isNaN)).toEqual([false, false, false, true, true, true])
  })
})
