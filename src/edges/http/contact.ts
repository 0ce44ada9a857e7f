/** Whom a weather service may write to: a mail or a web address, in a form that is safe in a header. */
export const CONTACT = /^(?:https?:\/\/)?[^\s@()]+@[^\s@()]+\.[^\s@()]+$|^https?:\/\/[^\s()]+$/
