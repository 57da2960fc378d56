const AGAIN = 2000;

/**
 * Listen to what changes of a job; begins again by itself when the server was away.
 * @param {string} url
 * @param {{hello: (told: any) => void, run: (run: any) => void, file: (told: any) => void, plan: (told: any) => void,
 *   lost: () => void}} on
 * @returns {() => void} ends it
 */
export function listen(url, on) {
  let source = null;
  let timer = 0;
  const begin = () => {
    source = new EventSource(url);
    for (const name of ["hello", "run", "file", "plan"]) {
      source.addEventListener(name, (event) => on[name](JSON.parse(event.data)));
    }
    source.onerror = () => {
      on.lost();
      // the browser tries again by itself only where the server was reached
      if (source.readyState !== EventSource.CLOSED) return;
      clearTimeout(timer);
      timer = setTimeout(begin, AGAIN);
    };
  };
  begin();
  return () => {
    clearTimeout(timer);
    source.close();
  };
}
