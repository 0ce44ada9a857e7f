import { WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'

/** Every value that is known and not possible, by name; the bounds of the screen, typed again here. */
export function outOfRange(w: Weather): string[] {
  const allowed = {
    airTempC: [-60, 57],
    relHumidity: [0.02, 1],
    rainMm: [0, 305],
    windMs: [0, 75],
    gustMs: [0, 114],
    windFromDeg: [0, 360],
    solarWm2: [0, 1400],
  } as const
  return WEATHER_VARIABLES.flatMap((variable) =>
    Array.from(w[variable]).flatMap((value) =>
      Number.isNaN(value) || (value >= Math.fround(allowed[variable][0]) && value <= Math.fround(allowed[variable][1]))
        ? []
        : [`${variable} ${value}`],
    ),
  )
}
