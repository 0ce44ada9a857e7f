import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dewTimes, rainAhead, rainChanceBetween, windThrough } from '#core/outlook/day-weather.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const CHICAGO = 'America/Chicago'
const DATE = Temporal.PlainDate.from('2010-09-30')
/** Local midnight at the farm; sunrise there is at about 6:47. */
const MIDNIGHT = epochHoursOf(Temporal.Instant.from('2010-09-30T05:00Z'))

const weather = (more: Parameters<typeof plainWeather>[0]['set'] = {}, members = 1, hours = 48) =>
  plainWeather({ startEpochH: MIDNIGHT, hours, members, set: more })

/** Water on the plants by member and hour of the day [mm]. */
const water = (members: number, hours: number, at: (member: number, hour: number) => number) =>
  Float32Array.from({ length: members * hours }, (_, i) => at(Math.floor(i / hours), i % hours))

const dew = (at: (member: number, hour: number) => number, set = {}, members = 1) =>
  dewTimes(weather(set, members), water(members, 48, at), DATE, CHICAGO)

describe('dew', () => {
  it('comes off and back: the median of the members', () => {
    // Wet until 8:00, 9:00 and 11:00, wet again at 20:00, 21:00 and 22:00 [h of the day, end of the hour].
    const [off, on] = [
      [8, 9, 11],
      [20, 21, 22],
    ]
    const said = dew((m, h) => (h + 1 < off![m]! || h + 1 > on![m]! ? 0.2 : 0), {}, 3)
    expect(said.kind).toBe('dries')
    expect(said.offEpochH - MIDNIGHT).toBeGreaterThan(8)
    expect(said.offEpochH - MIDNIGHT).toBeLessThanOrEqual(9)
    expect(said.onEpochH - MIDNIGHT).toBeGreaterThanOrEqual(21)
    expect(said.onEpochH - MIDNIGHT).toBeLessThan(22)
    expect([said.rainBefore, said.rainAfter]).toEqual([false, false])
  })

  it('is not waited for on a dry morning, wherever the evening ends', () => {
    const dry = dew(() => 0)
    expect([dry.kind, dry.offEpochH, dry.onEpochH]).toEqual(['dry', Number.NaN, Number.NaN])
    const evening = dew((_, h) => (h >= 20 ? 0.2 : 0))
    expect(evening.kind).toBe('dry')
    expect(Math.floor(evening.onEpochH - MIDNIGHT)).toBe(20)
  })

  it('that never comes off is told as wet, not as no dew', () => {
    const wet = dew(() => 0.3)
    expect([wet.kind, wet.rainBefore]).toEqual(['wet', false])
    expect(dew(() => 0.3, { rainMm: 0.4 }).rainBefore).toBe(true)
  })

  it('is told apart from rain, before and after', () => {
    const set = { rainMm: (_: number, h: number) => (h === 8 || h === 18 ? 3 : 0) }
    const said = dew((_, h) => (h < 12 || h >= 18 ? 0.3 : 0), set)
    expect(said).toMatchObject({ kind: 'dries', rainBefore: true, rainAfter: true })
    expect(Math.floor(said.onEpochH - MIDNIGHT)).toBe(18)
  })

  it('is not known when the water is not known, and nothing is waited for when the day is over', () => {
    expect(dew(() => Number.NaN).kind).toBe('unknown')
    const late = plainWeather({ startEpochH: MIDNIGHT + 24, hours: 24 })
    expect(dewTimes(late, new Float32Array(24), DATE, CHICAGO).kind).toBe('dry')
  })

  it('of tomorrow is left for tomorrow', () => {
    expect(dew((_, h) => (h >= 26 ? 0.2 : 0)).onEpochH).toBeNaN()
  })
})

describe('rain ahead', () => {
  const raining = (share: number, members: number, from: number, length: number, mm = 1) =>
    weather({ rainMm: (m, h) => (m < share * members && h >= from && h < from + length ? mm : 0) }, members, 240)

  it('names the day with its chance, its start and its amount', () => {
    expect(rainAhead(raining(0.4, 10, 60, 5))).toEqual({
      kind: 'expected',
      startEpochH: MIDNIGHT + 60,
      chance: 0.4,
      amountMm: 5,
    })
  })

  it('says the whole chance of a rain whose start is spread over a day, not that of its first edge', () => {
    const spread = weather({ rainMm: (m, h) => (h === 60 + 2 * m ? 4 : 0) }, 10, 240)
    expect(rainAhead(spread)).toMatchObject({ kind: 'expected', chance: 1 })
  })

  it('is none in sight below three in ten, below a millimetre a day, and below a gauge in an hour', () => {
    const none = { kind: 'none-in-sight', untilEpochH: MIDNIGHT + 240 }
    expect(rainAhead(raining(0.2, 10, 60, 5))).toEqual(none)
    expect(rainAhead(raining(1, 10, 60, 1, 0.9))).toEqual(none)
    expect(rainAhead(raining(1, 10, 60, 24, 0.2))).toEqual(none)
  })

  it('tells the nearer of two rains, as far as it stands by itself', () => {
    const two = weather({ rainMm: (m, h) => (h === 20 && m < 5 ? 3 : h === 150 ? 9 : 0) }, 10, 240)
    expect(rainAhead(two)).toMatchObject({ chance: 0.5, startEpochH: MIDNIGHT + 20 })
  })

  it('looks as far as the rain is known; nothing known is not no rain', () => {
    const tail = weather({ rainMm: (_, h) => (h < 100 ? 0 : Number.NaN) }, 2, 240)
    expect(rainAhead(tail)).toEqual({ kind: 'none-in-sight', untilEpochH: MIDNIGHT + 100 })
    expect(rainAhead(weather({ rainMm: Number.NaN }))).toEqual({ kind: 'unknown' })
    expect(rainAhead(weather({ rainMm: (_, h) => (h < 5 ? 0 : Number.NaN) }))).toEqual({ kind: 'unknown' })
    expect(rainAhead(weather({}, 1, 0))).toEqual({ kind: 'unknown' })
  })

  it('still speaks when the record ends within a day', () => {
    expect(rainAhead(weather({}, 1, 5))).toEqual({ kind: 'none-in-sight', untilEpochH: MIDNIGHT + 5 })
  })

  it('within three days is the share of members with a millimetre in them', () => {
    const within = (of: Weather, from = MIDNIGHT, to = MIDNIGHT + 72) => rainChanceBetween(of, from, to)
    expect(within(raining(0.3, 10, 70, 3))).toBeCloseTo(0.3, 12)
    expect(within(raining(0.3, 10, 72, 3))).toBe(0)
    expect(within(raining(0.3, 10, 72, 3), MIDNIGHT + 24, MIDNIGHT + 96)).toBeCloseTo(0.3, 12)
    expect(within(raining(0.3, 10, 2, 3), MIDNIGHT + 24, MIDNIGHT + 96)).toBe(0)
  })

  it('is not known where the rain is not, or beyond what is in sight', () => {
    expect(rainChanceBetween(weather({ rainMm: Number.NaN }), MIDNIGHT, MIDNIGHT + 72)).toBeNaN()
    expect(rainChanceBetween(weather({}, 2, 48), MIDNIGHT, MIDNIGHT + 72)).toBeNaN()
    expect(rainChanceBetween(weather({}, 2, 48), MIDNIGHT - 1, MIDNIGHT + 10)).toBeNaN()
  })
})

describe('wind through a span', () => {
  it('is the median member by hour, and the range over the hours', () => {
    const set = { windMs: (m: number, h: number) => m + h, windFromDeg: 90 }
    const wind = windThrough(weather(set, 3), MIDNIGHT + 2, MIDNIGHT + 5)
    expect([wind.windLowMs, wind.windHighMs, wind.meanWindMs]).toEqual([3, 5, 4])
    expect(wind.windFromDeg).toBeCloseTo(90, 6)
  })

  it('from around north is north, not south: directions are joined as vectors', () => {
    const around = windThrough(weather({ windFromDeg: (_, h) => (h % 2 === 0 ? 350 : 10) }), MIDNIGHT, MIDNIGHT + 4)
    expect(Math.min(around.windFromDeg, 360 - around.windFromDeg)).toBeLessThan(1e-3)
  })

  it('without direction has none', () => {
    expect(windThrough(weather({ windFromDeg: Number.NaN }), MIDNIGHT, MIDNIGHT + 4).windFromDeg).toBeNaN()
  })

  it('of a span shorter than an hour is that of its hour', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 46, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (from, length) => {
          const wind = windThrough(weather(), MIDNIGHT + from, MIDNIGHT + from + length)
          expect([wind.windLowMs, wind.windHighMs]).toEqual([4, 4])
        },
      ),
    )
  })
})
