// Sliders beside the fields of a what-if, and an answer that follows the hand. Without this the
// fields are typed and the button asks; what is reckoned is the same.
const PAUSE = 16; // ms of rest before the question goes out: one picture
const DAY = 86400000;

const form = document.querySelector("form.said");
const last = { asked: 0, shown: 0, pause: 0 };

// How each kind of field reads as a number, and is written again.
const kinds = {
    number: {
        read: (text) => parseFloat(text),
        write: (value) => String(value),
    },
    money: {
        read: (text) => parseFloat(text.replace(/[, ]/g, "")),
        write: (value, field) => `${value} ${field.dataset.currency}`,
    },
    day: {
        read: (text, field) => Math.round((Date.parse(text) - Date.parse(field.dataset.from)) / DAY),
        write: (value, field) =>
            new Date(Date.parse(field.dataset.from) + value * DAY).toISOString().slice(0, 10),
    },
};

function addSlider(field) {
    const kind = kinds[field.dataset.kind];
    const typed = field.querySelector("input");
    const slider = document.createElement("input");
    slider.type = "range";
    slider.min = field.dataset.low;
    slider.max = field.dataset.high;
    slider.step = field.dataset.step;
    slider.setAttribute("aria-label", field.querySelector("label").textContent + ", by hand");
    const follow = () => {
        const value = kind.read(typed.value, field);
        if (Number.isFinite(value)) slider.value = value;
        slider.setAttribute("aria-valuetext", typed.value);
    };
    slider.addEventListener("input", () => {
        typed.value = kind.write(Number(slider.value), field);
        slider.setAttribute("aria-valuetext", typed.value);
    });
    typed.addEventListener("input", follow);
    follow();
    typed.before(slider);
    typed.closest(".field").classList.add("slid");
}

// The line beside a field that was wrong, as the page that was fetched has it.
function showFaults(page) {
    for (const field of form.querySelectorAll("[data-key]")) {
        const told = page.querySelector(`form.said [data-key="${field.dataset.key}"] .wrong`);
        const typed = field.querySelector("input:not([type=range])");
        field.querySelector(".wrong")?.remove();
        typed.removeAttribute("aria-invalid");
        if (!told) continue;
        told.id = `wrong-${field.dataset.key}`;
        typed.setAttribute("aria-invalid", "true");
        typed.setAttribute("aria-describedby", told.id);
        typed.closest(".field").append(told);
    }
}

async function ask() {
    const mine = ++last.asked;
    const address = `${form.action}?${new URLSearchParams(new FormData(form))}`;
    let page;
    try {
        const response = await fetch(address);
        page = new DOMParser().parseFromString(await response.text(), "text/html");
    } catch {
        return; // the button still asks
    }
    if (mine < last.shown || !page.getElementById("answer")) return;
    last.shown = mine;
    showFaults(page);
    for (const id of ["headline", "answer"])
        document.getElementById(id).replaceWith(page.getElementById(id));
}

if (form) {
    for (const field of form.querySelectorAll("[data-kind]")) addSlider(field);
    form.addEventListener("input", () => {
        clearTimeout(last.pause);
        last.pause = setTimeout(ask, PAUSE);
    });
    form.addEventListener("submit", (event) => {
        event.preventDefault();
        ask();
    });
}
