import { deflateRawSync } from 'node:zlib'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { packFloats, unpackFloats } from '#edges/storage/weather-bytes.ts'

test('what goes in comes out, unknown values too', () => {
  fc.assert(
    fc.property(
      fc.array(fc.float(), { minLength: 1, maxLength: 50 }),
      fc.integer({ min: 1, max: 7 }),
      (values, count) => {
        const arrays = Array.from({ length: count }, (_, k) => Float32Array.from(values, (value) => value * (k + 1)))
        expect(unpackFloats(packFloats(arrays), count, values.length)).toEqual(arrays)
      },
    ),
  )
})

test('bytes are little-endian floats of IEEE 754 (binary32): 1 is 00 00 80 3f', () => {
  const packed = deflateRawSync(Buffer.from([0x00, 0x00, 0x80, 0x3f, 0x00, 0x00, 0x00, 0xc0]))
  expect(unpackFloats(packed, 1, 2)).toEqual([Float32Array.from([1, -2])])
})

test('a row of another length, or too long to be one, is refused', () => {
  const packed = packFloats([new Float32Array(24)])
  expect(() => unpackFloats(packed, 1, 25)).toThrow()
  expect(() => unpackFloats(packed, 1, 3)).toThrow()
})
