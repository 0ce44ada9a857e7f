import { describe, expect, it } from 'vitest'
import * as english from '#core/messages/words/english.ts'
import * as spanish from '#core/messages/words/spanish.ts'

describe('how sure a window is to hold', () => {
  it('is a whole clause, at the ends of the scale as in its middle', () => {
    expect([1, 0.7, 0.02, Number.NaN].map(english.holds)).toEqual([
      'the window is almost sure to hold',
      'the window holds 7 in 10',
      'the window will hardly hold',
      'whether the window holds is not known',
    ])
    expect([1, 0.7, 0.02, Number.NaN].map(spanish.holds)).toEqual([
      'es casi seguro que la ventana se sostiene',
      'la ventana se sostiene 7 de 10',
      'la ventana difícilmente se sostiene',
      'no se sabe si la ventana se sostiene',
    ])
  })
})
