// What the desk's pages do besides: filling in another time chooses it.
"use strict";

for (const part of document.querySelectorAll("[data-chooses]")) {
  const radio = part.closest("form").querySelector(`input[type=radio][value="${part.dataset.chooses}"]`);
  const choose = (event) => { if (event.target.value) radio.checked = true; };
  part.addEventListener("input", choose);
  part.addEventListener("change", choose);
}
