/** How a part is called: the field's name, and for a patch the field's and its own. */
import type { FieldPart } from '#core/field/parts.ts'

export const partName = (part: FieldPart): string =>
  part.patch ? `${part.field.name}, ${part.patch.name}` : part.field.name
