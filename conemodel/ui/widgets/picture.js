// One of two pictures, by the width of the window; it is drawn again only when it changed.

const STANDS = new WeakMap();

export default function ({ parentElement, data }) {
  const stand = STANDS.get(parentElement) ?? begin(parentElement);
  stand.data = data;
  draw(stand);
  return () => {
    stand.narrow.removeEventListener("change", stand.turned);
    STANDS.delete(parentElement);
  };
}

function begin(parentElement) {
  const stand = {
    frame: parentElement.querySelector(".picture"),
    narrow: window.matchMedia("(max-width: 640px)"),
  };
  stand.turned = () => draw(stand);
  stand.narrow.addEventListener("change", stand.turned);
  STANDS.set(parentElement, stand);
  return stand;
}

function draw(stand) {
  const { frame, narrow, data } = stand;
  const kind = narrow.matches ? "narrow" : "wide";
  if (stand.drawn !== data[kind]) {
    frame.innerHTML = stand.drawn = data[kind];
    frame.firstElementChild.setAttribute("aria-hidden", "true");
  }
  frame.className = `picture ${kind} ${data.name}`;
  frame.setAttribute("aria-label", data.alt);
}
