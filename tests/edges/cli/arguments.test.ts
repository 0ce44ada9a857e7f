import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { epochHoursOf } from '#core/units/time.ts'
import { readCommand, USAGE } from '#edges/cli/arguments.ts'

const hours = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const faultOf = (...words: string[]) => {
  const command = readCommand(words)
  return command.name === 'help' ? command.fault : undefined
}

describe('what is understood', () => {
  it('serve, with and without its name', () => {
    expect(readCommand([])).toEqual({ name: 'serve' })
    expect(readCommand(['serve'])).toEqual({ name: 'serve' })
  })

  it('today with its options, in any order', () => {
    expect(readCommand(['today'])).toEqual({ name: 'today', farm: undefined, now: undefined, json: false })
    const now = '2010-09-28T05:30-05:00'
    const read = { name: 'today', farm: 'farm.yaml', now: hours(now), json: true }
    expect(readCommand(['today', '--json', '--now', now, '--farm', 'farm.yaml'])).toEqual(read)
    expect(readCommand(['today', `--farm=farm.yaml`, `--now=${now}`, '--json'])).toEqual(read)
  })

  it('week with the same options', () => {
    expect(readCommand(['week'])).toEqual({ name: 'week', farm: undefined, now: undefined, json: false })
    const now = '2010-09-28T05:30-05:00'
    const read = { name: 'week', farm: 'farm.yaml', now: hours(now), json: true }
    expect(readCommand(['week', '--json', '--now', now, '--farm', 'farm.yaml'])).toEqual(read)
  })

  it('any instant with an offset, to the minute', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 ** 31 }),
        fc.integer({ min: -14 * 4, max: 14 * 4 }),
        (seconds, quarters) => {
          const instant = Temporal.Instant.fromEpochMilliseconds(seconds * 1000)
          const sign = quarters < 0 ? '-' : '+'
          const minutes = Math.abs(quarters) * 15
          const offset = `${sign}${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
          const command = readCommand(['today', '--now', instant.toString({ timeZone: offset })])
          expect(command).toMatchObject({ name: 'today', now: epochHoursOf(instant) })
        },
      ),
    )
  })

  it('check with its file, and help', () => {
    expect(readCommand(['check', 'my farm.yaml'])).toEqual({ name: 'check', file: 'my farm.yaml' })
    expect(readCommand(['help'])).toEqual({ name: 'help', fault: undefined })
    expect(readCommand(['--help'])).toEqual({ name: 'help', fault: undefined })
  })
})

describe('nonsense', () => {
  it.each([
    [['tomorrow'], '"tomorrow" is not a command'],
    [['-h'], '"-h" is not a command'],
    [['today', '--now', 'noon'], '--now "noon" is not a time with its offset'],
    [['today', '--now', '2010-09-28T05:30'], 'not a time with its offset'],
    [['today', '--now', '2010-02-30T05:30Z'], 'not a time with its offset'],
    [['today', '--now', '2010-09-28T25:00Z'], 'not a time with its offset'],
    [['today', '--now', ''], 'not a time with its offset'],
    [['today', '--now'], '--now'],
    [['today', '--farm'], '--farm'],
    [['today', '--json=yes'], '--json'],
    [['today', '--jsno'], '--jsno'],
    [['today', 'farm.yaml'], 'farm.yaml'],
    [['week', '--now', 'noon'], '--now "noon" is not a time with its offset'],
    [['week', '--days', '3'], '--days'],
    [['check'], 'check takes one file'],
    [['check', 'a.yaml', 'b.yaml'], 'check takes one file'],
    [['check', '--all', 'a.yaml'], '--all'],
    [['serve', '--port', '80'], '--port'],
  ])('%j names what is wrong', (words, part) => {
    expect(faultOf(...words)).toContain(part)
  })

  it('of any kind gives a command or a fault, never a throw', () => {
    const word = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom('today', 'check', 'serve', '--now', '--farm', '--json', '--', '-', '=', '__proto__'),
    )
    fc.assert(
      fc.property(fc.array(word, { maxLength: 6 }), (words) => {
        const command = readCommand(words)
        if (command.name === 'help' && words[0] !== 'help' && words[0] !== '--help') expect(command.fault).toBeTruthy()
      }),
    )
  })
})

it('the usage names each command', () => {
  for (const part of ['npm start', 'npm run today', 'npm run week', '--farm', '--now', '--json', 'npm run check'])
    expect(USAGE).toContain(part)
})
