/** The `people` section of the farm file: who is told what, in which language, when. */
import { z } from 'zod'
import { id, name, nightHours } from './common.ts'

export const language = z.enum(['en', 'es']).describe('Language of messages: en (English) or es (Spanish).')

export const personSchema = z
  .strictObject({
    name: name('Name of the person.'),
    id,
    role: z
      .enum(['owner', 'crew', 'planner'])
      .describe('owner: sees money and plan. planner: fixes dates. crew: takes readings and cuts.'),
    language: language.optional().describe("en or es; left out, the farm's language."),
    email: z.email().optional().describe('Address for messages, such as name@example.org.'),
    quiet_hours: nightHours('Hours without alerts, from and to; may run over midnight.').optional(),
  })
  .describe('A person: name, role, language, email, quiet_hours.')

export type PersonEntry = z.infer<typeof personSchema>
