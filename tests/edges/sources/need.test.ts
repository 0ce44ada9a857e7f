import { describe, expect, it } from 'vitest'
import { SourceTooThin } from '#app/failures.ts'
import { FORECAST_NEED, refuseIfThin } from '#edges/sources/need.ts'
import { plainWeather as weather } from './support/plain-weather.ts'

describe('too thin', () => {
  it.each([
    ['a quarter missing', 12, false],
    ['more than a quarter missing', 13, true],
  ])('%s of the next two days', (_, missing, refused) => {
    const w = weather(120)
    w.rainMm.fill(Number.NaN, 0, missing)
    const run = () => refuseIfThin(w, FORECAST_NEED, 'here')
    if (refused) expect(run).toThrow(SourceTooThin)
    else expect(run()).toBe(w)
  })

  it('is not what is missing after two days', () => {
    const w = weather(120)
    w.airTempC.fill(Number.NaN, 48)
    expect(refuseIfThin(w, FORECAST_NEED, 'here')).toBe(w)
  })

  it('is a series of few hours', () => {
    expect(() => refuseIfThin(weather(10), FORECAST_NEED, 'here')).toThrow(/41 % of the hours/)
    expect(refuseIfThin(weather(24), FORECAST_NEED, 'here').hours).toBe(24)
  })

  it('counts all members', () => {
    const w = weather(48, 4)
    w.windMs.fill(Number.NaN, 0, 2 * 48)
    expect(() => refuseIfThin(w, FORECAST_NEED, 'here')).toThrow(/wind is known in only 50 %/)
  })
})
