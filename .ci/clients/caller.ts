// Callers of the client in TypeScript, who ask every example of the contract over and over
// until their input ends. Tells how many were answered and, a line each, what went wrong.
// make chaos runs it while it treats the program badly.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { Client, ProblemError } from "./latewood/client.js";

const callers = 4;
const [service, examples] = process.argv.slice(2);
if (service === undefined || examples === undefined) throw new Error("usage: caller SERVICE EXAMPLES <input");

const questions = readdirSync(examples)
  .filter((file) => /^[a-z-]+\./.test(file)) // operations of the rack have capitals
  .map((file) => ({ path: ("/v1/" + file.split(".")[0]) as "/v1/movement", request: JSON.parse(readFileSync(join(examples, file), "utf8")) }));

let over = false, answered = 0, failed = 0;
process.stdin.on("end", () => { over = true; }).resume();

// askedOnce asks a question, as a stream of one where it may be.
async function askedOnce(client: Client, { path, request }: (typeof questions)[number], streamed: boolean): Promise<void> {
  if (!streamed || path.endsWith("/batch")) return void (await client.ask(path, request));
  let answers = 0;
  for await (const item of client.stream([{ route: path, request }])) {
    answers++;
    if (item.problem !== undefined && item.problem.status >= 500) throw new ProblemError(item.problem);
  }
  if (answers !== 1) throw new Error(`${answers} answers to one item`);
}

async function caller(n: number): Promise<void> {
  const client = new Client(service ?? "");
  for (let i = n; !over; i++) {
    const question = questions[i % questions.length];
    if (question === undefined) throw new Error("no examples");
    try {
      await askedOnce(client, question, i % 2 === 0);
      answered++;
    } catch (error) {
      failed++;
      console.log(`a caller of the client in TypeScript was told of ${question.path}: ${error}`);
    }
  }
}

await Promise.all(Array.from({ length: callers }, (_, n) => caller(n)));
console.log(`${answered} ${failed}`);
