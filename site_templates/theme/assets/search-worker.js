/*
 * Stands between the page and the theme's search worker. Says at once that search is ready; fetches the
 * documents, and starts the theme's worker with them, on the first query that is not empty.
 */
"use strict";

const SETUP = 0, READY = 1, QUERY = 2, RESULT = 3;

const own = new URL(self.location);
const documents = new URL("../search/documents.json", own);
const theirs = new URL(`../${own.searchParams.get("worker")}`, own);

let setup = null;
let started = null;

const nothing = () => postMessage({ type: RESULT, data: { items: [] } });

const start = async () => {
  const answer = await fetch(documents);
  if (!answer.ok) throw new Error(`${documents}: ${answer.status}`);
  const { docs } = await answer.json();
  const worker = new Worker(theirs);
  await new Promise((ready, failed) => {
    worker.onerror = failed;
    worker.onmessage = ready;
    worker.postMessage({ ...setup, data: { ...setup.data, docs } });
  });
  worker.onmessage = ({ data }) => postMessage(data);
  return worker;
};

addEventListener("message", async ({ data: message }) => {
  if (message.type === SETUP) {
    setup = message;
    postMessage({ type: READY });
  } else if (message.type === QUERY && !message.data.trim() && !started) {
    nothing();
  } else if (message.type === QUERY) {
    started ??= start();
    try {
      (await started).postMessage(message);
    } catch {
      started = null; // off line, perhaps: the next letter tries again
      nothing();
    }
  }
});
