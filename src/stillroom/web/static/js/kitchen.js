// The device's own altitude, put into the elevation field. Nothing is sent anywhere from here.

/**
 * @param {HTMLElement} place
 * @param {string} which a message of the page
 * @param {Record<string, string>} [figures]
 */
function tell(place, which, figures = {}) {
  const told = place.querySelector("[data-told]");
  if (!(told instanceof HTMLElement)) return;
  let words = told.dataset[which] ?? "";
  for (const [name, value] of Object.entries(figures)) words = words.replace(`{${name}}`, value);
  told.textContent = words;
}

/**
 * @param {HTMLElement} place
 * @param {HTMLInputElement} field
 */
function ask(place, field) {
  tell(place, "asking");
  navigator.geolocation.getCurrentPosition(
    ({ coords }) => {
      if (coords.altitude === null) {
        tell(place, "none");
        return;
      }
      const metres = String(Math.round(coords.altitude));
      field.value = `${metres} m`;
      const off = coords.altitudeAccuracy;
      if (off === null) tell(place, "unsure", { metres });
      else tell(place, "found", { metres, off: String(Math.ceil(off)) });
    },
    () => tell(place, "denied"),
    { enableHighAccuracy: true, timeout: 20000, maximumAge: 0 },
  );
}

for (const place of document.querySelectorAll("[data-position]")) {
  if (!(place instanceof HTMLElement)) continue;
  const field = document.getElementById(place.dataset.position ?? "");
  const button = place.querySelector("button");
  if (!(field instanceof HTMLInputElement) || !button) continue;
  place.hidden = false;
  if (isSecureContext && "geolocation" in navigator) {
    button.addEventListener("click", () => ask(place, field));
  } else {
    button.hidden = true;
    tell(place, "insecure");
  }
}
