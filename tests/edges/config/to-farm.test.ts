import { resolve } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Farm } from '#core/operation/farm.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { parseFarm } from '#edges/config/load.ts'
import { fromSi, type Quantity, toSi, unitOf } from '#edges/config/units.ts'
import {
  BUSHELS_PER_TONNE,
  KG_HA_PER_BU_ACRE,
  QUARTER_SECTION_ACRES,
  YIELD_ROUNDING,
} from '#tests/truth/grain-conversions.ts'
import { BASE, spoiled } from './base-farm.ts'

const farmOf = (text: string): Farm => parseFarm(text, 'some/where/farm.yaml').farm
const close = (value: number, expected: number, share = 1e-5) =>
  expect(Math.abs(value / expected - 1), `${value} against ${expected}`).toBeLessThan(share)

describe('a farm file in US units', () => {
  const farm = farmOf(BASE)
  const [alpha, beta] = farm.fields
  const [river, hill] = farm.buyers

  it('turns yields into tonnes a hectare by the published factors', () => {
    close(alpha!.usualYieldTHa, (54 * KG_HA_PER_BU_ACRE.soybean) / 1000, YIELD_ROUNDING)
    close(beta!.usualYieldTHa, (180 * KG_HA_PER_BU_ACRE.corn) / 1000, YIELD_ROUNDING)
  })

  it('turns prices, drying and daily limits by the published bushels of a tonne', () => {
    close(river!.terms[0]!.pricePerT, 10 * BUSHELS_PER_TONNE.soybean)
    close(hill!.terms[0]!.pricePerT, 4.5 * BUSHELS_PER_TONNE.corn)
    close(hill!.terms[0]!.dryingPerTPoint, 0.04 * BUSHELS_PER_TONNE.corn)
    close(river!.dailyT!, 40000 / BUSHELS_PER_TONNE.soybean)
    expect(hill!.dailyT).toBeUndefined()
  })

  it('turns lengths, speeds and volumes by the exact definitions (NIST Handbook 44, appendix C)', () => {
    const combine = farm.outfits[0]!.combines[0]!
    expect(combine.heads[0]!.widthM).toBeCloseTo(10.668, 9)
    expect(combine.heads[0]!.speedMs).toBeCloseTo(1.78816, 9)
    expect(combine.tankL).toBeCloseTo(10571.721, 3)
    expect(combine.unloadLPerS).toBeCloseTo(105.717, 3)
    expect(farm.outfits[0]!.trucks[0]!.roadSpeedMs).toBeCloseTo(16.98752, 9)
    expect(farm.home.elevationM).toBeCloseTo(213.36, 9)
    expect(alpha!.haulKm).toBeCloseTo(9.656064, 9)
    expect(beta!.areaHa).toBeCloseTo(48.5622770688, 9)
    expect(farm.fireRules.careGustMs).toBeCloseTo(11.176, 9)
  })

  it('expands what there is several of, and keeps single names as they are', () => {
    expect(farm.outfits[0]!.combines.map(({ name }) => name)).toEqual(['Red 1', 'Red 2'])
    expect(farm.outfits[0]!.trucks.map(({ name }) => name)).toEqual(['Semi'])
  })

  it('resolves references, makes ids and fills what was left out', () => {
    expect(farm.id).toBe('test-farm')
    expect(alpha!.buyerId).toBe('river-house')
    expect(beta!.buyerId).toBe('hill-house')
    expect(beta!.band).toEqual(CROP_TRADE.corn.band)
    expect(alpha!.band).toEqual({ lowWb: 10.5, highWb: 13.5 })
    expect(alpha!.followsWheat).toBe(false)
    expect(beta!.patches).toEqual([])
    expect(farm.people.map(({ language }) => language)).toEqual(['en', 'es'])
    expect(hill!.closedOn).toEqual([])
    expect(river!.closedOn).toEqual([6, 7])
    expect(hill!.terms[0]!.dockPerPoint).toBe(0)
    expect(farm.weather).toEqual([{ kind: 'national-us' }, { kind: 'global' }])
  })

  it('takes the share of a patch from its outline, and keeps it', () => {
    // The western half of the field by its corners.
    const ring = [
      [-88.13, 40],
      [-88.125, 40],
      [-88.125, 40.01],
      [-88.13, 40.01],
      [-88.13, 40],
    ]
    const drawn = `outline: { type: Polygon, coordinates: [${JSON.stringify(ring)}] },`
    const [swale, hole] = farmOf(BASE.replace('share: 0.1,', drawn)).fields[0]!.patches
    expect(swale!.share).toBeCloseTo(0.5, 9)
    expect(swale!.outline).toEqual(ring)
    expect(hole).toMatchObject({ share: 0.2 })
    expect(hole!.outline).toBeUndefined()
  })

  it('plans as is usual unless told, and reads what is told', () => {
    expect(farm.planning).toEqual({ outfitsPerField: 2, fieldsPerDay: 4 })
    const said = 'planning: { outfits_per_field: 3, caution: { weight: 0.4 } }\nfire:'
    expect(farmOf(BASE.replace('\nfire:', `\n${said}`)).planning).toEqual({
      outfitsPerField: 3,
      fieldsPerDay: 4,
      aversion: { weight: 0.4, tail: 0.2 },
    })
  })

  it('reads times as minutes and humidity as a share', () => {
    expect(farm.morning).toEqual({ minute: 315, weatherAgeLimitH: 10 })
    const morning = (entry: string) => farmOf(BASE.replace('at: "05:15", weather_age_limit: 10', entry)).morning
    expect(morning('before_window: 90')).toEqual({
      minute: 480,
      weatherAgeLimitH: 12,
      beforeRun: { leadMinutes: 90, earliestMinute: 240 },
    })
    expect(morning('before_window: 90, earliest: "05:00", at: "09:00", evening: "19:30"')).toMatchObject({
      minute: 540,
      beforeRun: { leadMinutes: 90, earliestMinute: 300 },
      eveningMinute: 1170,
    })
    expect(morning('evening: "19:30"')).toEqual({ minute: 330, weatherAgeLimitH: 12, eveningMinute: 1170 })
    expect(farm.outfits[0]!.crewHours).toEqual({ startMinute: 480, endMinute: 1320 })
    expect(farm.people[0]!.quietHours).toEqual({ startMinute: 1260, endMinute: 300 })
    expect(farm.fireRules.careRelHumidity).toBe(0.25)
    expect(farm.fireRules.bans[0]!.from.toString()).toBe('2010-09-20')
  })

  it('computes the area of a drawn field, unless the farm states it', () => {
    const half = 2640 * 0.3048
    // Half a mile square at 40 N by the published length of a degree there: 111.035 km and 85.394 km (from memory).
    const [dLat, dLon] = [half / 111035, half / 85394]
    const ring = [
      [-88.13, 40],
      [-88.13 + dLon, 40],
      [-88.13 + dLon, 40 + dLat],
      [-88.13, 40 + dLat],
      [-88.13, 40],
    ]
    const drawn = spoiled(
      '[[[-88.13, 40.0], [-88.12, 40.0], [-88.12, 40.01], [-88.13, 40.01], [-88.13, 40.0]]]',
      JSON.stringify([ring]),
    )
    close(fromSi(farmOf(drawn).fields[0]!.areaHa, 'area', 'us'), QUARTER_SECTION_ACRES, 1e-4)
    const stated = drawn.replace('    boundary:\n', '    area: 158\n    boundary:\n')
    expect(fromSi(farmOf(stated).fields[0]!.areaHa, 'area', 'us')).toBeCloseTo(158, 9)
  })

  it('keeps maturity group 00 apart from 0', () => {
    const group = (text: string) => farmOf(spoiled('maturity_group: 2.7', `maturity_group: ${text}`)).fields[0]
    expect(group('00')!.maturityGroup).toBe(-1)
    expect(group('"00"')!.maturityGroup).toBe(-1)
    expect(group('00.5')!.maturityGroup).toBeCloseTo(-0.5, 9)
    expect(group('0')!.maturityGroup).toBe(0)
    expect(group('0.5')!.maturityGroup).toBe(0.5)
  })

  it('folds the bearing of rows into half a turn', () => {
    const bearing = (text: string) => farmOf(spoiled('rows: 10', `rows: ${text}`)).fields[0]!.rowBearingDeg
    expect(bearing('270')).toBe(90)
    expect(bearing('180')).toBe(0)
    expect(bearing('360')).toBe(0)
  })

  it('finds the recorded file beside the farm file', () => {
    const text = BASE.replace(
      '  - use: national-us\n  - use: global\n',
      `  - { use: recorded, file: past.csv, day: 2010-09-28, time: '05:30', credit: C, licence: MIT }\n`,
    )
    expect(farmOf(text).weather).toEqual([
      {
        kind: 'recorded',
        file: resolve('some/where/past.csv'),
        clock: Temporal.PlainDateTime.from('2010-09-28T05:30'),
        credit: 'C',
        licence: 'MIT',
      },
    ])
  })

  it('finds a file of earlier years beside it too, and takes a source of the past beside forecasts', () => {
    const recorded =
      "{ use: recorded, file: a.csv, years: b.csv, day: 2010-09-28, time: '05:30', credit: C, licence: MIT }"
    const text = BASE.replace('  - use: national-us\n  - use: global\n', `  - ${recorded}\n`)
    expect(farmOf(text).weather[0]).toMatchObject({ years: resolve('some/where/b.csv') })
    expect(farmOf(spoiled('- use: global', '- use: global-history')).weather[1]).toEqual({ kind: 'global-history' })
  })

  it('takes an open aggregator only with consent', () => {
    const text = (consent: string) => spoiled('- use: global', `- { use: open-aggregator, consent: ${consent} }`)
    expect(farmOf(text('true')).weather[1]).toEqual({ kind: 'open-aggregator' })
    expect(() => farmOf(text('false'))).toThrow(/read its terms of use/)
    const own = (server: string) =>
      spoiled('- use: global', `- { use: open-aggregator, consent: true, server: "${server}" }`)
    expect(farmOf(own('https://weather.example.org/v1')).weather[1]).toEqual({
      kind: 'open-aggregator',
      server: 'https://weather.example.org/v1/',
    })
    for (const wrong of [
      'weather.example.org',
      'ftp://weather.example.org/',
      'https://a:b@example.org/',
      'https://example.org/?apikey=x',
    ])
      expect(() => farmOf(own(wrong))).toThrow(/server/)
  })

  it('winds a field in two pieces with a hole by the right-hand rule', () => {
    const text = spoiled(
      `type: Polygon
      coordinates: [[[-88.13, 40.0], [-88.12, 40.0], [-88.12, 40.01], [-88.13, 40.01], [-88.13, 40.0]]]`,
      `type: MultiPolygon
      coordinates:
        - - [[-88.13, 40.0], [-88.13, 40.01], [-88.12, 40.01], [-88.12, 40.0], [-88.13, 40.0]]
          - [[-88.127, 40.002], [-88.123, 40.002], [-88.123, 40.006], [-88.127, 40.006], [-88.127, 40.002]]
        - - [[-88.11, 40.0, 200], [-88.10, 40.0, 200], [-88.10, 40.01, 200], [-88.11, 40.01, 200], [-88.11, 40.0, 200]]`,
    )
    const field = farmOf(text).fields[0]!
    expect(field.boundary!.length).toBe(3)
    close(field.areaHa, farm.fields[0]!.areaHa * (1 + 1 - 0.16), 1e-4)
    expect(field.boundary![2]![0]).toEqual([-88.11, 40])
  })
})

describe('the same farm in metric units', () => {
  const METRIC: readonly (readonly [us: string, metric: string])[] = [
    ['units: us', 'units: metric'],
    ['elevation: 700', 'elevation: 213.36'],
    ['usual_yield: 54', 'usual_yield: 3.63147'],
    ['usual_yield: 180', 'usual_yield: 11.29795'],
    ['haul: 6', 'haul: 9.656064'],
    ['haul: 7', 'haul: 11.265408'],
    ['area: 120', 'area: 48.5622770688'],
    ['tank: 300', 'tank: 10571.721'],
    ['unload: 3', 'unload: 105.71721'],
    ['width: 35, speed: 4,', 'width: 10.668, speed: 6.437376,'],
    ['width: 20, speed: 4.5', 'width: 6.096, speed: 7.242048'],
    ['size: 1000, unload: 8', 'size: 35239.07017, unload: 281.91256'],
    ['size: 950, speed: 38', 'size: 33477.11666, speed: 61.155072'],
    ['daily_limit: 40000', 'daily_limit: 1088.622'],
    ['price: 10,', 'price: 367.437,'],
    ['price: 4.5', 'price: 177.15555'],
    ['drying: 0.04', 'drying: 1.574716'],
    ['gust: 25, wind: 20', 'gust: 40.2336, wind: 32.18688'],
  ]
  const metricText = METRIC.reduce((text, [us, metric]) => {
    expect(text).toContain(us)
    return text.replace(us, metric)
  }, BASE)

  it('is the same farm in SI', () => {
    const numbers = (value: unknown, path = ''): [string, number][] =>
      typeof value === 'number'
        ? [[path, value]]
        : typeof value === 'object' && value !== null
          ? Object.entries(value).flatMap(([key, inner]) => numbers(inner, `${path}.${key}`))
          : []
    const us = numbers(farmOf(BASE))
    const metric = new Map(numbers(farmOf(metricText)))
    expect(metric.size).toBe(us.length)
    for (const [path, value] of us)
      expect(Math.abs(metric.get(path)! - value), path).toBeLessThanOrEqual(YIELD_ROUNDING * Math.abs(value))
  })

  it('sets fire care at 40 and 32 km/h where nothing is said', () => {
    const rules = farmOf(metricText.replace('gust: 40.2336, wind: 32.18688, ', '')).fireRules
    expect(rules.careGustMs).toBeCloseTo(40 / 3.6, 9)
    expect(rules.careWindMs).toBeCloseTo(32 / 3.6, 9)
  })
})

describe('units', () => {
  const PLAIN: readonly Quantity[] = [
    'elevation',
    'area',
    'haul',
    'headWidth',
    'fieldSpeed',
    'roadSpeed',
    'tank',
    'load',
    'unload',
    'windSpeed',
  ]

  it('go to SI and back without loss', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PLAIN),
        fc.constantFrom('us' as const, 'metric' as const),
        fc.double({ min: -1e4, max: 1e6, noNaN: true }),
        (quantity, units, value) => {
          const back = fromSi(toSi(value, quantity, units), quantity, units)
          expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-12 * (1 + Math.abs(value)))
          expect(unitOf(quantity, units)).not.toBe('')
        },
      ),
    )
  })

  it('do not pretend to know a bushel by weight without its crop', () => {
    expect(toSi(50, 'usualYield', 'us')).toBeNaN()
    expect(toSi(10, 'price', 'us')).toBeNaN()
  })
})
