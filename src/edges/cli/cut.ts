/** `cut`: area taken off a field in a shift. */
import { parseArgs } from 'node:util'
import { sayArea } from '#app/record-faults.ts'
import { type Book, type ToldCut, takeBack, takeCut } from '#app/records.ts'
import { harvestedOf } from '#core/field/harvested.ts'
import { partsOf } from '#core/field/parts.ts'
import { ofThisSeason } from '#core/field/season.ts'
import { standingHa } from '#core/field/standing-area.ts'
import { HA_PER_ACRE } from '#core/units/convert.ts'
import { BOOK_OPTIONS, needed, numberTyped, type Printed, printAnswer, printList, type Say } from './records.ts'

type Typed = Omit<ToldCut, 'by' | 'areaHa'> & { readonly area: number | undefined }

export interface CutCommand {
  readonly name: 'cut'
  readonly farm: string | undefined
  readonly by: string | undefined
  readonly action:
    | { readonly kind: 'take'; readonly typed: Typed }
    | { readonly kind: 'take-back'; readonly key: string }
    | { readonly kind: 'list' }
}

export const CUT_USAGE = `  npm run cut -- --field F [--patch P] --area A [--done] [--at TIME] [--outfit O] [--moisture 12.1] [--tonnes T]
                 [--by NAME] [--key K] [--corrects KEY] [--farm FILE]
                                                   notes an area taken, in the farm's unit; --done: nothing stands there
                                                   any more; --list and --take-back KEY as with reading
`

/** @throws with what is wrong. */
export function readCut(args: readonly string[]): CutCommand {
  const { values } = parseArgs({
    args: [...args],
    options: {
      ...BOOK_OPTIONS,
      area: { type: 'string' },
      done: { type: 'boolean', default: false },
      outfit: { type: 'string' },
      moisture: { type: 'string' },
      tonnes: { type: 'string' },
    },
  })
  const base = { name: 'cut', farm: values.farm, by: values.by } as const
  if (values.list) return { ...base, action: { kind: 'list' } }
  const back = values['take-back']
  if (back !== undefined) return { ...base, action: { kind: 'take-back', key: back } }
  const area = numberTyped('area', values.area)
  const typed: Typed = {
    field: needed('field', values.field),
    patch: values.patch,
    area: values.done ? area : needed('area', area),
    done: values.done,
    outfit: values.outfit,
    moistureWb: numberTyped('moisture', values.moisture),
    massT: numberTyped('tonnes', values.tonnes),
    at: values.at,
    key: values.key,
    replaces: values.corrects,
  }
  return { ...base, action: { kind: 'take', typed } }
}

/** @param by who tells it. */
export async function runCut({ action }: CutCommand, book: Book, by: string): Promise<Printed> {
  switch (action.kind) {
    case 'take': {
      const { area, ...typed } = action.typed
      const areaHa = area === undefined ? undefined : area * hectares(book)
      return printAnswer(await takeCut(book, { ...typed, areaHa, by }), book, say)
    }
    case 'take-back':
      return printAnswer(await takeBack(book, 'cut', action.key, by), book, say)
    case 'list':
      return await listCuts(book)
  }
}

/** The cuts, then what has come off each field that was begun and what still stands of it. */
async function listCuts(book: Book): Promise<Printed> {
  const records = await book.store.current(book.farm.id, 'cut')
  const cuts = ofThisSeason(
    book.farm,
    records.map(({ body }) => body),
  )
  const standing = standingHa(book.farm, cuts)
  const sums = book.farm.fields.flatMap((field) => {
    const { areaHa, massT, yieldTHa, moistureWb } = harvestedOf(field, cuts)
    if (areaHa === 0) return []
    const left = partsOf(field).reduce((sum, { key }) => sum + standing.get(key)!, 0)
    const grain = Number.isNaN(massT) ? [] : [`${round(massT)} t, ${round(yieldTHa)} t/ha as cut`]
    const moisture = Number.isNaN(moistureWb) ? [] : [`${round(moistureWb)} % on average`]
    return [
      `${[`${field.name}: ${area(areaHa, book)} cut`, ...grain, ...moisture, `${area(left, book)} standing`].join(', ')}\n`,
    ]
  })
  const list = await printList('cut', book, say)
  return { ...list, text: list.text + sums.join('') }
}

const round = (value: number): number => Number(value.toFixed(1))

const area = (ha: number, { farm }: Book): string => sayArea(ha, farm.units)

const hectares = ({ farm }: Book): number => (farm.units === 'us' ? HA_PER_ACRE : 1)

const say: Say<'cut'> = ({ areaHa, done, massT, moistureWb, outfitId }, book) =>
  [
    `${area(areaHa, book)} cut`,
    ...(massT === undefined ? [] : [`${massT} t`]),
    ...(moistureWb === undefined ? [] : [`${moistureWb} %`]),
    ...(done ? ['done'] : []),
    outfitId,
  ].join(', ')
