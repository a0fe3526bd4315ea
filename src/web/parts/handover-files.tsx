import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { CHAPTER_FORMS, chapterText } from '../../paper/chapter-texts.ts';
import { calendarOfJob } from '../../paper/job-calendar.ts';
import { filmOfJob } from '../../paper/job-film.ts';
import { remindersOf } from '../../paper/reminders.ts';
import { countWords } from '../show.ts';
import { job, jobId, logged } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';

/** A text made here, to be kept: it needs no laptop. */
function keepText(name: string, type: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  // The browser has taken it by then.
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** Minutes that this device's clock is ahead of UTC. */
const east = (): number => -new Date().getTimezoneOffset();

function keepCalendar(): void {
  const made = calendarOfJob(logged.peek(), machine.peek()?.machine ?? null, {
    at: new Date().toISOString(),
    east: east(),
  });
  if (made.ok) keepText('reminders.ics', 'text/calendar', made.text);
}

/** What to look at again, and when: on screen, and for any calendar. */
export function HandoverReminders(): JSX.Element {
  const made = remindersOf(job.value, machine.value?.machine ?? null, east());
  return (
    <section class="stack tight" aria-labelledby="reminders">
      <h2 id="reminders">What to look at again</h2>
      {!made.ok && <p>{made.why}</p>}
      {made.ok && (
        <>
          <ul class="learned">
            {made.reminders.map(({ id, day, title, does, orAfter, source }) => (
              <li key={id}>
                <p>
                  <b class="figure">{day}</b> <b>{title}</b> {orAfter}
                </p>
                {does.map((words) => (
                  <p key={words}>{words}</p>
                ))}
                <p class="quiet">{source}</p>
              </li>
            ))}
          </ul>
          {made.says.map((words) => (
            <p key={words} class="quiet">
              {words}
            </p>
          ))}
          <Press act={keepCalendar}>Keep as a calendar file</Press>
        </>
      )}
    </section>
  );
}

/** The chapters of each clip, and the pack for those who film. */
export function HandoverFilm(): JSX.Element {
  const [may, setMay] = useState({ owner: false, photos: false, notes: false });
  const film = filmOfJob(logged.value, machine.value?.machine ?? null);
  const ask = Object.entries(may)
    .filter(([, on]) => on)
    .map(([name]) => `${name}=true`)
    .join('&');
  const tick = (name: keyof typeof may, words: string): JSX.Element => (
    <li>
      <Press class="tick" pressed={may[name]} act={() => setMay({ ...may, [name]: !may[name] })}>
        {words}
      </Press>
    </li>
  );
  return (
    <section class="stack tight" aria-labelledby="film">
      <h2 id="film">For those who film</h2>
      <p>
        The how-to: tools, parts, every step with its figures and cautions, the drawings, chapters of each
        clip. Nothing of the owner is in it unless you tick it.
      </p>
      <ul class="ticks">
        {tick('owner', 'Names, title and the owner’s words')}
        {tick('photos', 'Photographs')}
        {tick('notes', 'Notes')}
      </ul>
      <p>
        <a
          class="link"
          download
          href={`/api/jobs/${encodeURIComponent(jobId.value ?? '')}/how-to.zip${ask && `?${ask}`}`}
        >
          Keep the how-to pack
        </a>{' '}
        <span class="quiet">made on the laptop</span>
      </p>
      {film.clips.length === 0 && (
        <p class="quiet">No clip was started at the bench, so there are no chapters.</p>
      )}
      {film.clips.map((clip) => (
        <Fold
          key={clip.name}
          head={`Chapters of ${clip.name}: ${countWords(clip.chapters.length, 'chapter', 'chapters')}`}
        >
          {() => (
            <div class="stack tight">
              {clip.says.map((words) => (
                <p key={words} class="warn">
                  {words}
                </p>
              ))}
              <pre class="chapters figure">{chapterText(clip, 'plain')}</pre>
              <div class="row">
                {CHAPTER_FORMS.map((form) => (
                  <Press
                    key={form}
                    act={() =>
                      keepText(
                        `${clip.name}.${form === 'plain' ? 'txt' : form}`,
                        'text/plain',
                        chapterText(clip, form),
                      )
                    }
                  >
                    Keep as {form === 'vtt' ? 'WebVTT' : form}
                  </Press>
                ))}
              </div>
            </div>
          )}
        </Fold>
      ))}
    </section>
  );
}
