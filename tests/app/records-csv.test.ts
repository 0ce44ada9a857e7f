import fc from 'fast-check'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Book } from '#app/records.ts'
import { instrumentOf, numberOf, takeReadingsCsv } from '#app/records-csv.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'

let book: Book
beforeEach(async () => {
  book = await memoryBook()
})
const take = async (...lines: string[]) => {
  const answer = await takeReadingsCsv(book, lines.join('\n'), 'ann')
  if (answer.kind === 'unreadable') return answer.what
  return answer.rows.map(({ line, answer: row }) =>
    row.kind === 'refused' ? `${line} ${row.fault.code}` : `${line} ${row.kind}`,
  )
}
const kept = async () => (await book.store.current(book.farm.id, 'reading')).map(({ body }) => body)

describe('a table of readings', () => {
  it('is taken in row by row, and each row that does not hold up is told with its line', async () => {
    expect(
      await take(
        'field,patch,time,moisture,instrument,offset,by,key',
        'Alpha,,2010-09-19 16:00,14.2,hand:blue,0.3,Bo,k1',
        'Alpha,Swale,2010-09-19T16:10-05:00,17.9,combine,,,',
        'Gamma,,2010-09-19 16:00,14.2,,,,',
        'Alpha,,2010-09-19 16:00,130,,,,',
        'Alpha,,2010-09-21 16:00,14,,,,',
        'Alpha,,,14,,,,',
        'Alpha,,2010-09-19 16:00,dry,,,,',
        'Alpha,,2010-09-19 16:00,14,thumb,,,',
        'Alpha,,2010-09-19 16:00,14,hand,much,,',
        'Beta,,2010-09-19 17:00,22,ticket,,,',
      ),
    ).toEqual([
      '2 kept',
      '3 kept',
      '4 unknown-field',
      '5 moisture-impossible',
      '6 time-ahead',
      '7 row-unreadable',
      '8 row-unreadable',
      '9 row-unreadable',
      '10 row-unreadable',
      '11 kept',
    ])
    expect(await kept()).toMatchObject([
      {
        id: 'k1',
        partKey: 'alpha',
        moistureWb: 14.2,
        who: 'bo',
        instrument: { id: 'blue', kind: 'hand', offsetWb: 0.3 },
      },
      { partKey: 'alpha/swale', moistureWb: 17.9, who: 'ann', instrument: { id: 'combine', kind: 'combine' } },
      { partKey: 'beta', moistureWb: 22, instrument: { id: 'hill-house', kind: 'ticket' } },
    ])
  })

  it('sent again changes nothing, and two rows alike are one', async () => {
    const table = ['field,time,moisture', 'Alpha,2010-09-19 16:00,14.2', 'Alpha,2010-09-19 16:00,14.2']
    expect(await take(...table)).toEqual(['2 kept', '3 known'])
    expect(await take(...table)).toEqual(['2 known', '3 known'])
    expect(await kept()).toHaveLength(1)
  })

  it('may have its columns in any order and case, semicolons or tabs, decimal commas, quotes, a byte-order mark', async () => {
    expect(await take('\uFEFFMoisture;Time;Field', '"14,2 %";2010-09-19 16:00;Alpha')).toEqual(['2 kept'])
    expect(await take('moisture\ttime\tfield', '14.4\t2010-09-19 15:00\tAlpha')).toEqual(['2 kept'])
    expect(await take('moisture,time,field', '"14,6","2010-09-19 14:00"," alpha "\r')).toEqual(['2 kept'])
    expect((await kept()).map(({ moistureWb }) => moistureWb)).toEqual([14.6, 14.4, 14.2])
  })

  it('does not take half a number for a whole one where a decimal comma was not quoted', async () => {
    expect(await take('field,time,moisture', 'Alpha,2010-09-19 16:00,14,2')).toEqual(['2 row-unreadable'])
    expect(await take('field,moisture,time', 'Alpha,14,2,2010-09-19 16:00')).toEqual(['2 row-unreadable'])
    expect(await kept()).toEqual([])
  })

  it('tells lines as the editor counts them, past blank lines and quoted breaks', async () => {
    expect(
      await take('', 'field,time,moisture', '', 'Alpha,2010-09-19 16:00,14', '', '', 'Alpha,2010-09-19 16:00,', ''),
    ).toEqual(['4 kept', '7 row-unreadable'])
    expect(await take('field,time,moisture', '"Al\npha",2010-09-19 16:00,14', 'Alpha,2010-09-19 15:00,15')).toEqual([
      '2 unknown-field',
      '4 kept',
    ])
  })

  it.each([
    ['', 'It is empty.'],
    ['field,time', 'Column "moisture" is missing'],
    ['field,time,moisture,colour', 'Column "colour" is not known'],
    ['field,time,moisture\n"Alpha,2010', 'It is not a table'],
    ['%PDF-1.4', 'is not known'],
  ])('that is none is refused as a whole: %j', async (text, what) => {
    expect(await take(text)).toContain(what)
    expect(await kept()).toEqual([])
  })

  it('survives any text', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 200 }), async (text) => {
        const answer = await takeReadingsCsv(book, `field,time,moisture\n${text}`, 'ann')
        expect(['read', 'unreadable']).toContain(answer.kind)
      }),
    )
    expect(await kept()).toEqual([])
  })

  it('keeps what it had answered when it is cut off, and a second sending completes it', async () => {
    const rows = Array.from({ length: 20 }, (_, i) => `Alpha,2010-09-${10 + (i % 9)} 1${i % 10}:00,${12 + i / 10}`)
    const { store } = book
    let writes = 0
    const failing: Book = {
      ...book,
      store: {
        ...store,
        current: store.current.bind(store),
        keep: async (record) => {
          if (++writes > 7) throw new Error('disk full')
          return await store.keep(record)
        },
      },
    }
    await expect(takeReadingsCsv(failing, ['field,time,moisture', ...rows].join('\n'), 'ann')).rejects.toThrow(
      'disk full',
    )
    expect(await kept()).toHaveLength(7)
    const again = await take('field,time,moisture', ...rows)
    expect(again).toEqual(rows.map((_, i) => `${i + 2} ${i < 7 ? 'known' : 'kept'}`))
  })
})

describe('words of the table', () => {
  it('knows instruments by kind and name', () => {
    expect(instrumentOf('hand')).toEqual({ kind: 'hand', id: undefined })
    expect(instrumentOf(' Ticket : North : 2 ')).toEqual({ kind: 'ticket', id: 'North : 2' })
    expect(instrumentOf('combine:')).toEqual({ kind: 'combine', id: undefined })
    expect(instrumentOf('thumb')).toBeUndefined()
  })

  it.each([
    ['11.8', 11.8],
    ['11,8', 11.8],
    [' 12 % ', 12],
    ['-0.4', -0.4],
    ['+.5', 0.5],
  ])('reads "%s" as %d', (text, value) => {
    expect(numberOf(text)).toBe(value)
  })

  it.each(['', '%', '1,234.5', '1.2.3', '12 14', '1e3', 'Infinity', '0x10', '--3'])(
    'does not read "%s" as a number',
    (text) => {
      expect(numberOf(text)).toBeNaN()
    },
  )

  it('reads back any number with one decimal', () => {
    fc.assert(
      fc.property(fc.integer({ min: -999, max: 999 }), (n) => {
        expect(numberOf((n / 10).toFixed(1))).toBeCloseTo(n / 10, 12)
      }),
    )
  })
})

it('NOON is noon at the farm', () => {
  expect(Temporal.Instant.fromEpochMilliseconds(NOON * 3_600_000).toZonedDateTimeISO('America/Chicago').hour).toBe(12)
})
