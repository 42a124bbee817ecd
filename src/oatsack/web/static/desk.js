// The pages work without this. With it: the place on the page is kept over a change, a pressed
// button says that the plan is being made, and what changed is read out.
const key = "oatsack-scroll " + location.pathname;
for (const form of document.querySelectorAll('form[method="post"]')) {
  form.addEventListener("submit", () => {
    sessionStorage.setItem(key, String(scrollY));
    form.setAttribute("aria-busy", "true");
    const status = document.querySelector("[role=status]");
    if (status) status.textContent = "Planning…";
  });
}
const kept = sessionStorage.getItem(key);
if (kept !== null) {
  sessionStorage.removeItem(key);
  requestAnimationFrame(() => scrollTo(0, Number(kept)));
  document.querySelector("#changed")?.focus({ preventScroll: true });
}
