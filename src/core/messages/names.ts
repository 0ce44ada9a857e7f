/** How a part is called: the field's name, and for a patch its own in brackets, so that a list of names stays clear. */
import type { FieldPart } from '#core/field/parts.ts'

export const partName = (part: FieldPart): string =>
  part.patch ? `${part.field.name} (${part.patch.name})` : part.field.name
