import { describe, expect, it } from 'vitest'
import { drawParticles } from '#core/field/particles.ts'
import { GRAIN_PRIORS } from '#core/science/grain/priors.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { testPart } from '#tests/support/fields.ts'

const COUNT = 4000
const ZONE = 'America/Chicago'
const EPOCH = Temporal.PlainDate.from('1970-01-01')
const MATURE_ON = Temporal.PlainDate.from('2010-09-10')

const estimate = (more: Partial<MaturityEstimate> = {}): MaturityEstimate => ({
  matureOn: MATURE_ON,
  matureEpochDay: EPOCH.until(MATURE_ON, { largestUnit: 'day' }).days + 0.5,
  sdDays: 4,
  moistureWb: 57,
  moistureSdWb: 4,
  basis: '',
  remarks: [],
  ...more,
})

const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b)
const share = (values: readonly number[], p: number) => sorted(values)[Math.round(p * (values.length - 1))]!
const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length

describe('draws', () => {
  const particles = drawParticles(testPart(), estimate(), ZONE, COUNT)

  it('lie about the day of maturity, at its hour on the clock of the farm', () => {
    const noon = epochHoursOf(Temporal.Instant.from('2010-09-10T12:00-05:00'))
    const hours = particles.map(({ matureEpochH }) => matureEpochH - noon)
    expect(Math.abs(mean(hours) / 24)).toBeLessThan((4 * 4) / Math.sqrt(COUNT))
    expect(Math.sqrt(mean(hours.map((h) => (h / 24) ** 2)))).toBeCloseTo(4, 0)
  })

  it('have the median and the spread that the priors state', () => {
    const { dryingFactor, exchangeHours } = GRAIN_PRIORS.soybean
    for (const [prior, values] of [
      [dryingFactor, particles.map((p) => p.dryingFactor)],
      [exchangeHours, particles.map((p) => p.exchangeHours)],
    ] as const) {
      const logs = values.map((v) => Math.log(v / prior.mean))
      // Four standard errors of a median: 4 x 1.2533 sd / sqrt(n).
      expect(Math.abs(share(logs, 0.5))).toBeLessThan((4 * 1.2533 * prior.sd) / Math.sqrt(COUNT))
      expect(Math.sqrt(mean(logs.map((l) => l * l)))).toBeCloseTo(prior.sd, 1)
    }
  })

  it('keep two in three fields within the hours that the notes on soybean state', () => {
    const hours = particles.map((p) => p.exchangeHours)
    expect(share(hours, 1 / 6)).toBeCloseTo(9.6, 0)
    expect(share(hours, 5 / 6)).toBeCloseTo(17.5, 0)
  })

  it('never start drier than 20 %, however low the draw', () => {
    const dry = drawParticles(testPart(), estimate({ moistureWb: 21, moistureSdWb: 10 }), ZONE, COUNT)
    expect(Math.min(...dry.map((p) => p.moistureAtMaturityWb))).toBe(20)
  })
})

describe('seeds', () => {
  it('a part keeps its draws, another part has its own', () => {
    const drawn = (id: string) => drawParticles(testPart({ id }), estimate(), ZONE, 20)
    expect(drawn('alder')).toEqual(drawn('alder'))
    expect(drawn('alder')).not.toEqual(drawn('birch'))
  })

  it('a patch ripens later by its days', () => {
    const field = testPart().field
    const patch = { id: 'n', name: 'N', share: 0.1, kind: 'green', laterDays: 6, handling: 'leave' } as const
    const of = (laterDays: number) =>
      drawParticles({ key: 'alder/n', field, patch: { ...patch, laterDays }, areaHa: 4 }, estimate(), ZONE, 5)
    const [early, late] = [of(0), of(6)]
    for (let p = 0; p < 5; p++) expect(late[p]!.matureEpochH - early[p]!.matureEpochH).toBeCloseTo(6 * 24, 6)
  })

  it('a maturity that is not known makes draws that are not known', () => {
    const unknown = drawParticles(testPart(), estimate({ matureEpochDay: Number.NaN }), ZONE, 3)
    expect(unknown.every((p) => Number.isNaN(p.matureEpochH))).toBe(true)
  })
})
