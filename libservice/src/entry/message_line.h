// The words of one line of a message, and the command that they begin with.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "service/diagnostics.h"
#include "service/record.h"

namespace service::entry::message {

struct Word {
  std::string text;
  bool quoted = false;  // then it is no word of ours, whatever it says
};
using Words = std::span<const Word>;

// Fails with usage.
[[noreturn]] void wrong(std::string code, std::string message, std::string hint);

// Facts that are whole, but for words beside them of which nobody can tell what they change: to be sent anew, or
// entered by a command.
class AskedBack : public Failure {
 public:
  AskedBack(Diagnostic why, std::vector<Fact> facts)
      : Failure(FailureKind::usage, std::move(why)), facts_(std::move(facts)) {}

  const std::vector<Fact>& facts() const { return facts_; }

 private:
  std::vector<Fact> facts_;
};

std::string joined(Words words);

// Words between blanks; what stands between quotes is one. A quote within a word (5" hose) is part of it.
std::vector<Word> words_of(std::string_view text);

bool is_word(const Word& word, std::string_view text);

// Whether it is one of these, without the marks of a sentence around it: `(tomorrow!)`.
bool is_one_of(const Word& word, std::span<const std::string_view> words);

// The name of an option with dashes, `--sure`; a telephone makes one long dash of two. Empty: it is none.
std::string option_of(const Word& word);

bool is_number(std::string_view text);

// The stop behind a sentence; that of an abbreviation (M.T.) belongs to it.
std::string without_stop(const std::string& text);

// Small pictures at the end that say no more than "so it is".
void drop_last_nods(std::vector<Word>& words);

// Marks at the end that only raise the voice, `!!` and pictures of alarm: what is left of the text.
std::string_view without_cries(std::string_view text);

// The same at both ends, with points and pictures of any kind but those that may say no.
std::string_view without_pictures(std::string_view text);

enum class Verb { reading, done, saw, looked, out_of_use };

inline constexpr std::array<std::pair<std::string_view, Verb>, 5> verbs{{{"reading", Verb::reading},
                                                                         {"done", Verb::done},
                                                                         {"saw", Verb::saw},
                                                                         {"looked", Verb::looked},
                                                                         {"out-of-use", Verb::out_of_use}}};

// Which command these words begin with, and how many of them it takes.
std::optional<std::pair<Verb, std::size_t>> verb_of(Words words);

inline constexpr std::string_view forms =
    "say MACHINE VALUE, done MACHINE TASK, saw MACHINE SIGN, looked MACHINE SIGN found good, or out-of-use MACHINE";

}  // namespace service::entry::message
