/** Speed of the weather between the sources and the day: growing members, blending, keeping. Run by `npm run bench -- weather`. */
import { blend } from '#core/science/blend/blend.ts'
import { emptySkill } from '#core/science/blend/skill.ts'
import { growMembers } from '#core/science/spread/grow-members.ts'
import type { Weather } from '#core/units/weather.ts'
import { packFloats, unpackFloats } from '#edges/storage/weather-bytes.ts'
import { trialForecast } from '#tests/support/trial-forecasts.ts'

const ROUNDS = 15
const HOURS = 264
const MEMBERS = 50

export function benchWeather(print: (line: string) => void): void {
  const { forecast } = trialForecast(2009, 70 * 24, HOURS, 1)
  const options = { members: MEMBERS, seed: 1, usualRainDayShare: 0.29, ageH: 0 }
  const ensemble = growMembers(forecast, options)
  const candidate = (id: string, weather: Weather) => ({ id, weather, chances: {}, skill: emptySkill() })
  const variables = [ensemble.airTempC, ensemble.relHumidity, ensemble.rainMm, ensemble.windMs, ensemble.solarWm2]
  const packed = packFloats(variables)
  const size = `${MEMBERS} members, ${HOURS} h`
  tell(print, `grow ${size}`, () => growMembers(forecast, options))
  tell(print, 'blend two single forecasts', () =>
    blend([candidate('a', forecast), candidate('b', forecast)], forecast.startEpochH),
  )
  tell(print, `blend a single one into ${size}`, () =>
    blend([candidate('a', ensemble), candidate('b', forecast)], forecast.startEpochH),
  )
  tell(print, `pack five variables of ${size} into ${(packed.length / 1e3).toFixed(0)} kB`, () => packFloats(variables))
  tell(print, 'unpack them', () => unpackFloats(packed, variables.length, MEMBERS * HOURS))
}

function tell(print: (line: string) => void, what: string, work: () => unknown): void {
  const times = Array.from({ length: ROUNDS }, () => {
    const start = performance.now()
    work()
    return performance.now() - start
  }).sort((a, b) => a - b)
  print(`weather: ${what}: ${times[Math.floor(ROUNDS / 2)]!.toFixed(1)} ms (median of ${ROUNDS})`)
}
