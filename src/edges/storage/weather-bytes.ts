/** Numbers as bytes: 32-bit floats, little-endian, one array after the other, deflated. NaN stays NaN. */
import { endianness } from 'node:os'
import { deflateRawSync, inflateRawSync } from 'node:zlib'

const FLOAT_BYTES = 4
/** Fast and nearly as small as the best. */
const LEVEL = 3

export function packFloats(arrays: readonly Float32Array[]): Uint8Array {
  const total = arrays.reduce((sum, values) => sum + values.length, 0)
  const all = new Float32Array(total)
  let at = 0
  for (const values of arrays) {
    all.set(values, at)
    at += values.length
  }
  const bytes = Buffer.from(all.buffer)
  if (endianness() === 'BE') bytes.swap32()
  return deflateRawSync(bytes, { level: LEVEL })
}

/** @param count how many arrays of one and the same `length` to expect; anything else is a broken row. */
export function unpackFloats(packed: Uint8Array, count: number, length: number): Float32Array[] {
  const bytes = inflateRawSync(packed, { maxOutputLength: count * length * FLOAT_BYTES + FLOAT_BYTES })
  if (bytes.length !== count * length * FLOAT_BYTES) {
    throw new RangeError(`${bytes.length} bytes of weather where ${count * length * FLOAT_BYTES} belong`)
  }
  if (endianness() === 'BE') bytes.swap32()
  const all = new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length))
  return Array.from({ length: count }, (_, k) => all.slice(k * length, (k + 1) * length))
}
