import { describe, expect, test } from 'vitest'
import type { Drainage, SoilTexture } from '#core/operation/farm.ts'
import {
  curveNumberOf,
  DRAINAGE_DELAY,
  hydrologicGroup,
  SOIL_TEXTURES,
  SOIL_WATER,
} from '#core/science/soil/textures.ts'
import { FAO56_TABLE_19, TR55_TABLE_2_2B } from '#tests/truth/soil.ts'

describe('soil water by texture', () => {
  test.each(FAO56_TABLE_19)('$texture lies inside FAO-56 Table 19', ({ texture, ...ranges }) => {
    const water = SOIL_WATER[texture]
    for (const key of ['fieldCapacity', 'wiltingPoint', 'rewMm'] as const) {
      expect(water[key]).toBeGreaterThanOrEqual(ranges[key][0])
      expect(water[key]).toBeLessThanOrEqual(ranges[key][1])
    }
  })

  test('every texture holds more when full than at field capacity, and more then than at wilting', () => {
    for (const texture of SOIL_TEXTURES) {
      const { fieldCapacity, wiltingPoint, porosity } = SOIL_WATER[texture]
      expect(porosity).toBeGreaterThan(fieldCapacity)
      expect(fieldCapacity).toBeGreaterThan(wiltingPoint)
    }
  })

  test('the names are those of the farm file', () => {
    const farmTextures: readonly SoilTexture[] = SOIL_TEXTURES
    const farmDrainage = Object.keys(DRAINAGE_DELAY) as Drainage[]
    expect(farmTextures).toHaveLength(9)
    expect(farmDrainage).toEqual(expect.arrayContaining(['well', 'moderate', 'poor', 'tiled']))
  })
})

describe('runoff classes', () => {
  test('curve numbers are those of TR-55 Table 2-2b', () => {
    for (const cover of ['row-crop', 'small-grain'] as const) {
      expect((['A', 'B', 'C', 'D'] as const).map((group) => curveNumberOf(cover, group))).toEqual(
        TR55_TABLE_2_2B[cover],
      )
    }
  })

  // TR-55 appendix A, by texture, from memory: sands A, loams and silt loams B, clays D.
  test.each([
    ['sandy-loam', 'well', 'A'],
    ['silt-loam', 'well', 'B'],
    ['clay', 'well', 'D'],
    ['silt-loam', 'poor', 'D'],
    ['silt-loam', 'tiled', 'B'],
    ['silt-loam', 'moderate', 'C'],
  ] as const)('%s, %s drained, is group %s', (texture, drainage, group) => {
    expect(hydrologicGroup(texture, drainage)).toBe(group)
  })
})
