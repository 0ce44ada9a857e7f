// Says when the plan on this page is no longer the newest.
const news = document.getElementById('news')

function say(what) {
  news.hidden = what === undefined
  for (const line of news.children) line.hidden = line.dataset.say !== what
}

if (news) {
  const drawnWhileMaking = !news.hidden
  const events = new EventSource('/api/live')
  events.addEventListener('told', () => say('making'))
  events.addEventListener('day', ({ data }) => {
    const isAnother = JSON.parse(data).plan !== news.dataset.plan || drawnWhileMaking
    say(isAnother ? 'newer' : undefined)
  })
  addEventListener('pagehide', () => events.close())
}
