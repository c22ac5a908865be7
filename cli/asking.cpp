#include "asking.h"

#include <fmt/format.h>

#include <utility>

#include "event_numbers.h"
#include "service/kept_books.h"

namespace cli {

Asking::Asking(Context& context, std::size_t first_machine)
    : context_(context),
      session_(open_fleet(context)),
      scope_(scope_of(context.arguments, *session_.fleet, first_machine)) {}

const service::Record& Asking::record() {
  if (!record_) record_.emplace(open_record(session_.folder, service::Access::read));
  return *record_;
}

const service::Snapshot& Asking::snapshot() {
  if (!snapshot_) {
    const auto take = whole_fleet_ ? service::take_learnt_fleet_snapshot : service::take_learnt_snapshot;
    snapshot_.emplace(take(session_.fleet, record(), session_.today, session_.day_is_given, scope_));
  }
  return *snapshot_;
}

service::DueList Asking::due_list(const service::DueAsk& ask) {
  return due_list_of(record(), session_.fleet, session_.today, session_.day_is_given, scope_, ask);
}

service::DueList Asking::due_list(const service::DueAsk& ask, const service::Forecaster& forecaster) {
  return due_list_of(record(), session_.fleet, session_.today, session_.day_is_given, scope_, ask, forecaster);
}

const std::vector<service::Fact>& Asking::read_whole_book() {
  if (!book_) {
    service::LearntKinds kinds;
    record().in_one_view([&] {
      book_.emplace(record().facts());
      kinds = service::kept_kinds(*session_.fleet, record(), {}, session_.today);
    });
    service::Extract whole = service::whole_book(*book_);
    whole.kinds = std::move(kinds);
    snapshot_.emplace(session_.fleet, std::move(whole), session_.today, session_.day_is_given, scope_);
    forecaster_.reset();
  }
  return *book_;
}

const service::Forecaster& Asking::forecaster() {
  if (!forecaster_) forecaster_.emplace(service::learnt_from(snapshot()));
  return *forecaster_;
}

service::Replay Asking::replay() {
  const auto facts = record().facts(service::kin_of(fleet(), scope_));
  return service::replay(session_.fleet, facts, today(), scope_, progress("asking the past"));
}

service::CalendarVersion Asking::version() { return service::version_of(record().facts(), today()); }

service::Calendar Asking::numbered(service::Calendar calendar) {
  if (!session_.day_is_given) number_and_remember(calendar, context_, session_.folder);
  return calendar;
}

service::Calendar Asking::numbered_for_looking(service::Calendar calendar) {
  if (!session_.day_is_given) number_as_remembered(calendar, context_, session_.folder);
  return calendar;
}

service::Progress Asking::progress(const std::string& what) const {
  if (!context_.world.error_terminal) return {};
  return [&world = context_.world, what](std::size_t done, std::size_t all) {
    constexpr std::size_t few = 20;
    if (all < few) return;
    if (done + 1 == all) {
      world.write_error("\r\033[K");  // the line goes, the answer comes
    } else if (done % (all / few) == 0) {
      world.write_error(fmt::format("\r{}: {} % ", what, done * 100 / all));
    }
  };
}

}  // namespace cli
