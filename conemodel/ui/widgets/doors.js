// The doors of the start page. Each is a few links, drawn in one go: as elements of the frame they would keep the hub
// waiting. A page is opened without loading all afresh, unless it is asked for in a tab of its own.

class Doors {
  constructor(root) {
    this.box = root.querySelector(".doors");
    this.box.addEventListener("click", (event) => this.open(event));
  }

  take({ doors }) {
    const given = JSON.stringify(doors);
    if (given !== this.drawn) this.box.replaceChildren(...doors.map(drawDoor));
    this.drawn = given;
  }

  open(event) {
    const link = event.target.closest("a");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    this.component.setTriggerValue("page", link.getAttribute("href"));
  }

  close() {}
}

function drawDoor({ name, lead, due, pages }) {
  const links = pages.map(({ title, address }) => node("li", {}, [node("a", { href: address }, [title])]));
  return node("section", {}, [
    node("h2", {}, [name]),
    node("p", {}, [due ? node("strong", {}, [lead]) : lead]),
    node("ul", { class: "links", role: "list" }, links),
  ]);
}

function node(tag, given, inside) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) made.setAttribute(name, value);
  made.append(...inside);
  return made;
}

export default (component) => standAt(component, (root) => new Doors(root));
