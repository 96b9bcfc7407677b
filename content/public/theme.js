// Runs before the first paint, so that a chosen theme never flashes. Kept out of the page because the
// content policy allows no inline script.
try {
  const theme = localStorage.getItem("bilayer-bench.theme");
  if (theme === "light" || theme === "dark") document.documentElement.dataset.theme = theme;
} catch {
  // Storage is forbidden: the system's theme it is.
}
