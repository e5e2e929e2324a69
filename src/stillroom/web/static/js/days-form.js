// A day's form: what it takes follows what is typed, and rows come and go without a new page.
// Without this file the buttons of the form do the same with a new page.

/** @type {HTMLFormElement | null} */
let form = document.querySelector("#day-form");
let asked = 0;
/** @type {number | undefined} */
let timer;

/** Ask for what the form as it stands would take, and show it. */
async function look() {
  const part = document.querySelector("#at-once");
  if (!form || !(part instanceof HTMLElement) || !part.dataset.draft) return;
  const mine = ++asked;
  try {
    const answer = await fetch(part.dataset.draft, { method: "POST", body: new FormData(form) });
    if (!answer.ok || mine !== asked) return;
    const open = [...part.querySelectorAll("details")].map((one) => one.open);
    part.innerHTML = await answer.text();
    part.querySelectorAll("details").forEach((one, n) => { one.open = open[n] ?? false; });
  } catch {
    // The household's computer is out of reach: what is typed stays, and the next key asks again.
  }
}

/** Only sizes that a recipe is for can be chosen with it. @param {HTMLSelectElement} recipe */
function sizes(recipe) {
  const size = recipe.closest(".order-row")?.querySelector('select[name$=".jar"]');
  const jars = recipe.selectedOptions[0]?.dataset.jars?.split("|").filter(Boolean) ?? [];
  if (!(size instanceof HTMLSelectElement)) return;
  for (const option of size.options) option.disabled = jars.length > 0 && !jars.includes(option.value);
  if (size.selectedOptions[0]?.disabled) size.value = jars[0] ?? size.value;
}

/** A row more or less, by the form's own answer. @param {HTMLButtonElement} button */
async function rows(button) {
  if (!form) return;
  const sent = new FormData(form);
  sent.set("do", button.value);
  // What is typed while the answer is on its way would be lost with the form that it replaces.
  form.inert = true;
  try {
    const answer = await fetch(location.href, { method: "POST", body: sent });
    const read = new DOMParser().parseFromString(await answer.text(), "text/html");
    const made = read.querySelector("#day-form");
    if (!made) throw new Error("no form");
    made.querySelectorAll("[autofocus]").forEach((one) => one.removeAttribute("autofocus"));
    const open = [...form.querySelectorAll("details")].filter((one) => one.open).length > 0;
    form.replaceWith(made);
    form = /** @type {HTMLFormElement} */ (made);
    listen();
    if (open) form.querySelectorAll(".day-written > details").forEach((one) => one.setAttribute("open", ""));
    const kind = button.value.split("-")[1];
    const row = [...form.querySelectorAll(`.${kind}-row`)].at(-1);
    const field = row?.querySelector("select, input") ?? form.querySelector(`[value="add-${kind}"]`);
    if (field instanceof HTMLElement) field.focus();
  } catch {
    form.inert = false;
    button.form?.requestSubmit(button);
  }
}

function listen() {
  if (!form) return;
  form.addEventListener("input", (event) => {
    if (event.target instanceof HTMLSelectElement && event.target.name.endsWith(".recipe")) sizes(event.target);
    clearTimeout(timer);
    timer = setTimeout(look, 250);
  });
  form.addEventListener("click", (event) => {
    const button = event.target instanceof Element ? event.target.closest("button") : null;
    if (button && /^(add|remove)-/.test(button.value) && !button.dataset.plain) {
      event.preventDefault();
      button.dataset.plain = "yes";
      rows(button);
    }
  });
  form.querySelectorAll('select[name$=".recipe"]').forEach((one) => sizes(/** @type {HTMLSelectElement} */ (one)));
}

listen();
