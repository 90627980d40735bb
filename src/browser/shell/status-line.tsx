/** The one line that says what was last done and what it did to the rate; read out politely. */
import { rateNews } from '../state/rate-news.js';
import { status } from '../state/store.js';

export function StatusLine() {
  return (
    <p class="status" role="status">
      {[status.value, rateNews.value].filter((text) => text !== '').join(' ')}
    </p>
  );
}
