/** `npm run bench [-- NAME ...]`: runs the benches and prints their figures. Never part of the tests. */
const BENCHES: Record<string, () => Promise<(print: (line: string) => void) => void | Promise<void>>> = {
  engine: async () => (await import('./engine.ts')).benchEngine,
  grain: async () => (await import('./grain-trial.ts')).benchGrain,
  parse: async () => (await import('./parse.ts')).benchParse,
  season: async () => {
    const { benchSeason } = await import('./season-dates.ts')
    return () => benchSeason()
  },
  weather: async () => (await import('./weather.ts')).benchWeather,
  // Serves pages on this machine and asks them: prints as it goes.
  web: async () => {
    await import('./web.ts')
    return () => {}
  },
}

const asked = process.argv.slice(2)
const unknown = asked.filter((name) => !(name in BENCHES))
if (unknown.length > 0) {
  process.stderr.write(`No bench called ${unknown.join(', ')}. There are: ${Object.keys(BENCHES).join(', ')}\n`)
  process.exit(2)
}
for (const [name, load] of Object.entries(BENCHES)) {
  if (asked.length > 0 && !asked.includes(name)) continue
  await (await load())((line) => process.stdout.write(`${line}\n`))
}
