/** Pieces of the past, end to end, as one stretch. */
import { createHash } from 'node:crypto'
import type { HistoryRequest, SourceHistory } from '#app/ports.ts'
import { unknownWeatherArrays, WEATHER_VARIABLES } from '#core/units/weather.ts'

/** @param pieces in order of time, at least one, inside the stretch asked for. */
export function joinedHours(
  pieces: readonly SourceHistory[],
  { fromEpochH, toEpochH }: Pick<HistoryRequest, 'fromEpochH' | 'toEpochH'>,
): SourceHistory {
  const hours = toEpochH - fromEpochH
  const arrays = unknownWeatherArrays(1, hours)
  for (const { weather } of pieces)
    for (const name of WEATHER_VARIABLES) arrays[name].set(weather[name], weather.startEpochH - fromEpochH)
  const { place, provenance } = pieces[0]!.weather
  const hash = createHash('sha256')
  for (const { rawHash } of pieces) hash.update(rawHash)
  return {
    weather: {
      place,
      startEpochH: fromEpochH,
      hours,
      members: 1,
      ...arrays,
      provenance: {
        ...provenance,
        issuedAtEpochH: toEpochH,
        remarks: [...new Set(pieces.flatMap(({ weather }) => weather.provenance.remarks))],
      },
    },
    rawHash: pieces.length === 1 ? pieces[0]!.rawHash : hash.digest('hex'),
    notes: pieces.flatMap(({ notes }) => notes),
  }
}
