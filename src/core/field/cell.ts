/** What depends on the weather of a place alone, computed once and shared by its fields. */

import type { Field } from '#core/operation/farm.ts'
import { hourlyReferenceEtMm } from '#core/science/air/evapotranspiration.ts'
import type { CropName } from '#core/science/crop.ts'
import type { SoilDrivers } from '#core/science/engine/courses.ts'
import { type GrainDrivers, grainDrivers } from '#core/science/grain/exchange.ts'
import { infiltratedRain } from '#core/science/soil/runoff.ts'
import { type CropCover, curveNumberOf, type HydrologicGroup, hydrologicGroup } from '#core/science/soil/textures.ts'
import { canopyWater } from '#core/science/wetness/canopy-water.ts'
import { strawToughness } from '#core/science/wetness/cutting.ts'
import type { Weather } from '#core/units/weather.ts'

export interface CropDrivers {
  readonly grain: GrainDrivers
  /** Water on the plants at the end of each hour [mm]. */
  readonly waterMm: Float32Array
  /** 0 cuts freely, 1 too tough. */
  readonly toughness: Float32Array
}

/** Weather of a place with the drivers made from it, each made when first asked for. */
export class Cell {
  readonly weather: Weather
  readonly #before: Cell | undefined
  readonly #crops = new Map<CropName, CropDrivers>()
  readonly #soils = new Map<string, SoilDrivers>()
  #etMm: Float32Array | undefined

  /** @param before the stretch that ends where this one starts: water on the plants carries over. */
  constructor(weather: Weather, before?: Cell) {
    this.weather = weather
    this.#before = before
  }

  crop(crop: CropName): CropDrivers {
    const made = this.#crops.get(crop)
    if (made) return made
    const startMm = this.#before?.crop(crop).waterMm.at(-1)
    const { waterMm } = canopyWater(this.weather, crop, startMm)
    const drivers: CropDrivers = {
      waterMm,
      grain: grainDrivers(crop, this.weather, waterMm),
      toughness: strawToughness(this.weather, crop, waterMm),
    }
    this.#crops.set(crop, drivers)
    return drivers
  }

  soil(field: Field): SoilDrivers {
    const cover: CropCover = SMALL_GRAINS.has(field.crop) ? 'small-grain' : 'row-crop'
    const group: HydrologicGroup = hydrologicGroup(field.soil.texture, field.soil.drainage)
    const key = `${cover}/${group}`
    const made = this.#soils.get(key)
    if (made) return made
    this.#etMm ??= hourlyReferenceEtMm(this.weather)
    const infiltrationMm = infiltratedRain(this.weather.rainMm, this.weather.hours, curveNumberOf(cover, group))
    const drivers: SoilDrivers = { infiltrationMm, etMm: this.#etMm }
    this.#soils.set(key, drivers)
    return drivers
  }
}

const SMALL_GRAINS: ReadonlySet<CropName> = new Set([
  'wheat-soft',
  'wheat-hard',
  'wheat-durum',
  'barley',
  'oats',
  'canola',
])
