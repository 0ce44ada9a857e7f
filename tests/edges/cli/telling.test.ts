import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir, userInfo } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeEach, describe, expect, it } from 'vitest'
import type { Book } from '#app/records.ts'
import { readCommand, USAGE } from '#edges/cli/arguments.ts'
import { runTelling } from '#edges/cli/telling.ts'
import { memoryBook } from '#tests/app/support/book.ts'

const folder = mkdtempSync(join(tmpdir(), 'threshday-cli-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

let book: Book
beforeEach(async () => {
  book = await memoryBook()
})

/** Runs a command as typed; gives what is printed, with a mark where it was refused. */
async function type(...words: string[]): Promise<string> {
  const command = readCommand(words)
  if (!('action' in command)) {
    return `HELP ${command.name === 'help' ? command.fault : command.name}`
  }
  const { text, refused } = await runTelling(command, book)
  return `${refused ? 'REFUSED ' : ''}${text}`
}

describe('reading', () => {
  it('is kept, shown in the list with its key, corrected and taken back', async () => {
    expect(
      await type(
        'reading',
        '--field',
        'alpha',
        '--moisture',
        '12.4',
        '--at',
        '2010-09-20 11:30',
        '--by',
        'ann',
        '--key',
        'k1',
      ),
    ).toBe('Kept: Alpha, 2010-09-20 11:30: 12.4 % by hand, by ann\n')
    expect(
      await type(
        'reading',
        '--field',
        'Alpha',
        '--patch',
        'Swale',
        '--moisture',
        '17',
        '--instrument',
        'combine:red',
        '--by',
        'ann',
        '--corrects',
        'k1',
        '--key',
        'k2',
      ),
    ).toBe('Kept: Alpha (Swale), 2010-09-20 12:00: 17 % by combine (red), by ann\n')
    expect(await type('reading', '--list')).toBe(
      'Alpha (Swale), 2010-09-20 12:00: 17 % by combine (red), by ann\n    key k2\n',
    )
    expect(await type('reading', '--take-back', 'k2')).toBe('Taken back: k2\n')
    expect(await type('reading', '--take-back', 'k2')).toBe('Was taken back already: k2\n')
    expect(await type('reading', '--list')).toBe('Nothing yet.\n')
  })

  it('sent again is said to be known, and by whoever types where nobody is named', async () => {
    const words = [
      'reading',
      '--field',
      'alpha',
      '--moisture',
      '12.4',
      '--key',
      'k1',
      '--offset',
      '0.3',
      '--error',
      '0.6',
    ]
    expect(await type(...words)).toContain('Kept: ')
    expect(await type(...words)).toBe(
      `Known already: Alpha, 2010-09-20 12:00: 12.4 % by hand, by ${userInfo().username}\n`,
    )
    expect((await book.store.current(book.farm.id, 'reading'))[0]!.body.instrument).toEqual({
      id: 'hand',
      kind: 'hand',
      sdWb: 0.6,
      offsetWb: 0.3,
    })
  })

  it('that is nonsense is refused with what would be right', async () => {
    expect(await type('reading', '--field', 'alpha', '--moisture', '130')).toBe(
      'REFUSED Not taken. 130 % is not the moisture of a standing crop: 3 to 85 % wet basis is.\n',
    )
    expect(await type('reading', '--field', 'alpha', '--moisture', '12', '--at', 'tomorrow')).toContain(
      '"tomorrow" is not a time',
    )
  })

  it('comes as a table, each row answered', async () => {
    const file = join(folder, 'readings.csv')
    writeFileSync(
      file,
      'field,time,moisture\nAlpha,2010-09-19 16:00,14.2\nAlpha,2010-09-19 17:00,140\nAlpha,2010-09-19 16:00,14.2\n',
    )
    expect(await type('reading', '--csv', file, '--by', 'bo')).toBe(
      [
        'REFUSED line 2: Kept: Alpha, 2010-09-19 16:00: 14.2 % by hand, by bo',
        'line 3: Not taken. 140 % is not the moisture of a standing crop: 3 to 85 % wet basis is.',
        'line 4: Known already: Alpha, 2010-09-19 16:00: 14.2 % by hand, by bo',
        '1 kept, 1 known already, 1 not taken\n',
      ].join('\n'),
    )
    expect(await type('reading', '--csv', join(folder, 'nowhere.csv'))).toContain('nowhere.csv cannot be read.')
    writeFileSync(file, 'a,b\n')
    expect(await type('reading', '--csv', file)).toContain('REFUSED Nothing taken. Column "a" is not known.')
  })
})

describe('cut', () => {
  it('counts in the units of the farm, down to the last acre', async () => {
    expect(
      await type(
        'cut',
        '--field',
        'beta',
        '--area',
        '100',
        '--moisture',
        '17.5',
        '--tonnes',
        '450',
        '--at',
        '2010-09-20 09:00',
        '--by',
        'bo',
      ),
    ).toBe('Kept: Beta, 2010-09-20 09:00: 100 acres cut, 450 t, 17.5 %, outfit, by bo\n')
    expect(await type('cut', '--field', 'beta', '--area', '40')).toBe(
      'REFUSED Not taken. 40 acres is more than the 20 acres that still stand there.\n',
    )
    expect(await type('cut', '--field', 'beta', '--done', '--by', 'bo')).toBe(
      'Kept: Beta, 2010-09-20 12:00: 20 acres cut, done, outfit, by bo\n',
    )
    expect(await type('reading', '--field', 'beta', '--moisture', '17')).toContain(
      'Beta was finished at 2010-09-20 12:00',
    )
    expect(await type('cut', '--list')).toMatch(
      /^Beta, .*\n {4}key .*\nBeta, .*\n {4}key .*\nBeta: 120 acres cut, 450 t, 11.1 t\/ha as cut, 17.5 % on average, 0 acres standing\n$/,
    )
  })

  it('in hectares on a metric farm', async () => {
    book = { ...book, farm: { ...book.farm, units: 'metric' } }
    expect(await type('cut', '--field', 'beta', '--area', '12.5', '--by', 'bo')).toContain('12.5 ha cut')
    expect((await book.store.current(book.farm.id, 'cut'))[0]!.body.areaHa).toBe(12.5)
  })
})

describe('event', () => {
  it('is noted in the words of the trade', async () => {
    expect(await type('event', '--field', 'alpha', '--seen', 'mature', '--by', 'ann')).toContain('seen mature, by ann')
    expect(await type('event', '--field', 'alpha', '--seen', 'green')).toContain('seen still green')
    expect(
      await type('event', '--field', 'alpha', '--patch', 'swale', '--seen', 'regreened', '--later', '6', '--key', 'e1'),
    ).toContain('Alpha (Swale), 2010-09-20 12:00: green again, 6 days later')
    expect(await type('event', '--take-back', 'e1')).toBe('Taken back: e1\n')
    expect((await type('event', '--list')).split('key')).toHaveLength(3)
  })
})

describe('what cannot be understood', () => {
  it.each([
    [['reading'], '--field is missing'],
    [['reading', '--field', 'alpha'], '--moisture is missing'],
    [['reading', '--field', 'alpha', '--moisture', 'wet'], '--moisture "wet" is not a number'],
    [['reading', '--field', 'alpha', '--moisture', ''], '--moisture "" is not a number'],
    [
      ['reading', '--field', 'alpha', '--moisture', '12', '--instrument', 'thumb'],
      '"thumb" is none of hand, combine, ticket',
    ],
    [['reading', '--moist', '12'], "Unknown option '--moist'"],
    [['cut', '--field', 'alpha'], '--area is missing'],
    [['cut', '--field', 'alpha', '--area', 'Infinity'], '--area "Infinity" is not a number'],
    [['event', '--field', 'alpha'], '--seen is missing'],
    [['event', '--field', 'alpha', '--seen', 'ripe'], '--seen "ripe" is none of mature, green, regreened'],
    [['event', '--field', 'alpha', '--seen', 'regreened'], '--later is missing'],
  ])('%j says what to type', async (words, fault) => {
    expect(await type(...words)).toContain(`HELP ${fault.startsWith('"') ? '' : fault}`)
    expect(await type(...words)).toContain(fault)
  })

  it('the usage names every option', () => {
    for (const option of [
      '--csv',
      '--corrects',
      '--take-back',
      '--list',
      '--done',
      '--seen',
      '--later',
      '--offset',
      '--error',
    ]) {
      expect(USAGE).toContain(option)
    }
  })
})
