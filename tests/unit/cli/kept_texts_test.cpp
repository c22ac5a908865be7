// Texts that wait for their turn come back as they went, whether memory holds them or a file.
#include "kept_texts.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "service/base.h"
#include "support/temporary_folder.h"

namespace {

std::vector<std::string> texts_of_many_sizes() {
  std::mt19937 dice(7);
  std::vector<std::string> texts;
  for (int i = 0; i < 500; ++i) {
    texts.emplace_back(i % 7 == 0 ? 0 : dice() % 90, static_cast<char>('a' + i % 26));
    texts.back() += std::to_string(i);
  }
  texts.emplace_back();  // nothing at all
  texts.emplace_back(5000, 'x');
  return texts;
}

}  // namespace

TEST_CASE("texts come back in any order") {
  const test::TemporaryFolder folder;
  const auto texts = texts_of_many_sizes();
  for (const std::size_t most :
       {std::size_t{0}, std::size_t{1}, std::size_t{100}, std::size_t{4096}, std::size_t{1} << 20U}) {
    cli::KeptTexts kept(folder.path(), most);
    std::vector<cli::KeptTexts::Place> places;
    for (const std::string& text : texts) places.push_back(kept.add(text));
    for (std::size_t i = texts.size(); i-- > 0;) CHECK(kept.at(places[i]) == texts[i]);
    // And what comes after some were read.
    const auto later = kept.add("later");
    CHECK(kept.at(places[3]) == texts[3]);
    CHECK(kept.at(later) == "later");
    CHECK(std::filesystem::is_empty(folder.path()));
  }
}

TEST_CASE("where the file cannot be made, memory is enough or it is said") {
  const test::TemporaryFolder folder;
  const auto nowhere = folder.path() / "nowhere";
  cli::KeptTexts little(nowhere, 100);
  const auto place = little.add("little");
  CHECK(little.at(place) == "little");
  little.add(std::string(90, 'x'));
  try {
    little.add(std::string(90, 'y'));
    FAIL("it fits nowhere");
  } catch (const service::Failure& failure) {
    CHECK(failure.kind() == service::FailureKind::io);
    CHECK(failure.diagnostics().front().message.find(nowhere.string()) != std::string::npos);
    CHECK(failure.diagnostics().front().hint.find("TMPDIR") != std::string::npos);
  }
  cli::KeptTexts all(std::nullopt, 100);  // in memory, whatever there is
  for (int i = 0; i < 100; ++i) all.add(std::string(90, 'z'));
  CHECK(all.at(all.add("end")) == "end");
}
