/** A problem told from a cab: posted at once to owner and planner, urgent, whatever the hour. */

import { escapeHtml } from '#core/messages/render-html.ts'
import type { Farm, Field, Language, Person } from '#core/operation/farm.ts'
import { localDateOf } from '#core/units/time.ts'
import type { AddressBook } from './addresses.ts'
import { deciders } from './everybody.ts'
import type { OutboxStore, Parcel } from './outbox-port.ts'
import { type ParcelBase, parcelsTo, type SaidToPerson } from './parcels.ts'
import { sayTime } from './record-faults.ts'

export const PROBLEM_KINDS = ['breakdown', 'stuck', 'fire', 'wet-spot', 'other'] as const
export type ProblemKind = (typeof PROBLEM_KINDS)[number]

export interface ToldProblem {
  readonly kind: ProblemKind
  readonly field: Field | undefined
  readonly text: string
  readonly by: string
  readonly atEpochH: number
  /** Sent again under the same key it counts once. */
  readonly key: string
}

export interface ProblemTools {
  readonly outbox: Pick<OutboxStore, 'post'>
  readonly addresses: AddressBook
  /** Everybody who is told things; the people of the farm file where absent. */
  readonly everyone?: (() => Promise<readonly Person[]>) | undefined
}

const PROBLEM = 'problem'
/** Longer than this and somebody has come or called [h]. */
const SERVES_H = 4
export const LONGEST_TEXT = 500

const WORDS: { readonly [L in Language]: { readonly [K in ProblemKind]: string } & { readonly title: string } } = {
  en: {
    title: 'Problem',
    breakdown: 'Breakdown',
    stuck: 'Stuck',
    fire: 'Fire',
    'wet-spot': 'Wet spot',
    other: 'Something else',
  },
  es: {
    title: 'Problema',
    breakdown: 'Avería',
    stuck: 'Atascado',
    fire: 'Fuego',
    'wet-spot': 'Parte húmeda',
    other: 'Otra cosa',
  },
}

/** @returns how many were posted; none the second time, and none where nobody can be reached. */
export async function tellProblem(farm: Farm, told: ToldProblem, tools: ProblemTools, nowEpochH: number) {
  const base: ParcelBase = {
    farmId: farm.id,
    kind: PROBLEM,
    subject: told.key,
    date: localDateOf(nowEpochH, farm.timeZone).toString(),
    urgent: true,
    createdEpochH: nowEpochH,
    closesEpochH: nowEpochH + SERVES_H,
  }
  const parcels: Parcel[] = []
  const people = (await tools.everyone?.()) ?? farm.people
  for (const person of deciders(people)) {
    const words = WORDS[person.language]
    const where = told.field ? `, ${told.field.name}` : ''
    const subject = `${words.title}: ${words[told.kind]}${where}`
    const text = [subject, told.text, `${told.by}, ${sayTime(told.atEpochH, farm.timeZone)}`].filter(Boolean).join('\n')
    const said: SaidToPerson = {
      subject,
      text: `${text}\n`,
      html: `<!doctype html><html lang="${person.language}"><body><p>${escapeHtml(text).replaceAll('\n', '<br>')}</p></body></html>\n`,
      note: { title: farm.name, body: text, tag: `${PROBLEM}/${told.key}`, path: '/', urgent: true },
    }
    parcels.push(...parcelsTo(person, await tools.addresses.addressesOf(farm, person, 'alert'), base, said))
  }
  return await tools.outbox.post(parcels)
}
