// Adds months as the library does, for a judge in another language: reads lines "2024-01-31 1", writes lines
// "2024-02-29 2024-02-29" (the sum, and the last day of its month).
#include <cstdio>
#include <cstdlib>

#include "service/base.h"

int main() {
  char day[16];
  int months = 0;
  while (std::scanf("%15s %d", day, &months) == 2) {
    const auto from = service::parse_day(day);
    if (!from) return EXIT_FAILURE;
    const service::Day sum = service::add_months(*from, months);
    std::printf("%s %s\n", service::to_text(sum).c_str(), service::to_text(service::last_of_month(sum)).c_str());
  }
  return EXIT_SUCCESS;
}
