/** The week: each field's working days side by side as one ribbon, the plan under it, and whatever it takes to change it. */
import { html, raw } from 'hono/html'
import type { Day } from '#app/make-day.ts'
import type { DayMade } from '#app/morning.ts'
import type { DeskWeek } from '#app/plan-desk.ts'
import type { MoreWorth } from '#app/replan.ts'
import { drawWeekDays } from '#core/messages/draw-axis.ts'
import { RIBBON_HATCH } from '#core/messages/draw-ribbon.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import { longDate, type Manner } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import { WEEK_SCRIPT } from '#edges/web/assets.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'
import type { NameOf } from '#edges/web/names.ts'
import { type RefusedForm, refusedNote } from '#edges/web/refused-form.ts'
import { ribbonKey } from '#edges/web/ribbon-key.ts'
import { mayDo, type Need, ROUTES } from '#edges/web/sign-in/roles.ts'
import { inOrder } from '#edges/web/today-page.ts'
import { shortDay } from '#edges/web/when.ts'
import { wordsOf } from '#edges/web/words/of.ts'
import type { Words } from '#edges/web/words/words.ts'
import { datedDay } from './say-change.ts'
import { workDays } from './week-days.ts'
import { hasFormOf, weekForms } from './week-forms.ts'
import { lastChange, standingNote, type Trial, triedNote } from './week-note.ts'
import { placedOn, type WeekLook, weekRow, windowsIn } from './week-row.ts'

export interface WeekShown {
  /** Absent where nothing plans the week. */
  readonly desk: DeskWeek | undefined
  /** The plan published last. */
  readonly newest?: PlanRecord | undefined
  readonly pinsCost?: number
  readonly more?: readonly MoreWorth[] | undefined
  /** Field that the form starts with. */
  readonly part?: string | undefined
  /** Outfit that the form for one more starts with. */
  readonly like?: string | undefined
  readonly trial?: Trial | undefined
  readonly nameOf?: NameOf
  readonly refused?: RefusedForm | undefined
}

const mayChange = ({ rights }: Viewer): boolean => mayDo(rights, ROUTES['POST /week/keep'] as Need, 'POST')

export function weekPage(farm: Farm, { message, day }: DayMade, viewer: Viewer, shown: WeekShown): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  return layout({
    farm,
    viewer,
    title: words.pages.week,
    date: longDate(message.date, manner),
    current: 'week',
    ...(shown.desk && mayChange(viewer) && { script: WEEK_SCRIPT.path }),
    body: day
      ? theWeek(day, viewer, shown, manner, words)
      : html`<h1>${words.failures['no-weather'].title}</h1><p>${words.failures['no-weather'].text}</p>`,
  })
}

/** On what the dates rest that lie behind the days in sight. */
function seasonLine({ view, season }: DeskWeek, manner: Manner, words: Words): Markup | '' {
  if (!season || !view.parts.some(({ tail }) => tail)) return ''
  return html`<p class="quiet">${words.plan.seasonRests(datedDay(view.to, manner), season.years, season.few)}</p>`
}

function theWeek(day: Day, viewer: Viewer, shown: WeekShown, manner: Manner, words: Words): Markup {
  const { desk, trial, refused, part } = shown
  const days = workDays(day.farm, day.date)
  const outlooks = inOrder(day).map(({ outlook }) => outlook)
  const rows = desk ? inPlanOrder(outlooks, desk) : outlooks
  const fitSoon = rows.filter((outlook) => windowsIn(outlook, days).length > 0).length
  const windows = words.week.sentence(fitSoon, rows.length, days.length)
  const canChange = desk !== undefined && mayChange(viewer)
  const plan = trial?.tried ?? desk
  const look: WeekLook = { days, manner, words, plan, before: trial && desk, movable: canChange }
  return html`${refused ? refusedNote(refused, desk && hasFormOf(refused, desk) ? words.plan.toForm : undefined) : ''}
${head(shown, windows, canChange, manner, words)}
${raw(RIBBON_HATCH)}
<section class="week" aria-label="${words.pages.week}" data-busy="${words.plan.busy}" data-no-answer="${words.plan.noAnswer}">
${raw(drawWeekDays(days.map(({ date }) => `${shortDay(date, manner)} ${date.day}`)))}
<ol class="ribbons">
${rows.map((outlook, index) => weekRow(outlook, index, look))}
</ol>
${ribbonKey(words)}
${desk ? planKey(words) : ''}
<p class="quiet">${desk ? `${windows} ` : ''}${words.week.help}${canChange ? html` <span class="with-script">${words.plan.markerHelp}</span>` : ''}${desk && viewer.rights === 'onlooker' ? ` ${words.plan.signInToChange}` : ''}</p>
${desk ? seasonLine(desk, manner, words) : ''}
</section>
${
  desk && !trial
    ? weekForms({
        desk,
        outlooks: rows,
        part,
        like: shown.like,
        refused,
        canChange,
        pinsCost: shown.pinsCost ?? 0,
        more: shown.more,
        manner,
        words,
      })
    : ''
}`
}

function head(
  { desk, trial, newest, nameOf = (id) => id }: WeekShown,
  windows: string,
  canChange: boolean,
  manner: Manner,
  words: Words,
): Markup {
  const said = { manner, words, nameOf }
  if (trial) return triedNote(trial, said)
  if (desk) return standingNote(desk, lastChange(desk, newest), canChange, said)
  return html`<h1>${windows}</h1>`
}

function planKey({ plan }: Words): Markup {
  return html`<ul class="key plan-key">
<li><span class="cell c8" aria-hidden="true"></span>${plan.keyPlan}</li>
<li><span class="tag" aria-hidden="true">40</span>${plan.keyTag}</li>
<li><span class="tag pinned" aria-hidden="true">40</span>${plan.keyPinned}</li>
<li><span class="cell off" aria-hidden="true">${plan.keptOff}</span>${plan.keyOff}</li>
</ul>`
}

/** By the day of the plan that stands, today's visits in their order: rows keep their place while a change is tried. */
function inPlanOrder(outlooks: readonly Outlook[], desk: DeskWeek): Outlook[] {
  const visit = new Map(desk.week.visits.map(({ partKey }, n) => [partKey, n]))
  const dayOf = ({ part }: Outlook) => {
    const { date } = placedOn(desk, part.key)
    return date ? desk.week.day.date.until(date).days : Number.POSITIVE_INFINITY
  }
  const visitOf = ({ part }: Outlook) => visit.get(part.key) ?? visit.size
  return outlooks
    .map((outlook) => ({ outlook, day: dayOf(outlook), visit: visitOf(outlook) }))
    .sort((a, b) => (a.day === b.day ? a.visit - b.visit : a.day - b.day))
    .map(({ outlook }) => outlook)
}
