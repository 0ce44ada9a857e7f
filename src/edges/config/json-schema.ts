/**
 * The farm file's JSON Schema for editors, made from the same schema that reads the file.
 * Written by `node src/edges/config/json-schema.ts > config/farm.schema.json`; a test fails when that file is stale.
 */
import { z } from 'zod'
import { farmSchema } from './schema.ts'

/** @returns the text of `config/farm.schema.json`. */
export function farmJsonSchema(): string {
  const schema = z.toJSONSchema(farmSchema('either'), { target: 'draft-7', io: 'input', reused: 'inline' })
  return `${JSON.stringify({ title: 'Threshday farm file', ...schema }, null, 2)}\n`
}

if (import.meta.main) process.stdout.write(farmJsonSchema())
