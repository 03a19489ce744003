// Judges deliveries given as JSON lines on standard input and writes the judgements as JSON lines.
// `manage.py crosscheck` bundles and runs it, and compares the answers with the server's.

import { createInterface } from "node:readline";
import { DEFAULT_LIMITS } from "../trade/limits";
import { Unusable } from "../trade/quantities";
import { judgeDocument } from "../trade/verdict";

interface Case {
  document: unknown;
  specifications: unknown;
  limits: unknown;
}

function answer(text: string): unknown {
  const { document, specifications, limits } = JSON.parse(text) as Case;
  try {
    return judgeDocument(document, specifications, limits === "default" ? DEFAULT_LIMITS : limits);
  } catch (problem) {
    if (problem instanceof Unusable) return { error: problem.code, facts: problem.facts };
    throw problem;
  }
}

for await (const text of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
  if (text !== "") process.stdout.write(JSON.stringify(answer(text)) + "\n");
}
