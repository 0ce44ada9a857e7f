// The cab's script: keeps what is told until it has arrived, and says how old the page is when there is no signal.
// Without it the same forms are sent as plain forms.
const QUEUE = 'threshday-queue'
const PAGES = 'threshday-pages'
const AGAIN_MS = 20_000
const PATIENCE_MS = 10_000

const read = () => {
  try {
    return JSON.parse(localStorage.getItem(QUEUE) ?? '[]')
  } catch {
    return []
  }
}
const write = (queue) => localStorage.setItem(QUEUE, JSON.stringify(queue))
const newKey = () =>
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('')

function say(selector, text) {
  const place = document.querySelector(selector)
  if (!place) return
  place.hidden = text === ''
  place.textContent = text
}

function showWaiting() {
  const count = read().length
  const pattern = document.querySelector('.waiting')?.dataset.text ?? ''
  say('.waiting', count === 0 ? '' : pattern.replace('{count}', String(count)))
}

// The page shown without signal is the one that the worker kept; its Date header says when the service sent it.
async function showAge(offline) {
  const pattern = document.querySelector('.offline')?.dataset.text ?? ''
  const kept =
    offline && 'caches' in window
      ? await (await caches.open(PAGES)).match(location.origin + location.pathname)
      : undefined
  const minutes = Math.round((Date.now() - Date.parse(kept?.headers.get('date') ?? '')) / 60_000)
  say('.offline', offline ? pattern.replace('{age}', Number.isNaN(minutes) ? '?' : `${minutes} min`) : '')
}

const answer = (name) => document.querySelector('.answer')?.dataset[name] ?? ''

async function sendOne({ path, fields, key, madeMs }) {
  const body = new URLSearchParams([
    ...fields,
    ['key', key],
    ['agoS', String(Math.max(0, (Date.now() - madeMs) / 1000))],
  ])
  const options = {
    method: 'POST',
    body,
    headers: { accept: 'application/json' },
    signal: AbortSignal.timeout(PATIENCE_MS),
  }
  return await fetch(path, options)
}

function isUntouched(input) {
  if (input.type === 'checkbox') return input.checked === input.defaultChecked
  const chosen = [...(input.options ?? [])].find(({ defaultSelected }) => defaultSelected) ?? input.options?.[0]
  return input.value === (chosen?.value ?? input.defaultValue ?? input.value)
}

// What was refused stands in its form again, to be mended, where nothing else was typed there meanwhile.
function bringBack({ path, fields }) {
  const form = document.querySelector('form[data-queue]')
  if (form?.getAttribute('action') !== path || ![...form.elements].every(isUntouched)) return
  for (const [name, value] of fields) {
    const input = form.elements.namedItem(name)
    if (input?.type === 'checkbox') input.checked = true
    else if (input) input.value = value
  }
}

// One at a time over all open pages, in the order in which they were told. What arrived twice counts once by its key.
const flush = () => (navigator.locks ? navigator.locks.request(QUEUE, flushAlone) : flushAlone())

async function flushAlone() {
  for (let queue = read(); queue.length > 0; queue = read()) {
    const [first] = queue
    let response
    try {
      response = await sendOne(first)
    } catch {
      return
    }
    if (response.status === 401 || response.status === 403) {
      say('.answer', answer('signIn'))
      return
    }
    if (response.status === 429 || response.status >= 500) return
    // Taken, or refused for good: either way it leaves the queue, and a refusal is shown.
    write(read().filter(({ key }) => key !== first.key))
    showWaiting()
    const refused = response.ok ? '' : ((await response.json().catch(() => ({}))).detail ?? String(response.status))
    say('.answer', response.ok ? answer('sent') : refused)
    if (!response.ok) bringBack(first)
  }
}

function keepAndSend(event) {
  const form = event.target
  if (!(form instanceof HTMLFormElement) || !('queue' in form.dataset)) return
  event.preventDefault()
  const fields = [...new FormData(form)].map(([name, value]) => [name, String(value)])
  write([...read(), { path: form.getAttribute('action'), fields, key: newKey(), madeMs: Date.now() }])
  form.reset()
  say('.answer', answer('kept'))
  showWaiting()
  void flush()
}

async function lookForSignal() {
  try {
    await fetch('/health/live', { cache: 'no-store', signal: AbortSignal.timeout(PATIENCE_MS) })
  } catch {
    await showAge(true)
    return
  }
  await showAge(false)
  await flush()
}

document.addEventListener('submit', keepAndSend)
window.addEventListener('online', () => void lookForSignal())
document.addEventListener('visibilitychange', () => {
  if (!document.hidden) void lookForSignal()
})
setInterval(() => void lookForSignal(), AGAIN_MS)
showWaiting()
void lookForSignal()
if ('serviceWorker' in navigator) void navigator.serviceWorker.register('/sw.js')
