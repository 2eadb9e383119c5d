document.querySelectorAll("thead th").forEach(function (head, column) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = head.textContent;
  head.replaceChildren(button);
  button.addEventListener("click", function () {
    const down = head.getAttribute("aria-sort") === "ascending";
    document.querySelectorAll("thead th").forEach(function (other) { other.removeAttribute("aria-sort"); });
    head.setAttribute("aria-sort", down ? "descending" : "ascending");
    const body = document.querySelector("tbody");
    const order = new Intl.Collator("en", { numeric: true });
    const rows = Array.from(body.rows).sort(function (one, other) {
      return order.compare(one.cells[column].textContent, other.cells[column].textContent);
    });
    body.append(...(down ? rows.reverse() : rows));
  });
});
