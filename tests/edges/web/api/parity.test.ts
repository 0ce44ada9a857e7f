/** All that a page can do, a program can: each form's route has its counterpart, open to no fewer. */
import { expect, it } from 'vitest'
import { mayDo, type Need, type Rights, ROUTES } from '#edges/web/sign-in/roles.ts'

/** What pages post, and what programs ask for instead. */
const COUNTERPARTS: Readonly<Record<string, string>> = {
  'POST /week/try': 'POST /api/plan/tries',
  'POST /week/keep': 'POST /api/plan/decisions',
  'POST /week/undo': 'DELETE /api/plan/decisions',
  'POST /cab/reading': 'POST /api/readings',
  'POST /cab/cut': 'POST /api/cuts',
  'POST /cab/problem': 'POST /api/problems',
  'POST /messages/resend': 'POST /api/messages/resend',
  'POST /messages/test': 'POST /api/messages/test',
  'POST /messages/mail': 'PUT /api/morning-mail',
  'POST /messages/hooks': 'POST /api/hooks',
  'POST /messages/hooks/secret': 'POST /api/hooks/secret',
  'POST /messages/hooks/remove': 'DELETE /api/hooks',
  'POST /messages/hooks/test': 'POST /api/messages/test',
  'POST /you/messages/test': 'POST /api/messages/test',
  'POST /you/messages/devices/remove': 'DELETE /api/push',
  'POST /you/messages/mail': 'PUT /api/morning-mail',
  'POST /people/invite': 'POST /api/invitations',
  'POST /people/remove': 'DELETE /api/people',
  'POST /people/tokens': 'POST /api/tokens',
  'POST /people/tokens/end': 'DELETE /api/tokens',
}

/** A program has a token, so it neither signs in nor out; these links are a person's own, shown on his page. */
const PERSONS_ONLY: readonly string[] = [
  'POST /sign-in',
  'POST /sign-out',
  'POST /join/:token',
  'POST /you/messages/links',
]

it('every form of a page has its counterpart in the API', () => {
  const forms = Object.keys(ROUTES).filter((route) => /^(POST|PUT|DELETE) /.test(route) && !route.includes(' /api/'))
  expect(forms.filter((route) => !PERSONS_ONLY.includes(route)).toSorted()).toEqual(
    Object.keys(COUNTERPARTS).toSorted(),
  )
  for (const counterpart of Object.values(COUNTERPARTS)) expect(Object.keys(ROUTES)).toContain(counterpart)
})

it.each(Object.entries(COUNTERPARTS))('whoever may %s may %s', (form, counterpart) => {
  const open = (route: string) => {
    const [method] = route.split(' ')
    const roles: Rights[] = ['crew', 'planner', 'owner', 'onlooker', 'stranger']
    return roles.filter((rights) => mayDo(rights, ROUTES[route] as Need, method!))
  }
  // What a person sets for himself on his page, a program sets for him by name, and that is the planner's.
  const forms = open(form).filter((rights) => !form.startsWith('POST /you/') || rights !== 'crew')
  expect(forms.filter((rights) => !open(counterpart).includes(rights))).toEqual([])
})
