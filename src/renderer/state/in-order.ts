/**
 * Answers may overtake each other. Made for one thing that is asked for again and again: gives each answer, but null for
 * one that was asked for before another that has come already, for it tells what was.
 */
export function inOrder(): <T>(answer: Promise<T>) => Promise<T | null> {
  let asked = 0;
  let come = 0;
  return async (answer) => {
    asked += 1;
    const mine = asked;
    const given = await answer;
    if (mine < come) return null;
    come = mine;
    return given;
  };
}
