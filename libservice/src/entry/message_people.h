// Whom the book knows by name.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "service/messages.h"
#include "service/typed.h"

namespace service::entry {

// Whoever did or entered something that stands in the book, in all of it, as it has the name. Read when somebody is
// named.
class KnownPeople {
 public:
  KnownPeople(const Record& record, const MessagesAsk& ask, const Writer& writer) : record_(record) {
    add(ask.by);
    add(writer.name);
  }

  std::optional<std::string> called(std::string_view written) {
    if (!is_read_) {
      is_read_ = true;
      const std::vector<Fact> all = record_.facts();
      for (const Fact& fact : unstruck(all)) {
        add(fact.by);
        add(fact.entered_by);
      }
    }
    const auto found = names_.find(folded_name(written));
    return found == names_.end() ? std::nullopt : std::optional(found->second);
  }

 private:
  // `unknown` is whoever entered something and did not say who he is.
  void add(const std::string& name) {
    std::string folded = folded_name(name);
    if (!folded.empty() && folded != "unknown") names_.emplace(std::move(folded), name);
  }

  const Record& record_;
  bool is_read_ = false;
  std::map<std::string, std::string> names_;  // by how they are compared
};

}  // namespace service::entry
