// Texts that wait for their turn come back as they went, whether memory holds them or a file.
#include "kept_texts.h"

#include <doctest/doctest.h>
#include <sys/resource.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <optional>
#include <random>
#include <string>
#include <vector>

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

TEST_CASE("where there is no room for a file, texts stay in memory") {
  const test::TemporaryFolder folder;
  std::ofstream(folder / "file") << "x";
  for (const auto& nowhere :
       {std::optional<std::filesystem::path>{}, std::optional{folder / "nowhere"}, std::optional{folder / "file"}}) {
    cli::KeptTexts kept(nowhere, 100);
    std::vector<cli::KeptTexts::Place> places;
    for (char c = 'a'; c <= 'z'; ++c) places.push_back(kept.add(std::string(90, c)));
    for (char c = 'a'; c <= 'z'; ++c) CHECK(kept.at(places[static_cast<std::size_t>(c - 'a')]) == std::string(90, c));
  }
}

TEST_CASE("where a file takes no more, the rest stays in memory") {
  const test::TemporaryFolder folder;
  struct rlimit before {};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
  auto* const handler = std::signal(SIGXFSZ, SIG_IGN);
  struct rlimit little = before;
  little.rlim_cur = 1050;  // in the middle of a text
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &little) == 0);
  cli::KeptTexts kept(folder.path(), 100);
  std::vector<cli::KeptTexts::Place> places;
  for (char c = 'a'; c <= 'z'; ++c) places.push_back(kept.add(std::string(90, c)));
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &before) == 0);
  std::signal(SIGXFSZ, handler);
  for (char c = 'a'; c <= 'z'; ++c) CHECK(kept.at(places[static_cast<std::size_t>(c - 'a')]) == std::string(90, c));
}
