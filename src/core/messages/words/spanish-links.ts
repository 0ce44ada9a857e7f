/** Palabras en español para las páginas detrás de los enlaces de los mensajes. */
import type { LinkText } from './english-links.ts'

export const unsubscribeAsk: LinkText = {
  title: '¿Terminar el correo de la mañana?',
  text: 'No recibirá más el correo de la mañana. Los avisos siguen, porque pueden ser de fuego.',
  button: 'Terminar el correo de la mañana',
}
export const unsubscribeDone: string =
  'El correo de la mañana terminó. Para recibirlo otra vez, pregunte al dueño de la finca.'
export const acknowledgeAsk: LinkText = {
  title: 'Alto por fuego',
  text: 'Oprima para decir que leyó el alto por fuego. Pare de cortar; primero las prohibiciones y reglas locales.',
  button: 'Lo leí',
}
export const acknowledgeDone: string =
  'Anotado: usted leyó el alto por fuego. Pare de cortar; primero las prohibiciones y reglas locales.'
export const notOurs: string = 'Este enlace no sirve. Puede estar cortado o ser muy viejo.'
