/* Solves programs from the standard input with GLPK and CLP in this process, each
 * with primal and dual simplex in every stage. For each program, library and pair
 * of methods it prints a line a stage:
 *
 *   LIBRARY-METHODS STAGE STATUS OBJECTIVE BUILD_NS SOLVE_NS
 *
 * and "end" after the last one. Times are the least of the repeats; BUILD_NS is
 * for the model, of which the second stage needs no other. */
#include "harness.h"

static const char *const methods[2] = {"dual", "primal"};

static void solve(const Program *p, int repeats, const Library *by, const int primal[2]) {
  Answer best[2] = {{"none", 0, 0}, {"none", 0, 0}};
  long long least = 0;
  for (int k = 0; k < repeats; k++) {
    Answer got[2] = {{"none", 0, 0}, {"none", 0, 0}};
    long long build;
    by->run(p, primal, &build, got);
    if (k == 0 || build < least) least = build;
    for (int s = 0; s < p->stages; s++) {
      const long long before = best[s].ns;
      best[s] = got[s];
      if (k > 0 && before < got[s].ns) best[s].ns = before;
    }
  }
  for (int s = 0; s < p->stages; s++)
    printf("%s-%s-%s %d %s %.17g %lld %lld\n", by->name, methods[primal[0]], methods[primal[1]], s, best[s].status,
           best[s].objective, s == 0 ? least : 0, best[s].ns);
}

int main(void) {
  static const Library *const libraries[] = {&glpk, &clp};
  Program p;
  int repeats;
  while (read_program(stdin, &p, &repeats)) {
    for (int l = 0; l < 2; l++)
      for (int way = 0; way < 4; way++) {
        const int primal[2] = {way & 1, way >> 1};
        solve(&p, repeats, libraries[l], primal);
      }
    puts("end");
    fflush(stdout);
    free_program(&p);
  }
  return 0;
}
