#include <doctest/doctest.h>

#include <algorithm>

#include "unit/record/support.h"

using namespace service;

TEST_CASE("the text of an id is 26 digits of base 32, the time in front") {
  CommandId none;
  CHECK(to_text(none) == std::string(26, '0'));
  CommandId all;
  all.bytes.fill(0xff);
  CHECK(to_text(all) == "7" + std::string(25, 'z'));
  // 1 millisecond, and 1 in the last byte.
  CHECK(to_text(make_command_id(1, {0, 0, 0, 0, 0, 0, 0, 0, 0, 1})) == "00000000010000000000000001");
  CHECK(to_text(make_command_id(32, {})) == "00000000100000000000000000");
}

TEST_CASE("an id survives its text") {
  std::uint64_t state = 1;
  int same = 0;
  for (int i = 0; i < 1000; ++i) {
    CommandId id;
    for (std::uint8_t& byte : id.bytes) {
      state = state * 6364136223846793005U + 1442695040888963407U;
      byte = static_cast<std::uint8_t>(state >> 56);
    }
    const auto again = parse_command_id(to_text(id));
    if (again && *again == id) ++same;
  }
  CHECK(same == 1000);
}

TEST_CASE("ids and their texts sort by time") {
  std::vector<CommandId> ids;
  for (const std::int64_t time : {0LL, 1LL, 31LL, 32LL, 255LL, 256LL, 1'767'225'600'000LL, 281'474'976'710'655LL}) {
    ids.push_back(make_command_id(time, {0xff, 0, 0xff, 0, 0, 0, 0, 0, 0, 1}));
    CHECK(milliseconds_of(ids.back()) == time);
  }
  std::vector<std::string> texts;
  for (const CommandId& id : ids) texts.push_back(to_text(id));
  CHECK(std::is_sorted(ids.begin(), ids.end()));
  CHECK(std::is_sorted(texts.begin(), texts.end()));
}

TEST_CASE("a time outside of 48 bits is kept inside") {
  CHECK(milliseconds_of(make_command_id(-1, {})) == 0);
  CHECK(milliseconds_of(make_command_id(std::int64_t{1} << 50, {})) == (std::int64_t{1} << 48) - 1);
}

TEST_CASE("a text that is not exactly an id is none") {
  const std::string good = to_text(record_test::command(0));
  CHECK(parse_command_id(good).has_value());
  CHECK_FALSE(parse_command_id("").has_value());
  CHECK_FALSE(parse_command_id(good.substr(1)).has_value());
  CHECK_FALSE(parse_command_id(good + "0").has_value());
  CHECK_FALSE(parse_command_id("8" + std::string(25, '0')).has_value());  // more than 128 bits
  for (const char c : std::string("iluoILUOAZ-_ .")) {
    CAPTURE(std::string(1, c));
    CHECK_FALSE(parse_command_id(std::string(25, '0') + c).has_value());
  }
}

TEST_CASE("a fact's id is its command and a number without ornaments") {
  const FactId id{record_test::command(7), 12};
  const std::string text = to_text(id);
  CHECK(text == to_text(id.command) + "-12");
  REQUIRE(parse_fact_id(text).has_value());
  CHECK((*parse_fact_id(text) == id));
  const std::string command = to_text(id.command);
  for (const std::string number : {"", "-", "-0", "-01", "--1", "-+1", "-1x", "- 1", "-2147483648", "1"}) {
    CAPTURE(number);
    CHECK_FALSE(parse_fact_id(command + number).has_value());
  }
  CHECK(parse_fact_id(command + "-2147483647").has_value());
}

TEST_CASE("the short name of a fact is the end of its command and its number") {
  const FactId id{make_command_id(1, {0, 0, 0, 0, 0, 0, 0, 0, 0, 1}), 3};
  CHECK(short_text(id) == "000001-3");
}
