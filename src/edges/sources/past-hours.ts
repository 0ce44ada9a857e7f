/** Pieces of the past, end to end, as one stretch. */
import { createHash } from 'node:crypto'
import type { HistoryRequest, SourceHistory } from '#app/ports.ts'
import { laidBetween } from '#core/units/weather-hours.ts'

/** @param pieces in order of time, at least one, inside the stretch asked for. */
export function joinedHours(
  pieces: readonly SourceHistory[],
  { fromEpochH, toEpochH }: Pick<HistoryRequest, 'fromEpochH' | 'toEpochH'>,
): SourceHistory {
  const weathers = pieces.map(({ weather }) => weather)
  const { place, provenance } = pieces[0]!.weather
  const hash = createHash('sha256')
  for (const { rawHash } of pieces) hash.update(rawHash)
  return {
    weather: {
      place,
      startEpochH: fromEpochH,
      hours: toEpochH - fromEpochH,
      members: 1,
      ...laidBetween(weathers, fromEpochH, toEpochH),
      provenance: {
        ...provenance,
        issuedAtEpochH: toEpochH,
        remarks: [...new Set(weathers.flatMap((weather) => weather.provenance.remarks))],
      },
    },
    rawHash: pieces.length === 1 ? pieces[0]!.rawHash : hash.digest('hex'),
    notes: pieces.flatMap(({ notes }) => notes),
  }
}
