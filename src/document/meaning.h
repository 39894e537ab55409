// What a text means, or where it is no TOML. For the document room alone.
#pragma once

#include "document/source.h"
#include "document/toml_tree.h"

namespace spadework::document {

struct Meaning {
  tl::expected<TomlNode, SyntaxError> tree;
};

/// Gives a text the meaning that it was found to have.
class Patched {
 public:
  static Source source(std::string text, TomlNode tree);
};

}  // namespace spadework::document
