// Keeps a sheet that was opened readable without a network, and an outcome that was typed from being lost.
"use strict";

// A network that goes while the worker is fetched costs this opening its copy, nothing else: the next opening tries again.
if ("serviceWorker" in navigator) navigator.serviceWorker.register("/visit/worker.js", { scope: "/visit/" }).catch(console.warn);

const offline = document.getElementById("offline");
const told = () => {
  offline.hidden = navigator.onLine;
  offline.textContent = "No network. The sheet stays readable; the outcome is kept on this phone and sent later.";
};
addEventListener("online", told);
addEventListener("offline", told);
told();
(document.getElementById("missing") || document.getElementById("recorded"))?.focus();

for (const form of document.querySelectorAll("form[data-keep]")) {
  const place = location.pathname + "#" + form.dataset.keep;
  const waiting = form.querySelector(".waiting");
  const sent = form.querySelector(".band.saved");

  const keep = (send) => localStorage.setItem(place, JSON.stringify({ send, fields: [...new FormData(form)] }));
  const kept = JSON.parse(localStorage.getItem(place) || "null");

  if (kept && sent && !kept.send) localStorage.removeItem(place);
  else if (kept && !form.querySelector("[aria-invalid]")) {
    for (const field of form.elements) {
      const values = kept.fields.filter(([name]) => name === field.name).map(([, value]) => value);
      if (field.type === "radio" || field.type === "checkbox") field.checked = values.includes(field.value);
      else if (field.name && field.type !== "hidden" && values.length) field.value = values[0];
    }
  }

  const later = () => {
    keep(true);
    waiting.hidden = false;
    waiting.textContent = "Kept on this phone. It is sent when the network is back and this page is open.";
  };

  form.addEventListener("input", () => keep(false));
  form.addEventListener("submit", (event) => {
    if (navigator.onLine) return keep(false);
    event.preventDefault();
    later();
  });
  if (kept && kept.send) {
    if (navigator.onLine) form.requestSubmit();
    else later();
  }
  addEventListener("online", () => {
    const now = JSON.parse(localStorage.getItem(place) || "null");
    if (now && now.send) form.requestSubmit();
  });
}
