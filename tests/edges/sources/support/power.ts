/**
 * Hourly answers in the form of NASA POWER, filled with plain numbers. The form: as two public clients of the service
 * write it down for their own checks (header, parameters, properties), none of its bodies being at hand.
 */
import { instantOf } from '#core/units/time.ts'

export interface PowerBody {
  header: { title: string; fill_value: number; time_standard: string; start: string; end: string }
  messages: string[]
  parameters: { [name: string]: { units: string; longname: string } }
  properties: { parameter: { [name: string]: { [stamp: string]: number | null } } }
}

export const FILL = -999

const SERIES: { readonly [name: string]: readonly [unit: string, value: (epochH: number) => number] } = {
  T2M: ['C', (h) => 10.25 + (h % 24) / 4],
  RH2M: ['%', (h) => 50.5 + (h % 24)],
  PRECTOTCORR: ['mm/hour', (h) => (h % 24 === 6 ? 2.25 : 0)],
  WS10M: ['m/s', (h) => 3.5 + (h % 5) / 10],
  WD10M: ['Degrees', (h) => (h * 15.5) % 360],
  ALLSKY_SFC_SW_DWN: ['Wh/m^2', (h) => 40.5 * (h % 24)],
}

/** Such as 2025020207. */
export const stampOf = (epochH: number): string => instantOf(epochH).toString().slice(0, 13).replace(/[-T]/g, '')

export function powerBody(startEpochH: number, hours: number): PowerBody {
  const day = (epochH: number) => stampOf(epochH).slice(0, 8)
  const body: PowerBody = {
    header: {
      title: 'NASA/POWER Source Native Resolution Hourly Data',
      fill_value: FILL,
      time_standard: 'UTC',
      start: day(startEpochH),
      end: day(startEpochH + hours - 1),
    },
    messages: [],
    parameters: {},
    properties: { parameter: {} },
  }
  for (const [name, [units, value]] of Object.entries(SERIES)) {
    body.parameters[name] = { units, longname: name }
    const values: { [stamp: string]: number } = {}
    for (let h = 0; h < hours; h++) values[stampOf(startEpochH + h)] = value(startEpochH + h)
    body.properties.parameter[name] = values
  }
  return body
}
