import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { ALERT_KINDS, type AlertKind, type AlertReading } from '#core/messages/alerts/alert.ts'
import { QUIET, type Standing, step } from '#core/messages/alerts/machine.ts'
import { ALERT_RULES } from '#core/messages/alerts/rules.ts'

const reading = (kind: AlertKind, evidence: number, mayStart = true): AlertReading => ({
  kind,
  subject: '',
  evidence,
  mayStart,
  said: { kind: 'sources-down', ageH: 1, limitH: 2 },
})

/** Feeds a machine and gives back the hours of its starts and ends. */
function run(
  kind: AlertKind,
  steps: readonly { readonly at: number; readonly evidence: number; readonly may?: boolean }[],
) {
  let standing: Standing = QUIET
  const events: { at: number; event: string }[] = []
  for (const { at, evidence, may = true } of steps) {
    const next = step(standing, reading(kind, evidence, may), ALERT_RULES[kind], at, `${at}`)
    standing = next.standing
    if (next.event) events.push({ at, event: next.event })
  }
  return events
}

const anyEvidence = fc.oneof(
  fc.double({ min: -3, max: 5, noNaN: true }),
  fc.constantFrom(Number.NaN, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, 0, 1 / 3, 0.2, 1, 2.5, 3),
)
const anySteps = fc
  .array(fc.record({ wait: fc.double({ min: 0.01, max: 2, noNaN: true }), evidence: anyEvidence, may: fc.boolean() }), {
    maxLength: 80,
  })
  .map((list) => {
    let at = 0
    return list.map(({ wait, evidence, may }) => {
      at += wait
      return { at, evidence, may }
    })
  })

describe.each(ALERT_KINDS)('the state machine of %s', (kind) => {
  const rule = ALERT_RULES[kind]

  it('has an off threshold below the on threshold, and delays that make flapping within an hour impossible', () => {
    expect(rule.off).toBeLessThan(rule.on)
    if (kind !== 'plan-changed') expect(rule.holdH + rule.restH).toBeGreaterThanOrEqual(1)
    expect(rule.holdH + rule.restH + rule.confirmH).toBeGreaterThanOrEqual(1)
  })

  it('never goes on, off and on within an hour, whatever the evidence does', () => {
    fc.assert(
      fc.property(anySteps, (steps) => {
        const starts = run(kind, steps).filter(({ event }) => event === 'start')
        // Each alert held apart from the next: the least time on and the rest add up.
        return starts.slice(1).every(({ at }, i) => at - starts[i]!.at >= Math.min(1, rule.holdH + rule.restH) - 1e-9)
      }),
    )
  })

  it('starts and ends in turn', () => {
    fc.assert(
      fc.property(anySteps, (steps) => {
        const events = run(kind, steps).map(({ event }) => event === 'start')
        return events.every((isStart, i) => isStart === (i % 2 === 0))
      }),
    )
  })

  it('changes nothing on what is not known', () => {
    fc.assert(
      fc.property(anySteps, (steps) => {
        const known = steps.filter(({ evidence }) => !Number.isNaN(evidence))
        expect(run(kind, steps)).toEqual(run(kind, known))
      }),
    )
  })

  it('starts at the latest one confirmation after its evidence stands, and not where it may not', () => {
    const steps = Array.from({ length: 20 }, (_, i) => ({ at: i * 0.25, evidence: rule.on }))
    expect(run(kind, steps)[0]).toEqual({ at: rule.confirmH, event: 'start' })
    expect(
      run(
        kind,
        steps.map((at) => ({ ...at, may: false })),
      ),
    ).toEqual([])
  })

  it('stays on between its two thresholds', () => {
    const between = (rule.on + rule.off) / 2
    const steps = Array.from({ length: 400 }, (_, i) => ({ at: i * 0.25, evidence: i < 16 ? rule.on : between }))
    expect(run(kind, steps).map(({ event }) => event)).toEqual(['start'])
  })

  it('tells its end, where it does, once evidence has been gone for long enough', () => {
    const steps = Array.from({ length: 400 }, (_, i) => ({
      at: i * 0.25,
      evidence: i < 16 ? rule.on : rule.off - 0.01,
    }))
    const [start, end] = run(kind, steps)
    expect(end!.event).toBe(rule.tellsEnd ? 'end' : 'lapse')
    expect(end!.at).toBeCloseTo(Math.max(start!.at + rule.holdH, 4 + rule.clearH), 9)
  })
})

describe('a fire stop', () => {
  it('is called at once, is not ended by missing weather, and lasts until it has been over for an hour', () => {
    const events = run('fire-stop', [
      { at: 0, evidence: 0.34 },
      { at: 5, evidence: Number.NaN },
      { at: 6, evidence: 0.1 },
      { at: 6.5, evidence: 0.3 },
      { at: 7.1, evidence: 0.1 },
      { at: 8.1, evidence: 0.1 },
    ])
    expect(events).toEqual([
      { at: 0, event: 'start' },
      { at: 8.1, event: 'end' },
    ])
  })
})
