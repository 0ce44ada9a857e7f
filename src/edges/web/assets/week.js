// The week's script: tags are moved by pointer, touch or arrow keys, and forms are answered without leaving the page.
// The words all come from the service; without this the same forms are sent as plain forms.
const LAST = 6

const status = document.createElement('p')
status.className = 'hidden'
status.setAttribute('role', 'status')
document.body.append(status)
const say = (text) => {
  status.textContent = text
}
const wordOf = (name) => document.querySelector('.week')?.dataset[name] ?? ''

let asked
/** Asks the service and puts its answer in the place of the page's text; whatever was asked before is given up. */
async function ask(url, options = {}) {
  asked?.abort()
  const mine = new AbortController()
  asked = mine
  const main = document.querySelector('main')
  main.setAttribute('aria-busy', 'true')
  say(wordOf('busy'))
  try {
    const headers = { accept: 'text/html' }
    const response = await fetch(url, { ...options, headers, signal: mine.signal })
    const text = await response.text()
    if (mine !== asked) return
    show(new DOMParser().parseFromString(text, 'text/html'), response)
  } catch (failure) {
    if (mine !== asked) return
    leaveAll()
    say(wordOf('noAnswer'))
    if (failure instanceof TypeError) main.querySelector('.no-answer')?.removeAttribute('hidden')
  } finally {
    if (mine === asked) document.querySelector('main').removeAttribute('aria-busy')
  }
}

function show(page, response) {
  document.title = page.title
  document.querySelector('main').replaceWith(page.querySelector('main'))
  const [news, fresh] = [document, page].map((of) => of.getElementById('news'))
  if (news && fresh) {
    news.dataset.plan = fresh.dataset.plan
    news.hidden = fresh.hidden
  }
  const { pathname, search, hash } = new URL(response.url)
  // What was only tried has no address of its own.
  history.replaceState(null, '', pathname.startsWith('/week/') ? '/week' : pathname + search + hash)
  upgrade()
  const place = document.querySelector('main [autofocus]') ?? document.querySelector('[data-focus]')
  place?.focus()
  say(document.querySelector('[data-said]')?.textContent ?? document.querySelector('h1')?.textContent ?? '')
}

document.addEventListener('submit', (event) => {
  const form = event.target
  if (!('swap' in form.dataset)) return
  event.preventDefault()
  void ask(form.action, { method: 'POST', body: new URLSearchParams(new FormData(form)) })
})
document.addEventListener('click', (event) => {
  const link = event.target.closest?.('a[data-swap]')
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return
  event.preventDefault()
  void ask(link.href)
})

const cellsOf = (tag) => tag.parentElement.querySelectorAll('.cell')

/** Shows a tag on a day, nothing more. */
function place(tag, at) {
  tag.classList.remove(`d${tag.dataset.now}`)
  tag.dataset.now = at
  tag.classList.add(`d${at}`)
  tag.classList.toggle('moving', at !== Number(tag.dataset.at))
  tag.setAttribute('aria-valuenow', Math.min(LAST, at))
  tag.setAttribute('aria-valuetext', cellsOf(tag)[at]?.dataset.say ?? tag.textContent)
}
const leave = (tag) => place(tag, Number(tag.dataset.at))
const leaveAll = () => {
  for (const tag of document.querySelectorAll('.tag.moving')) leave(tag)
}

function put(tag) {
  const at = Number(tag.dataset.now)
  if (at === Number(tag.dataset.at)) return
  const { date } = cellsOf(tag)[at].dataset
  void ask('/week/try', { method: 'POST', body: new URLSearchParams({ kind: 'pin', part: tag.dataset.part, date }) })
}

const STEPS = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }

function upgrade() {
  for (const tag of document.querySelectorAll('a.tag')) {
    tag.setAttribute('role', 'slider')
    tag.setAttribute('aria-label', tag.dataset.label)
    tag.setAttribute('aria-valuemin', '0')
    tag.setAttribute('aria-valuemax', LAST)
    tag.dataset.now = tag.dataset.at
    leave(tag)
    tag.addEventListener('keydown', onKey)
    tag.addEventListener('pointerdown', onGrab)
    // A tag is not a link to be carried away.
    tag.addEventListener('dragstart', (event) => event.preventDefault())
    tag.addEventListener('click', (event) => event.preventDefault())
  }
}

function onKey(event) {
  const tag = event.currentTarget
  const now = Number(tag.dataset.now)
  const to = { Home: 0, End: LAST }[event.key] ?? (event.key in STEPS ? now + STEPS[event.key] : undefined)
  if (to !== undefined) place(tag, Math.min(LAST, Math.max(0, to)))
  else if (event.key === 'Enter') put(tag)
  else if (event.key === 'Escape') leave(tag)
  else return
  event.preventDefault()
}

function onGrab(event) {
  if (event.button !== 0) return
  const tag = event.currentTarget
  const row = tag.parentElement.getBoundingClientRect()
  const days = cellsOf(tag).length
  const onMove = ({ clientX }) =>
    place(tag, Math.min(days - 1, Math.max(0, Math.floor(((clientX - row.left) / row.width) * days))))
  const end = (done) => () => {
    tag.removeEventListener('pointermove', onMove)
    tag.classList.remove('held')
    done(tag)
  }
  tag.setPointerCapture(event.pointerId)
  tag.classList.add('held')
  tag.addEventListener('pointermove', onMove)
  tag.addEventListener('pointerup', end(put), { once: true })
  tag.addEventListener('pointercancel', end(leave), { once: true })
}

document.documentElement.classList.add('scripted')
upgrade()
