/**
 * Locationforecast to weather. The only place where its units and steps are known.
 *
 * Values are given for the instant of a step: hourly for some two and a half days, then six-hourly. An hour's mean is
 * the value at its middle on a straight line between the steps around it. Rain is the sum of the hour, or of the six
 * hours, that begins at the step.
 */

import { SourceTooThin, SourceUnreadable } from '#app/failures.ts'
import { type Place, unknownWeatherArrays } from '#core/units/weather.ts'
import { epochHoursOfIso } from '#edges/sources/iso-time.ts'
import { checkIssued, type ForecastParts, type Told } from '#edges/sources/reading.ts'
import { SUN_FROM_CLOUD, sunlightUnder } from '#edges/sources/sky.ts'
import { type Grid, mostOf, type Span, sharesOf } from '#edges/sources/spans.ts'
import { alongSteps, directionAlongSteps, highestAlongSteps, type Steps } from '#edges/sources/steps.ts'
import { intoOurs, type Quantity } from '#edges/sources/units.ts'
import { MET_CREDIT } from './credit.ts'
import type { MetForecast, MetInstant, MetPeriodDetails, MetStep } from './schema.ts'

const MOST_HOURS = 16 * 24
/** Straight lines are drawn between steps this far apart [h]; a larger gap stays unknown. */
const LONGEST_STEP_H = 6

type TimedStep = MetStep & { readonly epochH: number }

/** @returns the forecast from the hour that contains now, not yet screened. */
export function weatherFromLocationforecast(
  body: MetForecast,
  place: Place,
  nowEpochH: number,
  told: Told,
): ForecastParts {
  const { meta, timeseries } = body.properties
  const issuedAtEpochH = checkIssued(epochHoursOfIso(meta.updated_at), nowEpochH, told)
  const steps = timedSteps(timeseries, told)
  const grid = gridOf(steps, nowEpochH, told)
  const unitOf = (quantity: Quantity, name: string, unitName = name) =>
    intoOurs(quantity, meta.units[unitName], name, told)

  const instants = (name: keyof MetInstant, quantity: Quantity, unitName: string = name): Steps => {
    const given = steps.filter((step) => isGiven(step.data.instant.details[name]))
    const convert = given.length === 0 ? undefined : unitOf(quantity, name, unitName)
    return {
      atEpochH: Float64Array.from(given, ({ epochH }) => epochH),
      value: Float64Array.from(given, ({ data }) => convert!(data.instant.details[name]!)),
    }
  }
  const periods = (name: keyof MetPeriodDetails, quantity: Quantity, unitName: string = name): readonly Span[] => {
    const spans = spansOf(steps, name)
    if (spans.length === 0) return []
    const convert = unitOf(quantity, name, unitName)
    return spans.map((span) => ({ ...span, value: convert(span.value) }))
  }
  const along = (given: Steps) => alongSteps(given, grid, LONGEST_STEP_H)

  const chance = periods('probability_of_precipitation', 'percent')
  const arrays = {
    ...unknownWeatherArrays(1, grid.hours),
    airTempC: along(instants('air_temperature', 'temperature')),
    relHumidity: along(instants('relative_humidity', 'share')),
    rainMm: sharesOf(periods('precipitation_amount', 'rain'), grid),
    windMs: along(instants('wind_speed', 'speed')),
    gustMs: highestAlongSteps(instants('wind_speed_of_gust', 'speed'), grid, LONGEST_STEP_H),
    windFromDeg: directionAlongSteps(instants('wind_from_direction', 'direction'), grid, LONGEST_STEP_H),
    solarWm2: sunlightUnder(along(instants('cloud_area_fraction', 'share')), place, grid),
  }
  return {
    weather: {
      place,
      ...grid,
      members: 1,
      ...arrays,
      provenance: {
        source: MET_CREDIT.name,
        attribution: MET_CREDIT.attribution,
        licence: MET_CREDIT.licence,
        issuedAtEpochH,
        spread: 'single',
        remarks: [SUN_FROM_CLOUD, ...remarkOnTail(steps, grid)],
      },
    },
    chances: {
      popPct: mostOf(chance, grid),
      popBlockH: mostOf(
        chance.map((span) => ({ ...span, value: span.toEpochH - span.fromEpochH })),
        grid,
      ),
      airTempP10C: along(instants('air_temperature_percentile_10', 'temperature')),
      airTempP90C: along(instants('air_temperature_percentile_90', 'temperature')),
      windP10Ms: along(instants('wind_speed_percentile_10', 'speed')),
      windP90Ms: along(instants('wind_speed_percentile_90', 'speed')),
      rainMinMm: sharesOf(periods('precipitation_amount_min', 'rain'), grid),
      rainMaxMm: sharesOf(periods('precipitation_amount_max', 'rain'), grid),
      thunderPct: mostOf(periods('probability_of_thunder', 'percent'), grid),
    },
  }
}

function timedSteps(timeseries: readonly MetStep[], told: Told): readonly TimedStep[] {
  let last = Number.NEGATIVE_INFINITY
  return timeseries.map((step) => {
    const epochH = epochHoursOfIso(step.time)
    if (!Number.isInteger(epochH) || epochH <= last)
      throw new SourceUnreadable(`a step at "${step.time.slice(0, 60)}" is no full hour or out of order`, told)
    last = epochH
    return { ...step, epochH }
  })
}

/** From the hour that contains now to the last step. */
function gridOf(steps: readonly TimedStep[], nowEpochH: number, told: Told): Grid {
  const startEpochH = Math.floor(nowEpochH)
  const hours = Math.min(MOST_HOURS, steps.at(-1)!.epochH - startEpochH)
  if (hours < 1) throw new SourceTooThin('temperature', 0, told)
  return { startEpochH, hours }
}

/** The hour that begins at each step, or the six hours where there is no single one; never the same hour twice. */
function spansOf(steps: readonly TimedStep[], name: keyof MetPeriodDetails): readonly Span[] {
  const spans: Span[] = []
  let end = Number.NEGATIVE_INFINITY
  for (const { epochH, data } of steps) {
    if (epochH < end) continue
    const hour = data.next_1_hours?.details?.[name]
    const value = hour ?? data.next_6_hours?.details?.[name]
    if (!isGiven(value)) continue
    end = epochH + (isGiven(hour) ? 1 : 6)
    spans.push({ fromEpochH: epochH, toEpochH: end, value })
  }
  return spans
}

function remarkOnTail(steps: readonly TimedStep[], grid: Grid): readonly string[] {
  const tail = steps.find((step, at) => at + 1 < steps.length && steps[at + 1]!.epochH - step.epochH > 1)
  if (tail === undefined) return []
  const afterH = Math.max(0, tail.epochH - grid.startEpochH)
  return [`From ${afterH} h on the forecast comes in steps of 6 h; the hours between are drawn in, the peaks cut.`]
}

const isGiven = (value: number | null | undefined): value is number => value !== null && value !== undefined
