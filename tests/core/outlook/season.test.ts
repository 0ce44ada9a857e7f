import { describe, expect, it } from 'vitest'
import type { Outlook } from '#core/outlook/outlook.ts'
import { areFew, likelyDates, likelyRipe, seasonAhead } from '#core/outlook/season.ts'
import { growMembers } from '#core/science/spread/grow-members.ts'
import type { Weather } from '#core/units/weather.ts'
import { CHAMPAIGN_YEARS } from '#tests/support/champaign.ts'
import { autumnOf, cut, trialForecast } from '#tests/support/trial-forecasts.ts'

const AHEAD_H = 240
const SEASON_H = 45 * 24
const MEMBERS = 54

function aheadOf(year: number, fromH: number): { readonly ahead: Weather; readonly others: Weather[] } {
  const { forecast } = trialForecast(year, fromH, AHEAD_H, year)
  const ahead = growMembers(forecast, { members: MEMBERS, seed: year, usualRainDayShare: 0.29, ageH: 0 })
  // As if all other autumns had been before this one: what is checked is the spread, not the trend.
  const others = CHAMPAIGN_YEARS.filter((other) => other !== year).map((other) =>
    moved(autumnOf(other), year - 28, other),
  )
  return { ahead, others }
}

/** The autumn of a year, dated into an earlier one. */
function moved(autumn: Weather, baseYear: number, year: number): Weather {
  const to = baseYear - (CHAMPAIGN_YEARS.at(-1)! - year)
  const days = Temporal.PlainDate.from({ year, month: 7, day: 1 }).until({ year: to, month: 7, day: 1 }).days
  return { ...autumn, startEpochH: autumn.startEpochH + days * 24 }
}

const { ahead, others } = aheadOf(2009, 70 * 24)
const { weather: season, years } = seasonAhead(ahead, others, ahead.startEpochH + SEASON_H, 3)!

describe('the season ahead', () => {
  it('starts with the forecast, member by member, untouched', () => {
    expect(season.hours).toBe(SEASON_H)
    for (const name of ['airTempC', 'relHumidity', 'rainMm', 'windMs', 'solarWm2'] as const)
      for (let m = 0; m < MEMBERS; m++)
        for (let h = 0; h < AHEAD_H; h++) expect(season[name][m * SEASON_H + h]).toBe(ahead[name][m * AHEAD_H + h])
  })

  it('runs on without a step: no jump at the seam larger than hours bring anyway', () => {
    let largest = 0
    for (let m = 0; m < MEMBERS; m++) {
      const at = m * SEASON_H + AHEAD_H
      largest = Math.max(largest, Math.abs(season.airTempC[at]! - season.airTempC[at - 1]!))
    }
    // Hourly changes at Champaign reach 8 deg C and more behind fronts.
    expect(largest).toBeLessThan(6)
  })

  it('keeps the hour of the day: nights are dark, noons bright', () => {
    let [night, noon] = [0, 0]
    for (let day = 12; day < 45; day++) {
      // Local standard time is UTC-6; the forecast starts at local midnight.
      night += season.solarWm2[day * 24 + 1]!
      noon += season.solarWm2[day * 24 + 12]!
    }
    expect(night / 33).toBeLessThan(0.1)
    expect(noon / 33).toBeGreaterThan(250)
  })

  it('has nothing to say without a year that covers it, and says when years are few', () => {
    expect(seasonAhead(ahead, [], ahead.startEpochH + SEASON_H, 3)).toBeUndefined()
    expect(seasonAhead(ahead, [cut(others[0]!, 0, 500)], ahead.startEpochH + SEASON_H, 3)).toBeUndefined()
    const few = seasonAhead(ahead, others.slice(0, 3), ahead.startEpochH + SEASON_H, 3)!
    expect([few.years, areFew(few.years), years, areFew(years)]).toEqual([3, true, 27, false])
    expect(few.weather.provenance.remarks.at(-1)).toMatch(/3 past years, too few/)
    expect(season.provenance.remarks.at(-1)).toMatch(/27 past years\./)
  })

  it('finds every year in one long record as well', () => {
    const start = others[0]!.startEpochH
    const hours = 366 * 24 * 3
    const record: Weather = { ...others[0]!, startEpochH: start, hours, ...repeated(others[0]!, hours) }
    expect(seasonAhead(ahead, [record], ahead.startEpochH + SEASON_H, 3)!.weather.provenance.remarks.at(-1)).toMatch(
      /3 past years/,
    )
  })

  it('gives the same bytes for the same seed', () => {
    expect(seasonAhead(ahead, others, ahead.startEpochH + SEASON_H, 3)!.weather.airTempC).toEqual(season.airTempC)
  })
})

function repeated(weather: Weather, hours: number) {
  const again = (values: Float32Array) => Float32Array.from({ length: hours }, (_, h) => values[h % weather.hours]!)
  return {
    airTempC: again(weather.airTempC),
    relHumidity: again(weather.relHumidity),
    rainMm: again(weather.rainMm),
    windMs: again(weather.windMs),
    gustMs: again(weather.gustMs),
    windFromDeg: again(weather.windFromDeg),
    solarWm2: again(weather.solarWm2),
  }
}

describe('on 28 autumns, each against the other 27', () => {
  const measures: Record<string, (weather: Weather, first: number) => number> = {
    rain: (weather, first) => sum(weather.rainMm, first),
    warmth: (weather, first) => sum(weather.airTempC, first) / (SEASON_H - AHEAD_H),
    'drying days': (weather, first) => {
      let days = 0
      for (let from = first; from < first + SEASON_H - AHEAD_H; from += 24) {
        let dry = 0
        let rain = 0
        for (let h = from; h < from + 24; h++) {
          if (weather.relHumidity[h]! < 0.6) dry++
          rain += weather.rainMm[h]!
        }
        if (dry >= 4 && !(rain >= 0.25)) days++
      }
      return days
    },
  }
  const sum = (values: Float32Array, first: number) => {
    let total = 0
    for (let h = first; h < first + SEASON_H - AHEAD_H; h++) total += values[h]! || 0
    return total
  }
  const inside: Record<string, number> = {}
  let cases = 0
  for (const year of CHAMPAIGN_YEARS) {
    for (const fromH of [62 * 24, 90 * 24]) {
      const { ahead: said, others: past } = aheadOf(year, fromH)
      const { weather: scenarios } = seasonAhead(said, past, said.startEpochH + SEASON_H, year)!
      const came = autumnOf(year)
      cases++
      for (const [name, measure] of Object.entries(measures)) {
        const values = Array.from({ length: MEMBERS }, (_, m) => measure(scenarios, m * SEASON_H + AHEAD_H)).sort(
          (a, b) => a - b,
        )
        const truth = measure(came, fromH + AHEAD_H)
        const isInside = truth >= values[Math.floor(0.1 * MEMBERS)]! && truth <= values[Math.ceil(0.9 * MEMBERS) - 1]!
        inside[name] = (inside[name] ?? 0) + (isInside ? 1 : 0)
      }
    }
  }
  it.each(['rain', 'warmth', 'drying days'])(
    '%s of five weeks lies in the middle four fifths about as often',
    (name) => {
      const share = inside[name]! / cases
      if (process.env.SHOW_TABLE) process.stdout.write(`${name}: ${share.toFixed(2)} of ${cases}\n`)
      // Two and a half standard errors of 56 cases that are not all independent.
      expect(share).toBeGreaterThan(0.66)
      expect(share).toBeLessThan(0.94)
    },
  )
})

describe('likely dates', () => {
  const outlook = (firstFitDay: readonly number[]): Outlook =>
    ({
      courses: firstFitDay.length,
      hours: 30 * 24,
      startEpochH: Temporal.Instant.from('2026-10-01T05:00Z').epochMilliseconds / 3_600_000,
      holdbackBits: Uint16Array.from(
        firstFitDay.flatMap((day) =>
          Array.from({ length: 30 * 24 }, (_, h) => (Math.floor(h / 24) >= day && h % 24 >= 11 && h % 24 < 17 ? 0 : 4)),
        ),
      ),
    }) as unknown as Outlook

  it('are the first days with four fit hours, by share of the courses', () => {
    const dates = likelyDates(outlook([1, 2, 3, 4, 5, 6, 7, 8, 9, 29]), 'America/Chicago')
    expect(dates.chance).toBe(1)
    expect(`${dates.early} ${dates.middle} ${dates.late}`).toBe('2026-10-02 2026-10-06 2026-10-10')
  })

  it('count from an hour on where they are asked for behind it', () => {
    const start = Temporal.Instant.from('2026-10-01T05:00Z').epochMilliseconds / 3_600_000
    const dates = likelyDates(outlook([1, 2, 3, 4, 5, 6, 7, 8, 9, 29]), 'America/Chicago', start + 5 * 24)
    // Courses fit before the sixth are so on the sixth again.
    expect(`${dates.early} ${dates.middle} ${dates.late}`).toBe('2026-10-06 2026-10-06 2026-10-10')
    expect(likelyDates(outlook([1, 1]), 'America/Chicago', start + 40 * 24).chance).toBe(0)
  })

  it('of ripeness are those of the particles; what is not known is no date', () => {
    const day = (n: number) => Temporal.Instant.from('2026-10-01T18:00Z').epochMilliseconds / 3_600_000 + n * 24
    const ripe = likelyRipe(
      [3, 1, 2, 5, 4, 9, 8, 7, 6, 0].map((n) => ({ matureEpochH: day(n) })),
      'America/Chicago',
    )
    expect(`${ripe.early} ${ripe.middle} ${ripe.late} ${ripe.chance}`).toBe('2026-10-01 2026-10-05 2026-10-09 1')
    const half = likelyRipe([{ matureEpochH: day(0) }, { matureEpochH: Number.NaN }], 'America/Chicago')
    expect([half.chance, half.late]).toEqual([0.5, undefined])
  })

  it('that do not come within the outlook are not named', () => {
    const dates = likelyDates(outlook([1, 2, 3, 99, 99, 99, 99, 99, 99, 99]), 'America/Chicago')
    expect(dates.chance).toBeCloseTo(0.3, 9)
    expect(dates.early).toBeDefined()
    expect(dates.middle).toBeUndefined()
    expect(dates.late).toBeUndefined()
  })
})
