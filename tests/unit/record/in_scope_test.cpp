// A scope asked about many machines answers as the scope itself.
#include "service/in_scope.h"

#include <doctest/doctest.h>

using service::InScope;
using service::Scope;

TEST_CASE("a scope asked about many machines answers as the scope itself, in whatever order it names them") {
  const Scope scopes[] = {{}, {std::vector<std::string>{}}, {{{"loader"}}}, {{{"pump", "baler", "loader", "baler-2"}}}};
  for (const Scope& scope : scopes) {
    const InScope in_scope(scope);
    for (const char* const machine : {"", "a", "baler", "baler-1", "baler-2", "loader", "pump", "pump-", "z"}) {
      CAPTURE(machine);
      CHECK(in_scope.holds(machine) == scope.holds(machine));
    }
  }
}
