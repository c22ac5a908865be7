// A due list out of a record, kind by kind and machine by machine (`due_list_of`).
#pragma once

#include <cstddef>
#include <memory>

#include "service/kept_books.h"

namespace service {

struct ReadHow {
  const Forecaster* told = nullptr;         // null: by what each kind teaches
  std::size_t most_at_hand = 10'000;        // facts of a kind that are held until it is done: some megabytes
  std::size_t machines_in_a_view = 10'000;  // and those of the kind that was begun
};

DueList list_of_record(const Record& record, std::shared_ptr<const Fleet> fleet, Day as_of, bool day_is_given,
                       const Scope& scope, const DueAsk& ask, const ReadHow& how);

}  // namespace service
