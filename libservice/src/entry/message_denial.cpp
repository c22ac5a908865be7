#include "entry/message_denial.h"

#include <algorithm>
#include <array>

namespace service::entry {

bool is_denial(std::string_view word) {
  constexpr auto words = std::to_array<std::string_view>(
      {"not",     "no",         "nope",       "never",      "none",      "nothing",  "nobody",  "neither", "nor",
       "cannot",  "cant",       "dont",       "doesnt",     "didnt",     "isnt",     "arent",   "wasnt",   "werent",
       "hasnt",   "havent",     "hadnt",      "wont",       "wouldnt",   "shouldnt", "couldnt", "without", "still",
       "yet",     "undone",     "unfinished", "incomplete", "half",      "partly",   "almost",  "nearly",  "missed",
       "skipped", "cancel",     "cancelled",  "canceled",   "postponed", "wrong",    "false",   "untrue",  "mistake",
       "error",   "correction", "sorry",      "ignore",     "disregard"});
  return word.ends_with("n't") || std::find(words.begin(), words.end(), word) != words.end();
}

bool is_foreign_denial(std::string_view word) {
  constexpr auto words = std::to_array<std::string_view>({"nicht",
                                                          "nichts",
                                                          "kein",
                                                          "keine",
                                                          "keinen",
                                                          "nein",
                                                          "nie",
                                                          "ohne",
                                                          "ikke",
                                                          "inte",
                                                          "ej",
                                                          "ingen",
                                                          "uten",
                                                          "uden",
                                                          "utan",
                                                          "niet",
                                                          "geen",
                                                          "nee",
                                                          "zonder",
                                                          "pas",
                                                          "non",
                                                          "sans",
                                                          "aucun",
                                                          "sin",
                                                          "sem",
                                                          "nao",
                                                          "senza",
                                                          "nu",
                                                          "fara",
                                                          "nem",
                                                          "bez",
                                                          "nei",
                                                          "nej",
                                                          "ne",
                                                          "ei",
                                                          "\u043d\u0435",
                                                          "\u043d\u0435\u0442",
                                                          "\u0431\u0435\u0437"});
  return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace service::entry
