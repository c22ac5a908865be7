// What all commands that ask have in common: which fleet, which machines, which day, what the record holds of them, and
// the answer in the format that was asked for.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answering.h"
#include "service/calendar.h"
#include "service/due_list.h"
#include "service/outlook.h"
#include "service/snapshot.h"
#include "service/standing.h"
#include "service/usage.h"
#include "session.h"

namespace cli {

class Asking {
 public:
  // Opens the fleet. About the machines of --machine, --site and of the words from this one on; all where none is
  // named.
  explicit Asking(Context& context, std::size_t first_machine = 0);

  const Arguments& arguments() const { return context_.arguments; }
  const service::Fleet& fleet() const { return *session_.fleet; }
  service::Day today() const { return session_.today; }
  const service::Scope& scope() const { return scope_; }
  void narrow_to(const service::Machine& machine) { scope_ = only(machine); }
  void widen() { scope_ = {}; }  // to the whole fleet, where what is told is chosen afterwards

  // For answers whose figures are the fleet's and whose rows are the scope's.
  void read_whole_fleet() { whole_fleet_ = true; }

  // The record is opened by the first of these that is called, so that mistakes in options are told before it is
  // missed. Fails with not_found, io, busy and bad_data.
  const service::Snapshot& snapshot();
  // A list of what is due or not known, which reads no history where it need not, and holds no more than it keeps.
  // Without a forecaster: by what each kind of machine teaches.
  service::DueList due_list(service::DueAsk ask);
  service::DueList due_list(service::DueAsk ask, const service::Forecaster& forecaster);
  const service::Forecaster& forecaster();
  service::Replay replay();
  service::CalendarVersion version();  // by the whole book, so that it is the same in every scope
  // By the numbers under which events were handed out before, which are kept; but not where a day is given: that is a
  // look at another day, and the calendar is the same whatever was handed out.
  service::Calendar numbered(service::Calendar calendar);
  // As it would be numbered if it were handed out now.
  service::Calendar numbered_for_looking(service::Calendar calendar);
  // All facts of the record, struck ones and strikes too, from which the snapshot is made.
  const std::vector<service::Fact>& read_whole_book();

  // Says how far `what` is.
  service::Progress progress(const std::string& what) const;

  template <class Formats, class Answer>
  void write(const Formats& formats, const Answer& answer, std::size_t left_off = 0) {
    put_answer(context_, formats, answer, left_off);
  }

 private:
  const service::Record& record();

  Context& context_;
  Session session_;
  service::Scope scope_;
  bool whole_fleet_ = false;
  std::optional<std::vector<service::Fact>> book_;
  std::optional<service::Record> record_;
  std::optional<service::Snapshot> snapshot_;
  std::optional<service::Forecaster> forecaster_;
};

}  // namespace cli
