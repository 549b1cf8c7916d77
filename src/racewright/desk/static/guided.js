// The two-minute look: an offer on the first visit, then a card that points at real things, page after page.
(() => {
  const steps = JSON.parse(document.getElementById("guided-steps").textContent);
  const AT = "racewright_guided", PHONE = 640;
  const seen = () => /racewright_guided=seen/.test(document.cookie);
  const remember = () => (document.cookie = `${AT}=seen;path=/;max-age=31536000;samesite=strict`);
  let offer = null, card = null, ring = null, following = 0;
  let corner = { w: 384, h: 220 }; // size of the card where it stands in a corner [px]

  const make = (tag, classes, text, pressed) => {
    const e = document.createElement(tag);
    e.className = classes;
    if (text) e.textContent = text;
    if (pressed) {
      e.type = "button";
      e.addEventListener("click", pressed);
    }
    return e;
  };

  const begin = () => {
    sessionStorage.setItem(AT, "0");
    go(0);
  };

  const end = () => {
    remember();
    sessionStorage.removeItem(AT);
    cancelAnimationFrame(following);
    const held = card && card.contains(document.activeElement);
    [offer, card, ring].forEach((e) => e && e.remove());
    offer = card = ring = null;
    document.body.style.removeProperty("padding-bottom");
    if (held) document.getElementById("page")?.focus({ preventScroll: true });
  };

  const go = (at) => {
    if (at >= steps.length) return end();
    sessionStorage.setItem(AT, String(at));
    const step = steps[at];
    if (step.address === location.pathname) return show(at);
    const station = [...document.querySelectorAll(".stream a")].find((a) => new URL(a.href).pathname === step.address);
    location.href = station ? station.href : step.address;
  };

  const show = (at) => {
    const step = steps[at];
    if (offer) offer = void offer.remove();
    if (!card) {
      card = make("aside", "guided card");
      card.tabIndex = -1;
      card.dataset.layer = "";
      card.setAttribute("aria-label", "A two-minute look");
      card.dataset.at = innerWidth < PHONE ? "sheet" : "right";
      ring = make("div", "guided ring");
      document.body.append(ring, card);
    }
    const next = make("button", "knob strong", at + 1 < steps.length ? "Next" : "Done", () => go(at + 1));
    const back = make("button", "knob", "Back", () => go(at - 1));
    back.disabled = at === 0;
    const knobs = make("div", "knobs");
    knobs.append(next, back, make("button", "knob quiet", "Close", end));
    const said = make("div", "said");
    said.setAttribute("role", "status");
    said.append(make("p", "count", `${at + 1} of ${steps.length}`), make("h2", "", step.title), make("p", "", step.text));
    card.replaceChildren(said, knobs);
    next.focus({ preventScroll: true });
    follow(step);
  };

  // The card keeps clear of what it speaks of: a sheet below on a phone, on a wide window the corner that is free.
  const settle = (box) => {
    if (card.dataset.at !== "sheet") corner = { w: card.offsetWidth, h: card.offsetHeight };
    const { w, h } = corner, edge = 24;
    const free = { right: box.right + 6 < innerWidth - edge - w, left: box.left - 6 > edge + w };
    const clear = box.bottom + 6 < innerHeight - h - edge;
    const at = innerWidth < PHONE ? "sheet" : clear || free.right ? "right" : free.left ? "left" : "sheet";
    if (card.dataset.at !== at) card.dataset.at = at;
    document.body.style.paddingBottom = `${card.offsetHeight + 32}px`;
  };

  // The answer may come later, and the page moves while it does: look for the thing as long as the card stands.
  const follow = (step) => {
    cancelAnimationFrame(following);
    let brought = null, quiet = 0, last = "";
    const look = () => {
      const thing = document.querySelector(`#page ${step.target}, header ${step.target}`);
      const target = thing && thing.checkVisibility() ? thing : document.querySelector("#page h1");
      if (target) {
        const box = target.getBoundingClientRect();
        const place = `${target.localName}${Math.round(box.top + scrollY)} ${Math.round(box.height)}`;
        quiet = place === last ? quiet + 1 : 0;
        last = place;
        if (quiet > 2 && brought !== place) {
          brought = place;
          scrollTo({ top: Math.max(0, box.top + scrollY - (innerWidth < PHONE ? 16 : 64)) });
        }
        settle(target.getBoundingClientRect());
        const own = card.getBoundingClientRect();
        const now = target.getBoundingClientRect();
        const room = now.right < own.left || now.left > own.right ? innerHeight - 8 : own.top - 12;
        const high = Math.min(now.height, room - now.top);
        const at = { top: now.top + scrollY - 6, left: Math.max(2, now.left - 6), high: high + 12 };
        ring.hidden = high < 1;
        ring.style.cssText = `top: ${at.top}px; left: ${at.left}px; width: ${Math.min(now.right + 6, innerWidth - 2) - at.left}px; height: ${at.high}px`;
        ring.dataset.at = target === thing ? step.target : "h1";
        ring.dataset.still = String(quiet > 4);
      }
      following = requestAnimationFrame(look);
    };
    look();
  };

  const propose = () => {
    offer = make("aside", "guided offer");
    offer.setAttribute("aria-label", "A two-minute look");
    const knobs = make("div", "knobs");
    knobs.append(make("button", "knob strong", "Show me", begin), make("button", "knob quiet", "No, thanks", end));
    offer.append(make("p", "", "New here? A two-minute look at what is where."), knobs);
    document.body.prepend(offer);
  };

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && (card || offer?.contains(document.activeElement))) end();
  });
  document.addEventListener("click", (event) => event.target.closest("[data-guided]") && begin());

  const at = Number(sessionStorage.getItem(AT) ?? -1);
  if (steps[at]?.address === location.pathname) show(at);
  else if (at < 0 && !seen() && steps.length) propose();
})();
