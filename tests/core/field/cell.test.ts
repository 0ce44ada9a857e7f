import { describe, expect, it } from 'vitest'
import { Cell } from '#core/field/cell.ts'
import { canopyWater } from '#core/science/wetness/canopy-water.ts'
import { testField } from '#tests/support/fields.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const START = 357_000
const rainyEnd = plainWeather({ startEpochH: START, hours: 24, set: { rainMm: (_, h) => (h === 23 ? 8 : 0) } })
/** Dull and damp: what lies on the plants stays for hours. */
const dull = plainWeather({ startEpochH: START + 24, hours: 24, set: { solarWm2: 20, relHumidity: 0.9, windMs: 1 } })

describe('drivers of a place', () => {
  it('are made once per crop and per kind of ground, and shared', () => {
    const cell = new Cell(dull)
    expect(cell.crop('soybean')).toBe(cell.crop('soybean'))
    expect(cell.crop('corn')).not.toBe(cell.crop('soybean'))
    const loam = testField({ id: 'a' })
    expect(cell.soil(loam)).toBe(cell.soil(testField({ id: 'b' })))
    expect(cell.soil(loam)).not.toBe(cell.soil(testField({ crop: 'wheat-soft' })))
    expect(cell.soil(loam).etMm).toBe(cell.soil(testField({ crop: 'wheat-soft' })).etMm)
  })

  it('carry the water on the plants over from the stretch before', () => {
    const before = new Cell(rainyEnd)
    const lying = before.crop('soybean').waterMm.at(-1)!
    expect(lying).toBeGreaterThan(0.1)
    const after = new Cell(dull, before).crop('soybean').waterMm
    expect([...after]).toEqual([...canopyWater(dull, 'soybean', lying).waterMm])
    expect(after[0]).toBeGreaterThan(new Cell(dull).crop('soybean').waterMm[0]!)
  })

  it('start dry after a stretch without hours', () => {
    const empty = new Cell(plainWeather({ startEpochH: START + 24, hours: 0 }))
    expect([...new Cell(dull, empty).crop('soybean').waterMm]).toEqual([...new Cell(dull).crop('soybean').waterMm])
  })
})
