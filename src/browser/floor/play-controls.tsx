/** Plays the robot cycle through on the floor, or shows any moment of it. */
import { useEffect, useState } from 'preact/hooks';
import { numberText } from '../../render/numbers.js';
import { startTimes } from '../../render/robot-stretches.js';
import { shownSchedule } from '../state/answers.js';
import { playedS } from './floor-state.js';
import { robotAt } from './robot-at.js';

/** A cycle is played in about this time, and not slower than it runs. */
const PLAY_S = 30;

export function PlayControls() {
  const [isPlaying, setPlaying] = useState(false);
  const schedule = shownSchedule();
  const periodS = schedule?.periodS ?? 0;
  const factor = Math.max(1, periodS / PLAY_S);
  useEffect(() => {
    if (!isPlaying || periodS === 0) return;
    let frame = 0;
    let lastMs: number | null = null;
    playedS.value ??= 0;
    const next = (nowMs: number): void => {
      // Ended in the meantime.
      if (playedS.value === null) return;
      const byS = lastMs === null ? 0 : ((nowMs - lastMs) / 1000) * factor;
      lastMs = nowMs;
      playedS.value = (playedS.value + byS) % periodS;
      frame = requestAnimationFrame(next);
    };
    frame = requestAnimationFrame(next);
    return () => cancelAnimationFrame(frame);
  }, [isPlaying, periodS, factor]);
  if (schedule === null) return null;
  const timeS = Math.min(playedS.value ?? 0, periodS);
  const toAction = (by: 1 | -1): void => {
    const starts = startTimes(schedule)
      .map((startS) => startS % periodS)
      .sort((a, b) => a - b);
    const next =
      by > 0 ? starts.find((s) => s > timeS + 1e-6) : [...starts].reverse().find((s) => s < timeS - 1e-6);
    setPlaying(false);
    playedS.value = next ?? (by > 0 ? starts[0]! : starts.at(-1)!);
  };
  return (
    <div class="play">
      <p class="buttons">
        <button type="button" onClick={() => setPlaying(!isPlaying)}>
          {isPlaying ? 'Pause' : 'Play the robot cycle'}
        </button>
        <button type="button" onClick={() => toAction(-1)}>
          Action before
        </button>
        <button type="button" onClick={() => toAction(1)}>
          Next action
        </button>
        {playedS.value !== null && (
          <button
            type="button"
            onClick={() => {
              setPlaying(false);
              playedS.value = null;
            }}
          >
            End
          </button>
        )}
      </p>
      {playedS.value !== null && (
        <>
          <label>
            Moment of the cycle, s
            <input
              type="range"
              min={0}
              max={periodS}
              step={0.1}
              value={timeS}
              onInput={({ currentTarget }) => {
                setPlaying(false);
                playedS.value = Number(currentTarget.value);
              }}
            />
          </label>
          <p>
            {numberText(timeS, 1)} s: the robot {robotAt(schedule, timeS).words}.
            {isPlaying && factor > 1.05 ? ` Shown ${numberText(factor, 0)} times as fast.` : ''}
          </p>
        </>
      )}
    </div>
  );
}
