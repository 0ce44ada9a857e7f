import { describe, expect, it } from 'vitest'
import { alikeGroups, BENT_SHARE, Bent, UNBENT } from '#core/field/filter/neighbours.ts'
import { partsOf } from '#core/field/parts.ts'
import type { Field } from '#core/operation/farm.ts'
import { smallField } from '#tests/support/small-outlook.ts'

const partOf = (id: string, more: Partial<Field>) => partsOf(smallField(id, more))[0]!
const planted = (date: string) => ({ plantedOn: Temporal.PlainDate.from(date) })

describe('fields alike', () => {
  it('are of one crop and class, planted without a longer break than five days', () => {
    const parts = [
      partOf('d', planted('2010-05-20')),
      partOf('a', planted('2010-05-02')),
      partOf('c', planted('2010-05-10')),
      partOf('b', planted('2010-05-06')),
      partOf('late', { ...planted('2010-05-04'), maturityGroup: 3.5 }),
      partOf('wheat', { ...planted('2010-05-04'), followsWheat: true }),
    ]
    const groups = alikeGroups(parts).map((group) => group.map(({ key }) => key))
    expect(groups).toContainEqual(['a', 'b', 'c'])
    expect(groups).toContainEqual(['d'])
    expect(groups).toContainEqual(['late'])
    expect(groups).toContainEqual(['wheat'])
    expect(alikeGroups(parts.toReversed())).toEqual(alikeGroups(parts))
  })
})

describe('the bent of a group', () => {
  it('is that of the exact normal hierarchy', () => {
    // z = sqrt(s) b + sqrt(1 - s) e. A reading-like y = z + N(0, v) in one field gives the bent, conditioned as a joint
    // normal (Gelman et al., Bayesian Data Analysis, appendix A): cov(b, y) = sqrt(s), var(y) = 1 + v.
    const [y, v] = [1.8, 0.25]
    const posterior = { mean: y / (1 + v), sd: Math.sqrt(v / (1 + v)) }
    const bent = new Bent()
    bent.tell('a', [posterior, ...UNBENT.slice(1)], UNBENT)
    const [first, second] = bent.priorFor('b')
    const bentMean = (Math.sqrt(BENT_SHARE) * y) / (1 + v)
    const bentVariance = 1 - BENT_SHARE / (1 + v)
    expect(first!.mean).toBeCloseTo(Math.sqrt(BENT_SHARE) * bentMean, 9)
    expect(first!.sd).toBeCloseTo(Math.sqrt(BENT_SHARE * bentVariance + 1 - BENT_SHARE), 9)
    expect(second).toEqual({ mean: 0, sd: 1 })
  })

  it('does not hand a field back what it told itself', () => {
    const bent = new Bent()
    bent.tell('a', [{ mean: 2, sd: 0.3 }, ...UNBENT.slice(1)], UNBENT)
    expect(bent.priorFor('a')[0]!.mean).toBeCloseTo(0, 12)
    expect(bent.priorFor('a')[0]!.sd).toBeCloseTo(1, 12)
  })

  it('leaves a field never measured wider than a measured one, however many told', () => {
    const bent = new Bent()
    for (const key of 'abcdefgh') bent.tell(key, [{ mean: 1, sd: 0.1 }, ...UNBENT.slice(1)], UNBENT)
    const prior = bent.priorFor('z')[0]!
    expect(prior.mean).toBeGreaterThan(0.8)
    expect(prior.sd).toBeGreaterThan(Math.sqrt(1 - BENT_SHARE))
  })
})
