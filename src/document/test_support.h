// What the tests of this room share.
#pragma once

#include <fstream>
#include <sstream>
#include <string>

#include "document/known_words.h"
#include "document/reader.h"

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

inline std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

inline std::string problems_text(const ReadDocument& read) {
  std::string out;
  for (const Error& error : read.problems) {
    out += error.where + " " + std::string(code_name(error.code)) + " | " + error.message + " | " +
           error.hint + "\n";
  }
  return out;
}

}  // namespace spadework::document
