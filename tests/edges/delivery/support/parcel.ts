import type { KeptParcel } from '#app/outbox-port.ts'

export const keptParcel = (change: Partial<KeptParcel>): KeptParcel => ({
  key: 'larkspur/morning/_/2026-09-28/mail/orla-fenn',
  farmId: 'larkspur',
  kind: 'morning',
  subject: '',
  date: '2026-09-28',
  channel: 'mail',
  recipient: 'orla-fenn',
  target: '',
  body: '{}',
  urgent: false,
  createdEpochH: 0,
  closesEpochH: 1,
  state: 'sending',
  attempts: 1,
  nextEpochH: 0,
  touchedEpochH: 0,
  lastReason: '',
  reference: '',
  ...change,
})
