import { describe, expect, it } from 'vitest'
import { describeFarm } from '#edges/config/describe.ts'
import { parseFarm } from '#edges/config/load.ts'
import { OPEN_METEO_CREDIT } from '#edges/sources/open-meteo/credit.ts'
import { BASE, spoiled } from './base-farm.ts'

const textOf = (file: string): string => describeFarm(parseFarm(file, '/farms/farm.yaml').farm)

describe('what was understood', () => {
  it('gives the numbers back as they were written', () => {
    const text = textOf(BASE)
    for (const said of [
      'Test Farm (id test-farm)',
      'US units, time zone America/Chicago, messages in English',
      'Home 40.0000 N, 88.1000 W, 700 ft above the sea',
      // 1110.35 m by 853.88 m by the series in tests/truth/degree-lengths.ts.
      'Alpha (id alpha): soybean, 234.3 acres, planted 2010-05-02, maturity group 2.7',
      'Cut at 10.5 to 13.5 % moisture; usually 54 bu/acre; 6 mi to River House',
      'Patch Swale (id swale): green, 10 % of the field, 7 days later, left standing',
      'Beta (id beta): corn, 120 acres, planted 2010-04-20, 111 days',
      'Combine Red 2: tank 300 bu, unloads 3 bu/s',
      'Head for soybean: 35 ft at 4 mph, efficiency 70 %',
      'Truck Semi: 950 bu at 38 mph',
      'open 07:00 to 18:00, closed saturday and sunday, takes 40000 bu a day (weighed as soybean), 20 minutes a truck',
      'corn: 4.50 a bushel at 15 %; each point above: 1.4 % of weight, 0 % of price, drying 0.04',
      'Ann (id ann): owner, English, ann@example.org, quiet 21:00 to 05:00',
      'Bo (id bo): crew, Spanish, no email',
      'care from gusts of 25 mph, wind of 20 mph, humidity of 25 % or less, grass index 20; stop from grass index 35',
      'Ban 2010-09-20 to 2010-09-22: County burn ban',
      'A local ban or warning outranks all of this.',
      'Morning message at 05:15; weather older than 10 hours names no field.',
      'Weather from national-us, then global.',
    ])
      expect(text).toContain(said)
    expect(text).not.toMatch(/NaN|undefined|Infinity/)
  })

  it('tells of the server of a map, where the farm gives one', () => {
    expect(textOf(BASE)).not.toContain('Map tiles')
    const map = 'map: { tiles: "https://t.example.org/{z}/{x}/{y}.png", credit: Example Survey, deepest: 16 }'
    expect(textOf(BASE.replace('\nfire:', `\n${map}\nfire:`))).toContain(
      'Map tiles from https://t.example.org/{z}/{x}/{y}.png, to zoom 16, credit: Example Survey',
    )
  })

  it('tells when the messages come', () => {
    const entry = 'before_window: 90, earliest: "05:00", at: "09:00", evening: "19:30"'
    expect(textOf(spoiled('at: "05:15"', entry))).toContain(
      'Morning message 90 minutes before the first run, from 05:00 to 09:00; outlook on tomorrow for the planner at 19:30;',
    )
  })

  it('tells the terms of an open aggregator, and what a farm that sells grain needs', () => {
    const plain = textOf(spoiled('- use: global', '- { use: open-aggregator, consent: true }'))
    expect(plain).toContain('Weather from national-us, then open-aggregator.')
    const { name, licence } = OPEN_METEO_CREDIT
    expect(plain).toContain(`open-aggregator is ${name}, licence ${licence}, credited wherever it is used; terms at `)
    expect(plain).toMatch(/non-commercial use only.*THRESHDAY_AGGREGATOR_KEY/)
    const own = textOf(
      spoiled('- use: global', '- { use: open-aggregator, consent: true, server: "https://weather.example.org/v1/" }'),
    )
    expect(own).toContain('Asked at your own server, https://weather.example.org/v1/')
    expect(own).not.toContain('non-commercial')
    expect(textOf(BASE)).not.toContain('Open-Meteo')
  })

  it('tells of a field already cut, of group 00 and of rows', () => {
    expect(textOf(spoiled('rows: 10', 'cut: 2010-09-30'))).toContain('Cut 2010-09-30: left out of the plan')
    expect(textOf(spoiled('maturity_group: 2.7', 'maturity_group: 00'))).toContain('maturity group 00\n')
    expect(textOf(spoiled('maturity_group: 2.7', 'maturity_group: 00.5'))).toContain('maturity group 00.5\n')
    expect(textOf(BASE)).toContain('rows 10 degrees from north')
  })

  it('speaks metric to a metric farm', () => {
    const metric = BASE.replace('units: us', 'units: metric')
      .replace('usual_yield: 54', 'usual_yield: 3.6')
      .replace('usual_yield: 180', 'usual_yield: 11.3')
      .replace('tank: 300', 'tank: 12000')
      .replace('unload: 3\n', 'unload: 120\n')
      .replace('width: 35', 'width: 10.7')
      .replace('width: 20', 'width: 6')
      .replace('size: 1000, unload: 8', 'size: 30000, unload: 250')
      .replace('size: 950', 'size: 33000')
      .replace('price: 4.5', 'price: 180')
    const text = textOf(metric)
    for (const said of [
      '120 ha',
      'usually 3.6 t/ha',
      '6 km to River House',
      'tank 12000 L, unloads 120 L/s',
      '10.7 m at 4 km/h',
      '180.00 a tonne',
      'takes 40000 t a day,',
      'gusts of 25 km/h',
      '700 m above',
    ])
      expect(text).toContain(said)
    expect(text).not.toMatch(/\b(acres|bu|mph|ft|mi)\b/)
  })
})
