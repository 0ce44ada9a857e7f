import { describe, expect, it } from 'vitest'
import { hoursBetween, laidBetween, memberOf, sharedHours } from '#core/units/weather-hours.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

/** Each value tells its member and hour. */
const two = plainWeather({ startEpochH: 100, hours: 5, members: 2, set: { airTempC: (m, h) => 10 * m + h } })

describe('some hours of a weather', () => {
  it('are those of every member', () => {
    const { startEpochH, hours, members, airTempC } = hoursBetween(two, 102, 104)
    expect([startEpochH, hours, members, [...airTempC]]).toEqual([102, 2, 2, [2, 3, 12, 13]])
  })

  it('are unknown where it has none, on either side', () => {
    expect([...hoursBetween(two, 98, 102).airTempC]).toEqual([NaN, NaN, 0, 1, NaN, NaN, 10, 11])
    expect([...hoursBetween(two, 103, 106).airTempC]).toEqual([3, 4, NaN, 13, 14, NaN])
    expect([...hoursBetween(two, 110, 112).airTempC]).toEqual([NaN, NaN, NaN, NaN])
  })

  it('are none from an hour to one before it', () => {
    const none = hoursBetween(two, 103, 101)
    expect([none.startEpochH, none.hours, none.airTempC.length]).toEqual([103, 0, 0])
  })

  it('are no more than it has where only shared ones are wanted', () => {
    const shared = sharedHours(two, 90, 102)!
    expect([shared.startEpochH, shared.hours]).toEqual([100, 2])
    expect(sharedHours(two, 105, 110)).toBeUndefined()
    expect(sharedHours(two, 90, 100)).toBeUndefined()
  })
})

it('lays pieces end to end, a later one over an earlier, with a gap left unknown', () => {
  const piece = (startEpochH: number, airTempC: number) => plainWeather({ startEpochH, hours: 3, set: { airTempC } })
  const laid = laidBetween([piece(99, 1), piece(101, 2), piece(106, 3)], 100, 108)
  expect([...laid.airTempC]).toEqual([1, 2, 2, 2, NaN, NaN, 3, 3])
})

it('takes one member out, as the only one', () => {
  const { startEpochH, hours, members, airTempC } = memberOf(two, 1)
  expect([startEpochH, hours, members, [...airTempC]]).toEqual([100, 5, 1, [10, 11, 12, 13, 14]])
})
