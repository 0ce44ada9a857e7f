import { MessageChannel } from 'node:worker_threads'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Packed, pack, unpack } from '#edges/maker/pack.ts'

/** Through a real port, as between threads. */
async function sent<T>({ value, transfer }: Packed): Promise<T> {
  const { port1, port2 } = new MessageChannel()
  const arrived = new Promise<unknown>((resolve) => port2.once('message', resolve))
  port1.postMessage(value, [...transfer])
  const found = unpack<T>(await arrived)
  port1.close()
  return found
}

const there = <T>(value: T): Promise<T> => sent<T>(pack(value))

describe('what is packed', () => {
  it('arrives as it was: numbers to the last bit, nothing, nested lists, maps and records', async () => {
    const leaf = fc.oneof(fc.double(), fc.string(), fc.boolean(), fc.constant(null), fc.constant(undefined))
    const { tree } = fc.letrec((tie) => ({
      tree: fc.oneof(
        { depthSize: 'small' },
        leaf,
        fc.array(tie('tree'), { maxLength: 4 }),
        fc.dictionary(
          fc.string().filter((name) => name !== '__proto__'),
          tie('tree'),
          { maxKeys: 4, noNullPrototype: true },
        ),
        fc.array(fc.tuple(fc.string(), tie('tree')), { maxLength: 4 }).map((entries) => new Map(entries)),
      ),
    }))
    await fc.assert(
      fc.asyncProperty(tree, async (value) => {
        expect(await there(value)).toEqual(value)
      }),
      { numRuns: 60 },
    )
  })

  it('may hold dates and times of every kind', async () => {
    const value = {
      date: Temporal.PlainDate.from('2010-09-30'),
      list: [Temporal.PlainTime.from('11:30'), Temporal.PlainDateTime.from('2010-09-30T11:30')],
      map: new Map([['x', Temporal.Instant.from('2010-09-30T16:30:00.123456789Z')]]),
      zoned: Temporal.ZonedDateTime.from('2010-11-07T01:30-06:00[America/Chicago]'),
      span: Temporal.Duration.from('PT36H'),
    }
    const found = await there(value)
    expect(found.date instanceof Temporal.PlainDate).toBe(true)
    expect([found.date, ...found.list, found.map.get('x'), found.zoned, found.span].map(String)).toEqual(
      [value.date, ...value.list, value.map.get('x'), value.zoned, value.span].map(String),
    )
  })

  it('keeps one thing one, in circles too', async () => {
    const field = { id: 'a', day: Temporal.PlainDate.from('2010-09-30') }
    const value: { fields: object[]; again: Map<string, object>; self?: object } = {
      fields: [field, field],
      again: new Map([['a', field]]),
    }
    value.self = value
    const found = await there(value)
    expect(found.fields[0]).toBe(found.fields[1])
    expect(found.again.get('a')).toBe(found.fields[0])
    expect(found.self).toBe(found)
  })

  it('hands large arrays over and copies small ones; several views of one buffer stay so', async () => {
    const large = new Float32Array(10_000).fill(1.5)
    const small = new Float32Array(10).fill(2.5)
    const packed = pack({ large, part: large.subarray(5, 8), small })
    expect(packed.transfer).toEqual([large.buffer])
    const found = await sent<{ large: Float32Array; part: Float32Array; small: Float32Array }>(packed)
    expect([large.length, small.length]).toEqual([0, 10])
    expect([found.large.length, found.part.length, found.small[9]]).toEqual([10_000, 3, 2.5])
    expect(found.part.buffer).toBe(found.large.buffer)
  })

  it('is refused where it would not arrive as it is, and the place is named', () => {
    class Cell {}
    expect(() => pack({ a: [{ b: () => 1 }] })).toThrow('value.a[0].b is a function')
    expect(() => pack({ a: new Map([['c', new Cell()]]) })).toThrow('value.a.c is an instance of a class')
  })
})
