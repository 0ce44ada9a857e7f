/**
 * The gridded forecast of one point to weather. The only place where its units and spans are known.
 *
 * Series are in UTC and equal hours are merged. State layers hold for each hour of a span; rain is the sum of its
 * span; a chance of rain holds for each native block (1, 3, 6 or 12 h) of a span, not for the whole span.
 * Wind is the highest sustained wind expected, not a mean: it errs on the windy side.
 */

import { SourceTooThin, SourceUnreadable } from '#app/failures.ts'
import { type Place, unknownWeatherArrays } from '#core/units/weather.ts'
import { reconcileHumidity } from '#edges/sources/humidity.ts'
import { epochHoursOfIso, spanOfIso } from '#edges/sources/iso-time.ts'
import { checkIssued, type ForecastParts, type Told } from '#edges/sources/reading.ts'
import { SUN_FROM_CLOUD, sunlightUnder } from '#edges/sources/sky.ts'
import { type Grid, inOrder, meansOf, mostOf, type Span, sharesOf } from '#edges/sources/spans.ts'
import { intoOurs, type Quantity } from '#edges/sources/units.ts'
import { NWS_CREDIT } from './credit.ts'
import type { NwsGridpoint, NwsLayer } from './schema.ts'

/** Longest horizon kept [h]. */
const MOST_HOURS = 16 * 24
/** Lengths of native blocks of a chance of rain [h], longest first. */
const BLOCKS_H = [12, 6, 3, 1] as const
/** Where merged blocks hide their length: six hours is the usual one. */
const USUAL_BLOCK_H = 6

/** @returns the forecast from the hour that contains now to the end of its temperatures, not yet screened. */
export function weatherFromGridpoint(body: NwsGridpoint, place: Place, nowEpochH: number, told: Told): ForecastParts {
  const p = body.properties
  const issuedAtEpochH = checkIssued(epochHoursOfIso(p.updateTime), nowEpochH, told)
  const spansOf = (name: keyof typeof p, layer: NwsLayer | undefined, quantity: Quantity, unit = layer?.uom) =>
    spansOfLayer(name, layer, quantity, unit, told)

  const temperature = spansOf('temperature', p.temperature, 'temperature')
  const grid = gridOf(temperature, nowEpochH, told)
  const cloud = meansOf(spansOf('skyCover', p.skyCover, 'share'), grid)
  const chance = spansOf('probabilityOfPrecipitation', p.probabilityOfPrecipitation, 'percent')
  const arrays = {
    ...unknownWeatherArrays(1, grid.hours),
    airTempC: meansOf(temperature, grid),
    relHumidity: meansOf(spansOf('relativeHumidity', p.relativeHumidity, 'share'), grid),
    rainMm: sharesOf(spansOf('quantitativePrecipitation', p.quantitativePrecipitation, 'rain'), grid),
    windMs: meansOf(spansOf('windSpeed', p.windSpeed, 'speed'), grid),
    gustMs: meansOf(spansOf('windGust', p.windGust, 'speed'), grid),
    windFromDeg: mostOf(spansOf('windDirection', p.windDirection, 'direction'), grid),
    solarWm2: sunlightUnder(cloud, place, grid),
  }
  const dewPointC = meansOf(spansOf('dewpoint', p.dewpoint, 'temperature'), grid)
  const remarks = [SUN_FROM_CLOUD, ...reconcileHumidity(arrays.relHumidity, dewPointC, arrays.airTempC)]
  return {
    weather: {
      place,
      ...grid,
      members: 1,
      ...arrays,
      provenance: {
        source: NWS_CREDIT.name,
        attribution: NWS_CREDIT.attribution,
        licence: NWS_CREDIT.licence,
        issuedAtEpochH,
        spread: 'single',
        remarks,
      },
    },
    chances: {
      popPct: mostOf(chance, grid),
      popBlockH: mostOf(blockLengthsOf(chance), grid),
      // The layer comes without a unit of its own; the service documents per cent.
      thunderPct: mostOf(
        spansOf('probabilityOfThunder', p.probabilityOfThunder, 'percent', p.probabilityOfThunder?.uom ?? 'percent'),
        grid,
      ),
    },
  }
}

function spansOfLayer(
  name: string,
  layer: NwsLayer | undefined,
  quantity: Quantity,
  unit: string | undefined,
  { source, where }: Told,
): readonly Span[] {
  if (layer === undefined || layer.values.length === 0) return []
  const convert = intoOurs(quantity, unit, name, { source, where })
  const spans = layer.values.map(({ validTime, value }) => {
    const span = spanOfIso(validTime)
    if (Number.isNaN(span.fromEpochH))
      throw new SourceUnreadable(`${name} is valid for "${validTime.slice(0, 60)}", which is no span of time`, {
        source,
        where,
      })
    return { ...span, value: value === null ? Number.NaN : convert(value) }
  })
  const ordered = inOrder(spans)
  if (ordered === undefined)
    throw new SourceUnreadable(`the spans of ${name} overlap or are out of order`, { source, where })
  return ordered
}

/** From the hour that contains now to the last full hour of the temperatures. */
function gridOf(temperature: readonly Span[], nowEpochH: number, told: Told): Grid {
  const startEpochH = Math.floor(nowEpochH)
  const last = temperature.findLast((span) => !Number.isNaN(span.value))
  const hours = Math.min(MOST_HOURS, Math.floor((last?.toEpochH ?? startEpochH) + 1 / 60) - startEpochH)
  if (hours < 1) throw new SourceTooThin('temperature', 0, told)
  return { startEpochH, hours }
}

/** The same spans with the length of the native block that the chance belongs to [h]. */
function blockLengthsOf(chance: readonly Span[]): readonly Span[] {
  const lengths = new Set(chance.map((span) => Math.round(span.toEpochH - span.fromEpochH)))
  return chance.map((span) => {
    const length = Math.round(span.toEpochH - span.fromEpochH)
    const divides = (block: number) => lengths.has(block) && length % block === 0
    const native = BLOCKS_H.find((block) => block <= USUAL_BLOCK_H && divides(block)) ?? BLOCKS_H.find(divides)
    return { ...span, value: native ?? Math.min(length, USUAL_BLOCK_H) }
  })
}
