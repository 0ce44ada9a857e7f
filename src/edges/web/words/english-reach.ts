/** English words for how messages reach people and programs. */
import type { ReachWords } from './reach-words.ts'
import type { Words } from './words.ts'

const devicesSaid = (count: number): string => `${count} ${count === 1 ? 'device' : 'devices'}`
const waysSaid = (count: number): string => `${count} ${count === 1 ? 'way' : 'ways'}`
const failuresSaid = (count: number): string => `${count} ${count === 1 ? 'failure' : 'failures'} in a row`

export const englishReach: ReachWords = {
  title: 'How messages reach you',
  sentence: (byMail, devices) => {
    if (devices === 0) return byMail ? 'Messages reach you by mail.' : 'No message reaches you yet.'
    return byMail
      ? `Messages reach you by mail and by notes on ${devicesSaid(devices)}.`
      : `Messages reach you by notes on ${devicesSaid(devices)}.`
  },
  test: 'Send me a test message',
  tested: (ways) =>
    ways === 0
      ? 'There is no way to reach you: turn notes on below, or ask the owner to put your address in the farm file.'
      : `A test message is on its way to you, ${waysSaid(ways)}. It should be there within a minute or two.`,
  notesTitle: 'Notes on this device',
  notesHelp: 'A note comes up on this phone or computer even when no page is open: alerts at once, fire stops first.',
  turnOn: 'Turn notes on here',
  turnOff: 'Turn notes off here',
  pushStates: {
    on: 'Notes are on for this browser.',
    off: 'Notes are off for this browser.',
    denied: 'This browser is set to show no notes from here. Allow them in its settings, then come back.',
    unsupported:
      'This browser shows no notes. On an iPhone, put this site on the home screen first and open it from there.',
    failed: 'That did not work: the browser or its push service refused. Try again, or another browser.',
    noScript: 'Turning notes on needs scripts, and an address that begins with https.',
  },
  device: (n, host) => `Device ${n}, by ${host}`,
  remove: 'Remove',
  removeDevice: (n) => `Remove device ${n}`,
  mailTitle: 'Morning mail',
  mailOn: 'The morning message comes to you by mail.',
  mailOff: 'The morning mail to you has ended. Alerts still come, for they may be about fire.',
  mailEnd: 'End the morning mail',
  mailBegin: 'Send it again each morning',
  linksTitle: 'Your own links',
  linksHelp:
    'Who has one of these links can read it without signing in: keep them to yourself. New links end the ones before.',
  calendar: 'Calendar, to subscribe to',
  text: "Today's message as plain text",
  shortText: 'The same in 160 characters',
  renewLinks: 'Make new links, end these',
  hooks: {
    title: 'Programs that are told',
    sentence: (count) =>
      count === 0
        ? 'No program gets the messages of the farm.'
        : `${count} ${count === 1 ? 'program gets' : 'programs get'} every message of the farm.`,
    help: 'Each message is posted as JSON to the address, signed as the Standard Webhooks specification has it. The address must begin with https and lie in the open network.',
    address: 'Address',
    add: 'Add',
    secretOnce: (url) => `The secret of ${url}, shown this once:`,
    deeds: { test: 'Test', secret: 'New secret', remove: 'Remove' },
    named: (deed, url) => `${deed}: ${url}`,
    tested: 'A test message is on its way to it.',
    faults: {
      address:
        'That address can not be used: it must begin with https, on the usual port, and lie in the open network.',
      known: 'That address is on the list already.',
      'too-many': 'There are too many already. Remove one first.',
    },
  },
  ways: {
    title: 'Ways out',
    mailBy: (server, from) => `Mail by ${server}, from ${from}`,
    mailPrinted: 'Mail: no server is set, so it is printed on the console (THRESHDAY_SMTP)',
    signedFor: (domain) => `signed for ${domain}`,
    unsigned: 'not signed (THRESHDAY_DKIM)',
    hooks: (count) => `Webhooks: ${count === 0 ? 'none' : count}`,
    works: 'works',
    paused: (until, failures) => `paused until ${until} after ${failuresSaid(failures)}; fire stops are still tried`,
    trying: (failures) => `trying again after ${failuresSaid(failures)}`,
    testTo: 'Send a test to',
    morningMail: (wanted) => (wanted ? 'Send the morning mail again' : 'End the morning mail'),
    morningMailNamed: (wanted, name) =>
      wanted ? `Send the morning mail to ${name} again` : `End the morning mail to ${name}`,
    noMorningMail: 'no morning mail',
  },
}

export const englishMessages: Words['messages'] = {
  sentence: (sent, waiting, failed) =>
    `${sent} sent, ${waiting === 0 ? 'none' : waiting} waiting, ${failed === 0 ? 'none' : failed} not through.`,
  resent: 'It is back in the queue.',
  test: 'Send a test message',
  tested: (ways) =>
    ways === 0
      ? 'There is no way to reach them.'
      : `A test message is on its way, ${ways === 1 ? 'one way' : `${ways} ways`}.`,
  reachedTitle: 'Who is reached, and how',
  notReached: 'not reached: no address on file',
  column: { when: 'When', what: 'What', to: 'To', state: 'State' },
  kinds: {
    morning: 'Morning message',
    evening: 'Outlook on tomorrow',
    alert: 'Alert',
    problem: 'Problem from a cab',
    test: 'Test',
  },
  channels: { mail: 'mail', push: 'note on a phone', webhook: 'webhook' },
  states: {
    waiting: 'waiting',
    sending: 'being sent',
    sent: 'sent',
    dead: 'failed for good',
    lapsed: 'too late, not sent',
  },
  resend: 'Send again',
  resendNamed: (what, name) => `Send again: ${what} to ${name}`,
}
