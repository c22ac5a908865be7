// Reading a map by a table of its keys. The table is the list of keys that exist, and says what each one means.
#pragma once

#include <fmt/format.h>

#include <algorithm>

#include "fleet/reader.h"

namespace service::fleet {

enum class Need { optional, required };

template <class Into>
struct Key {
  std::string_view name;
  void (*read)(const Reader& reader, const Field& field, Into& into);
  Need need = Need::optional;
};

template <class Into, std::size_t N>
std::vector<std::string> names_of(const Key<Into> (&keys)[N]) {
  std::vector<std::string> names;
  for (const Key<Into>& key : keys) names.emplace_back(key.name);
  return names;
}

template <class Into, std::size_t N>
std::string all_keys(std::string_view what, const Key<Into> (&keys)[N]) {
  return fmt::format("the keys of {} are {}", what, listed(names_of(keys), "and"));
}

// `owner` is the map, `what` names it in messages ("a machine"). Unknown and missing keys are reported.
template <class Into, std::size_t N>
void read_keys(const Reader& reader, const Field& owner, std::string_view what, const Key<Into> (&keys)[N],
               Into& into) {
  if (owner.value->kind != Node::Kind::map) {
    reader.map(owner, all_keys(what, keys));
    return;
  }
  const auto fields = *reader.map(owner, {});
  for (const Field& field : fields) {
    const auto* const known =
        std::find_if(std::begin(keys), std::end(keys), [&](const Key<Into>& key) { return key.name == field.name; });
    if (known != std::end(keys)) {
      known->read(reader, field, into);
    } else {
      reader.error(code::unknown_key, reader.spot(field.key),
                   fmt::format("{} has no key `{}`", what, cleaned(field.name)),
                   nearest_or(field.name, names_of(keys), all_keys(what, keys)));
    }
  }
  for (const Key<Into>& key : keys) {
    const bool given = std::any_of(fields.begin(), fields.end(), [&](const Field& f) { return f.name == key.name; });
    if (key.need == Need::required && !given) {
      reader.error(code::missing_key, reader.spot(owner.key), fmt::format("{} needs `{}`", what, key.name),
                   fmt::format("add `{}:` to it", key.name));
    }
  }
}

}  // namespace service::fleet
