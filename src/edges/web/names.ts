/** What parts, outfits and people are called, by their keys and ids; what is not known goes by that. */
import type { People } from '#app/people.ts'
import { partOfKey } from '#core/field/parts.ts'
import { partName } from '#core/messages/names.ts'
import type { Farm } from '#core/operation/farm.ts'

export const nameOfPart = (key: string, farm: Farm): string => {
  const part = partOfKey(farm, key)
  return part ? partName(part) : key
}

export const nameOfOutfit = (id: string, { outfits }: Pick<Farm, 'outfits'>): string =>
  outfits.find((outfit) => outfit.id === id)?.name ?? id

/** Of a person, by his id. */
export type NameOf = (id: string) => string

/** @returns names as people signed in, else as the farm file has them. */
export async function namesIn(farm: Farm, people: People | undefined): Promise<NameOf> {
  const accounts = (await people?.store.accounts(farm.id)) ?? []
  const names = new Map([...farm.people, ...accounts].map(({ id, name }) => [id, name]))
  return (id) => names.get(id) ?? id
}
