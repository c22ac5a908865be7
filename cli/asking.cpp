#include "asking.h"

#include <fmt/format.h>

#include <utility>

#include "event_numbers.h"
#include "service/kept_books.h"

namespace cli {

Asking::Asking(Context& context, std::size_t first_machine)
    : context_(context),
      session_(open_fleet(context)),
      scope_(scope_of(context.arguments, *session_.fleet, first_machine)) {
  // Who only asks has no more use for their texts, which of large fleets are large. (Assigned nothing, a text keeps its
  // room.)
  const service::FleetFiles let_go = std::move(session_.files);
}

const service::Record& Asking::record() {
  if (!record_) record_.emplace(open_record(context_, session_.folder, service::Access::read));
  return *record_;
}

const service::Snapshot& Asking::snapshot() {
  if (!snapshot_) {
    const auto take = whole_fleet_ ? service::take_learnt_fleet_snapshot : service::take_learnt_snapshot;
    snapshot_.emplace(take(session_.fleet, record(), session_.today, session_.day_is_given, scope_));
  }
  return *snapshot_;
}

service::DueList Asking::due_list(service::DueAsk ask) {
  ask.progress = progress(deciding_what_is_due);
  return due_list_of(record(), session_.fleet, session_.today, session_.day_is_given, scope_, ask);
}

service::DueList Asking::due_list(service::DueAsk ask, const service::Forecaster& forecaster) {
  ask.progress = progress(deciding_what_is_due);
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

service::Progress Asking::progress(const std::string& what) const { return telling(context_.progress, what); }

}  // namespace cli
