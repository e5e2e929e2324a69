// Follows a search, or questions about a plan, and shows the page anew when they are answered.
// Without this file the page asks for itself every two seconds.

const search = document.querySelector("#search");
const path = search instanceof HTMLElement && search.dataset.news
  ? search.dataset.news
  : `${location.pathname}/news.json`;

/** @param {string} id @param {string} words */
function say(id, words) {
  const at = document.querySelector(id);
  if (at && at.textContent !== words) at.textContent = words;
}

/** The words of a state, from the page's own catalogue. @param {string} state */
function words(state) {
  return document.querySelector(`#search-words [data-state="${state}"]`)?.textContent ?? "";
}

let waiting = -1;

async function look() {
  let news;
  try {
    const answer = await fetch(path, { headers: { Accept: "application/json" } });
    if (!answer.ok) throw new Error(String(answer.status));
    news = await answer.json();
  } catch {
    setTimeout(look, 2000);
    return;
  }
  // Something was answered: the page has it.
  if ((search && !news.planning) || (!search && waiting >= 0 && news.waiting < waiting) || (!search && !news.waiting)) {
    location.replace(location.href.split("#")[0] + (search ? "" : location.hash));
    if (location.hash) location.reload();
    return;
  }
  waiting = news.waiting;
  if (search) {
    say("#search-finish", news.finish || "–");
    say("#search-bound", news.bound || "–");
    say("#search-seconds", String(news.seconds));
    say("#search-state", words(news.state));
    const bar = document.querySelector("#search-time");
    if (bar instanceof HTMLProgressElement) bar.value = Math.min(news.seconds, news.limit);
  }
  setTimeout(look, 500);
}

setTimeout(look, 300);
