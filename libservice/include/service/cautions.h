// What to beware of. One catalogue of sentences that a schedule names (`cautions: [hot-fluid, used-oil]`), and what
// everybody is told who goes to a machine. Which cautions a service carries is `Task::all_cautions`.
#pragma once

#include <array>
#include <span>
#include <string_view>

#pragma GCC visibility push(default)

namespace service {

struct Caution {
  std::string_view name;
  std::string_view sentence;
  std::string_view source;  // a text that was published, "common practice, no source", or "from memory" behind it
};

// All of them, in the order in which they are best read.
std::span<const Caution> caution_catalogue();

const Caution* caution(std::string_view name);  // null where there is none of that name

// Whether a caution as written in a schedule can only be a name: one word, without blanks or letters beyond ASCII.
// Anything else is a sentence of the schedule's own.
bool is_caution_name(std::string_view written);

// What a worker is to read: the sentence of the catalogue, else the schedule's own, as it stands.
std::string_view caution_sentence(std::string_view written);

// For everybody who goes to a machine, whatever for.
struct BaseCautions {
  std::array<std::string_view, 8> steps;  // in the order in which they are done
  std::string_view afterwards;
  std::string_view in_a_line;  // the foot of a list that sends people to machines
};

const BaseCautions& base_cautions();

}  // namespace service

#pragma GCC visibility pop
