// A form that only asks: while one types, the answer beside it follows, and the address with it.
// Without this the button asks; what comes is the same.
const PAUSE = 60; // ms of rest before the question goes out
const form = document.querySelector("form.live");
let pause = 0;
let latest = 0;

async function ask() {
    const number = ++latest;
    const address = `${location.pathname}?${new URLSearchParams(new FormData(form))}`;
    const answer = await fetch(address);
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    if (number !== latest) return; // a later question is on its way
    document.querySelector("#answer").replaceWith(page.querySelector("#answer"));
    for (const typed of form.querySelectorAll("input, select")) {
        const field = typed.closest(".field");
        const told = page.querySelector(`form.live [name="${typed.name}"]`)?.closest(".field")?.querySelector(".wrong");
        field.querySelector(".wrong")?.remove();
        typed.toggleAttribute("aria-invalid", Boolean(told));
        if (told) field.append(told);
    }
    history.replaceState(null, "", address);
}

form.addEventListener("input", () => {
    clearTimeout(pause);
    pause = setTimeout(ask, PAUSE);
});
