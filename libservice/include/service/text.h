// Names that are near, plural forms, and text made safe to show.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#pragma GCC visibility push(default)

namespace service {

// The nearest of the names within a small edit distance of what was written, most similar first, at most three.
std::vector<std::string> nearest(std::string_view written, std::span<const std::string> names);

// "did you mean `a` or `b`?", or an empty text where there are none.
std::string did_you_mean(std::span<const std::string> near);

// The same of the nearest names.
std::string did_you_mean(std::string_view written, std::span<const std::string> names);

// The same, or else the other advice.
std::string nearest_or(std::string_view written, std::span<const std::string> names, std::string otherwise);

// What to say of a name that is not there: the nearest ones, or else those that have a word in common with it, and how
// many there are; where none has, all of them where they are few, else how many there are. `none` where there are no
// names at all.
std::string names_instead(std::string_view written, std::span<const std::string> names, std::string_view none);

// A name as it is compared where people write it: case makes no difference, nor do blanks at its ends or several in a
// row. Latin, Greek and Cyrillic letters have case.
std::string folded_name(std::string_view name);

// Of these names the one that is written: as it stands, else the only one that is the same where case makes no
// difference and hyphens are blanks (`Brake pull` for `brake-pull`). Nothing where there is none, or more than one.
std::optional<std::string> name_written(std::string_view written, std::span<const std::string> names);

// The words of a name, compared so: `long pedal on the left` in five.
std::vector<std::string> folded_words(std::string_view name);

// "1 day", "2 days"; "1 machine", "3 machines".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);

// In which byte the first letter begins that is no well-formed UTF-8: cut off, overlong, half of a pair, or beyond the
// last one. Nothing where all is well.
std::optional<std::size_t> first_bad_utf8(std::string_view text);

// Lower-case letters, digits and hyphens, beginning with a letter or digit: how machines, tasks, sites are called.
bool is_name(std::string_view text);

// The nearest text that is a name; empty where nothing is left of it.
std::string as_name(std::string_view text);

// Latin letters as plain lower-case ones, as people write them where they have no others (ü: ue, é: e, ß: ss). All else
// as it is.
std::string in_plain_letters(std::string_view text);

// Control characters (C0, DEL, C1) and bidirectional overrides made harmless, for showing text from files.
std::string cleaned(std::string_view text);

}  // namespace service

#pragma GCC visibility pop
