/** English words for the pages behind links in messages. */
export interface LinkText {
  readonly title: string
  readonly text: string
  readonly button: string
}

export const unsubscribeAsk: LinkText = {
  title: 'End the morning mail?',
  text: 'You will get no more morning mail. Alerts go on, for they may be about fire.',
  button: 'End the morning mail',
}
export const unsubscribeDone: string = 'The morning mail has ended. To get it again, ask the owner of the farm.'
export const acknowledgeAsk: LinkText = {
  title: 'Fire stop',
  text: 'Press to say that you have read the fire stop. Stop cutting; local bans and rules come first.',
  button: 'I have read it',
}
export const acknowledgeDone: string =
  'Noted: you have read the fire stop. Stop cutting; local bans and rules come first.'
export const notOurs: string = 'This link does not work. It may be cut short or too old.'
