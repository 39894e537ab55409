// The tables, lists and keys of a cut text, each with the pieces that make it. For the patcher
// alone.
#pragma once

#include <deque>
#include <map>
#include <string>
#include <vector>

#include "document/toml_text.h"

namespace spadework::document {

inline constexpr std::size_t kNoStatement = static_cast<std::size_t>(-1);

/// A pair whose key leads to or through a node.
struct Through {
  std::size_t statement = kNoStatement;  // a pair on lines of its own …
  const ValueSyntax* table = nullptr;    // … or one of an inline table
  std::size_t pair = 0;                  // which pair of the inline table
  std::size_t parts = 0;                 // how many parts of its key lead to the node
};

struct SyntaxNode {
  bool list = false;
  const ValueSyntax* value = nullptr;  // when it is written as one value
  bool expanded = false;               // whether a value's own parts are nodes already
  std::size_t header = kNoStatement;   // `[table]`, or `[[table]]` for one item of a list
  std::vector<Through> through;
  std::vector<std::size_t> statements;  // of its sections and dotted keys, those within included
  std::map<std::string, SyntaxNode*, std::less<>> children;
  std::vector<SyntaxNode*> items;
  SyntaxNode* parent = nullptr;
  std::size_t place_in_list = 0;
};

class SyntaxTree {
 public:
  /// `cut` must outlive the tree.
  explicit SyntaxTree(const TomlText& cut);
  [[nodiscard]] SyntaxNode& root() { return *root_; }
  /// The child of a table or the item of a list, or nothing.
  [[nodiscard]] SyntaxNode* child(SyntaxNode& node, const std::string& name);

 private:
  SyntaxNode* make(SyntaxNode* parent);
  SyntaxNode* named(SyntaxNode& node, const std::string& name);
  void add_header(std::size_t index);
  void add_pair(std::size_t index);
  void expand(SyntaxNode& node);

  const TomlText& cut_;
  std::deque<SyntaxNode> nodes_;
  SyntaxNode* root_;
  SyntaxNode* section_;
};

}  // namespace spadework::document
