// Names that are nearly right, text that is not quite text, and the one kind of failure.
#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

#include "service/base.h"
#include "support/print.h"

using service::cleaned;
using service::counted;
using service::did_you_mean;
using service::first_bad_utf8;
using service::nearest;

namespace {

const std::vector<std::string> tasks = {"engine-oil", "engine-belt", "air-primary", "air-safety", "coolant"};

bool well_formed(std::string_view text) { return !first_bad_utf8(text).has_value(); }

}  // namespace

TEST_CASE("a name with one slip finds the name that was meant") {
  for (const std::string_view slip : {"engine-oli", "engine-oi", "engine-oill", "engineoil", "emgine-oil"}) {
    CAPTURE(slip);
    const auto found = nearest(slip, tasks);
    REQUIRE_FALSE(found.empty());
    CHECK(found.front() == "engine-oil");
  }
}

TEST_CASE("the most similar name comes first and there are at most three") {
  const std::vector<std::string> pumps = {"pump-33", "pump-3x", "pump-3", "pump-4", "pump-5", "pump-6"};
  const auto found = nearest("pump-3", pumps);
  REQUIRE_FALSE(found.empty());
  CHECK(found.front() == "pump-3");
  CHECK(found.size() <= 3);
  const auto near_four = nearest("pmp-4", pumps);
  REQUIRE_FALSE(near_four.empty());
  CHECK(near_four.front() == "pump-4");
  CHECK(near_four.size() <= 3);
}

TEST_CASE("nothing is near a word that is nothing like any name") {
  CHECK(nearest("windscreen", tasks).empty());
  CHECK(nearest("xyz", tasks).empty());
  CHECK(nearest("engine-oil", {}).empty());
  CHECK(did_you_mean("windscreen", tasks).empty());
}

TEST_CASE("the question names what was perhaps meant") {
  CHECK(did_you_mean("coolnt", tasks) == "did you mean `coolant`?");
  const std::vector<std::string> two = {"left", "lift"};
  CHECK(did_you_mean("left", std::vector<std::string>{"lift"}) == "did you mean `lift`?");
  const std::string asked = did_you_mean("lft", two);
  CHECK((asked == "did you mean `left` or `lift`?" || asked == "did you mean `lift` or `left`?"));
}

TEST_CASE("of a name that is not there the nearest are said, else all where they are few, else how many there are") {
  using service::names_instead;
  using service::nearest_or;
  CHECK(nearest_or("coolnt", tasks, "look it up") == "did you mean `coolant`?");
  CHECK(nearest_or("windscreen", tasks, "look it up") == "look it up");
  CHECK(names_instead("coolnt", tasks, "there are none") == "did you mean `coolant`?");
  CHECK(names_instead("windscreen", tasks, "there are none") ==
        "there are: engine-oil, engine-belt, air-primary, air-safety, coolant");
  CHECK(names_instead("windscreen", std::vector<std::string>(20, "x"), "").starts_with("there are: x, x"));
  CHECK(names_instead("windscreen", std::vector<std::string>(21, "x"), "") ==
        "there are 21; the fleet files list them");
  CHECK(names_instead("windscreen", {}, "there are none") == "there are none");
  // Those with a word of it stand before all others, of which there may be many.
  CHECK(names_instead("Air filter", tasks, "") == "the nearest are: air-primary, air-safety; there are 5 in all");
  CHECK(names_instead("filter/air", tasks, "") == "the nearest are: air-primary, air-safety; there are 5 in all");
}

TEST_CASE("a name that stands there twice is said once") {
  const std::vector<std::string> names{"leak", "leak", "leaf"};
  CHECK(service::did_you_mean("leek", names) == "did you mean `leak` or `leaf`?");
}

TEST_CASE("a name is known by its words, whatever its case, its blanks and its hyphens") {
  const std::vector<std::string> names{"brake-pull", "leak", "Gap", "gap", "oil heat"};
  const auto written = [&](std::string_view name) { return service::name_written(name, names).value_or("none"); };
  CHECK(written("brake-pull") == "brake-pull");
  CHECK(written("Brake  pull ") == "brake-pull");
  CHECK(written("LEAK") == "leak");
  CHECK(written("Oil-Heat") == "oil heat");
  CHECK(written("gap") == "gap");
  CHECK(written("GAP") == "none");  // there are two
  CHECK(written("brakepull") == "none");
  CHECK(written("") == "none");
  CHECK(service::folded_words("Long pedal-on  the left").size() == 5);
}

TEST_CASE("a part of a name is nearer than another short word") {
  const std::vector<std::string> names{"air", "engine-oil", "oil-cooler", "coil"};
  CHECK(did_you_mean("oil", names) == "did you mean `engine-oil`, `oil-cooler` or `coil`?");
}

TEST_CASE("one takes the singular and all else the plural") {
  CHECK(counted(1, "day", "days") == "1 day");
  CHECK(counted(2, "day", "days") == "2 days");
  CHECK(counted(0, "machine", "machines") == "0 machines");
  CHECK(counted(21, "day", "days") == "21 days");
}

TEST_CASE("well-formed text is well-formed") {
  for (const std::string_view text : {"", "plain", "Öl wechseln", "日本", "😀", "\xf4\x8f\xbf\xbf", "\xee\x80\x80"}) {
    CHECK(well_formed(text));
  }
  CHECK(well_formed(std::string_view("a\0b", 3)));
}

TEST_CASE("the first byte that is no text is found") {
  CHECK(first_bad_utf8("ab\xff").value_or(99) == 2);
  CHECK(first_bad_utf8("\x80").value_or(99) == 0);
  CHECK(first_bad_utf8("\xc3\xa9\xfe").value_or(99) == 2);
  CHECK(first_bad_utf8("good, then \xc0\xaf").value_or(99) == 11);
}

TEST_CASE("overlong forms, surrogates, numbers past the last and cut-off characters are no text") {
  for (const std::string_view text : {"\xc0\x80", "\xc1\xbf", "\xe0\x80\xaf", "\xe0\x9f\xbf", "\xf0\x80\x80\xaf",
                                      "\xf0\x8f\xbf\xbf", "\xed\xa0\x80", "\xed\xbf\xbf", "\xf4\x90\x80\x80",
                                      "\xf5\x80\x80\x80", "a\xc3", "a\xe2\x82", "a\xf0\x9f\x98", "\xe2\x28\xa1"}) {
    CHECK_FALSE(well_formed(text));
  }
}

TEST_CASE("plain text is shown as it is") {
  for (const std::string_view text : {"", "Change oil", "Öl — 日本 😀", "a`b\"c\\d", "50 % ½"}) {
    CHECK(cleaned(text) == std::string(text));
  }
}

TEST_CASE("nothing that is shown can steer a terminal") {
  for (int code = 0; code < 0x20; ++code) {
    const std::string control(1, static_cast<char>(code));
    CAPTURE(code);
    const std::string shown = cleaned("a" + control + "b");
    CHECK(shown.find(control) == std::string::npos);
    CHECK(shown.front() == 'a');
    CHECK(shown.back() == 'b');
  }
  CHECK(cleaned("a\x7f"
                "b")
            .find('\x7f') == std::string::npos);
  // C1, as UTF-8: U+0080 to U+009F.
  for (int code = 0x80; code <= 0x9f; ++code) {
    const std::string control = {'\xc2', static_cast<char>(code)};
    CAPTURE(code);
    CHECK(cleaned("a" + control + "b").find(control) == std::string::npos);
  }
}

TEST_CASE("nothing that is shown can turn the direction of writing over") {
  for (const std::string_view turn : {"\xe2\x80\xad", "\xe2\x80\xae"}) {  // U+202D, U+202E
    const std::string text = "a" + std::string(turn) + "b";
    CHECK(cleaned(text).find(turn) == std::string::npos);
  }
}

TEST_CASE("a failure carries its kind and all that is wrong") {
  const service::Failure one(service::FailureKind::not_found,
                             service::Diagnostic{"no-record", "there is no record", "make one"});
  CHECK(static_cast<int>(one.kind()) == 66);
  REQUIRE(one.diagnostics().size() == 1);
  CHECK(one.diagnostics().front().code == "no-record");
  CHECK(std::string(one.what()).find("there is no record") != std::string::npos);
  const service::Failure two(service::FailureKind::bad_fleet, std::vector{service::Diagnostic{"a", "first", ""},
                                                                          service::Diagnostic{"b", "second", ""}});
  CHECK(static_cast<int>(two.kind()) == 78);
  CHECK(two.diagnostics().size() == 2);
}

TEST_CASE("Latin letters with marks have plain ones, and others stay") {
  CHECK(service::in_plain_letters("M\u00e4hdrescher F\u00dcNF, Stra\u00dfe") == "maehdrescher fuenf, strasse");
  CHECK(service::in_plain_letters("\u00c9pandeur \u00e0 c\u0153ur, fran\u00e7ais, ma\u00f1ana") ==
        "epandeur a coeur, francais, manana");
  CHECK(service::in_plain_letters("\u0141\u00f3d\u017a \u00c5s \u00d8re \u0218i") == "lodz aas oere si");
  CHECK(service::in_plain_letters("u\u0308ber e\u0301te\u0301") == "ueber ete");  // marks as letters of their own
  CHECK(service::in_plain_letters("\u0414 \u4e2d 3") == "\u0414 \u4e2d 3");
  CHECK(service::in_plain_letters("a\xff"
                                  "B") ==
        "a\xff"
        "b");
  CHECK(service::as_name("Pump No. 2 ") == "pump-no-2");
  CHECK(service::as_name("\u0414").empty());
  CHECK(service::is_name("pump-2"));
  CHECK_FALSE(service::is_name("Pump 2"));
}
