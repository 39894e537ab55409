// What the tests of this room share.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "document/known_words.h"
#include "document/patch.h"
#include "document/reader.h"
#include "facts/facts.h"

namespace spadework::document {

/// A small catalogue of the tests' own.
inline KnownWords test_words() {
  return known_words(
      {{"tree", {"medlar", "oak", "apple", "silver birch"}},
       {"barrier", {"stone", "brick", "close board", "hawthorn hedge"}},
       {"support", {"arch", "obelisk", "trellis", "wires", "wigwam", "cage"}},
       {"cover", {"frame", "cloche", "fleece", "mesh", "net", "glasshouse"}},
       {"crop", {"pea", "gooseberry", "potato", "lettuce", "broad bean"}},
       {"texture", {"sandy loam", "loam", "clay"}},
       {"surface", {"gravel", "wood chips", "paving"}},
       {"treatment", {"lawn", "sheet mulch", "meadow", "play", "paving"}},
       {"patch", {"bindweed", "couch", "horsetail", "clubroot", "rubble", "wet", "shallow"}},
       {"roof", {"slate", "tile"}},
       {"service", {"electric", "gas", "water", "drain", "cable", "unknown"}},
       {"family", {"brassica", "legume", "allium"}}});
}

/// A document that reads without problems, to be added to.
inline constexpr std::string_view kHead = R"(format = 1
[garden]
title = "Test"
latitude_deg = 48
longitude_deg = -4
time_zone = "Europe/Paris"
)";

inline std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

/// The words of the catalogue that comes with the program.
inline KnownWords shipped_words() {
  static const facts::Catalogue catalogue = [] {
    const auto data = [](const char* name) {
      return file_text(std::string(SPADEWORK_SOURCE_DIR) + "/data/" + name);
    };
    return facts::read_catalogue({data("sources.toml"), data("trees.toml"), data("barriers.toml"),
                                  data("supports.toml"), data("covers.toml"), data("crops.toml"),
                                  data("vocabulary.toml")})
        .value();
  }();
  KnownWords words;
  words.knows = [](std::string_view list, std::string_view word) {
    return catalogue.knows(list, word);
  };
  words.words_of = [](std::string_view list) { return catalogue.names_of(list); };
  return words;
}

inline std::vector<std::filesystem::path> example_gardens() {
  std::vector<std::filesystem::path> out;
  const std::filesystem::path folder = std::filesystem::path(SPADEWORK_SOURCE_DIR) / "examples";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".toml") out.push_back(entry.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

inline ReadDocument read_test(std::string_view text) {
  return read_document(text, "garden.toml", test_words());
}

inline std::string problems_text(const ReadDocument& read) {
  std::string out;
  for (const Error& error : read.problems) {
    out += error.where + " " + std::string(code_name(error.code)) + " | " + error.message + " | " +
           error.hint + "\n";
  }
  return out;
}

/// A text with edits, which leave it without problems.
inline std::string after(const std::string& text, const Result<std::vector<Edit>>& edits) {
  EXPECT_TRUE(edits.has_value()) << edits.error().message;
  auto out = patch(text, *edits);
  EXPECT_TRUE(out.has_value()) << out.error().message;
  EXPECT_TRUE(read_test(*out).problems.empty());
  return *out;
}

}  // namespace spadework::document
