/** Dates as the maker's own computer writes them. */
for (const time of document.querySelectorAll("time[datetime]")) {
  const moment = new Date(time.dateTime);
  time.textContent = moment.toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}
