/** What is still being worked out: how far it is where that can be counted, and for how long it has been going on. */
import { useEffect, useState } from 'preact/hooks';
import type { AnswerSaid } from '../engine/messages.js';
import type { ShownAnswer } from '../state/answers.js';

/** @param said what is shown of it meanwhile; null where that is of the tables before */
export function WorkNote({
  progress,
  said,
}: Pick<ShownAnswer, 'progress'> & { readonly said: AnswerSaid | null }) {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => setSeconds((before) => before + 1), 1000);
    return () => clearInterval(timer);
  }, []);
  const counted = progress === null ? '' : `, ${progress.done} of ${progress.of}`;
  const time = seconds === 0 ? ' …' : ` for ${seconds} s …`;
  return (
    <p class="note">
      Working{counted}
      {time}
      {said === null ? '' : shownWords(said)}
    </p>
  );
}

function shownWords({ question, stage, result }: AnswerSaid): string {
  if (question === 'simulate')
    return ` Shown: ${result.fields.replications} runs; with more of them the intervals get narrower.`;
  if (question === 'schedule' && stage === 'found') return ' What a change would give is still to come.';
  return stage === 'first' ? ' Shown: a first answer.' : '';
}
