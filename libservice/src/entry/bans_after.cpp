#include "service/bans_after.h"

namespace service {

std::vector<RunBan> bans_after(const Entered& entered) {
  return entered.after == nullptr ? std::vector<RunBan>{} : run_bans(*entered.after);
}

CheckWhen check_when(const Entered& entered, const Point& check, const NotToRun& not_to_run) {
  if (entered.after->state_of(*check.machine) != nullptr) return CheckWhen::once_back;
  return not_to_run.holds(*check.machine) ? CheckWhen::once_mended : CheckWhen::after_work;
}

}  // namespace service
