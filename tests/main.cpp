// The test program's one main. It holds most of what Catch2 costs to compile, so it changes seldom.
//
// BELAY_TEST_LOCALE=NAME runs the tests with that locale set in the whole process, as in a front end that turns its
// user's locale on: printed numbers must keep their point. Exit code 77 when the machine does not have the locale.
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#include <clocale>
#include <cstdio>
#include <cstdlib>
#include <locale>
#include <stdexcept>

int main(int argc, char* argv[]) {
  if (const char* name = std::getenv("BELAY_TEST_LOCALE")) {
    try {
      std::locale::global(std::locale(name));  // the C library's too
    } catch (const std::runtime_error&) {
      std::fprintf(stderr, "locale %s is not on this machine\n", name);
      return 77;
    }
    if (std::localeconv()->decimal_point[0] != ',') {
      std::fprintf(stderr, "locale %s has no decimal comma, so it tests nothing\n", name);
      return 1;
    }
  }
  return Catch::Session().run(argc, argv);
}
