#include "document/syntax_tree.h"

#include <charconv>

namespace spadework::document {

SyntaxTree::SyntaxTree(const TomlText& cut) : cut_(cut), root_(make(nullptr)), section_(root_) {
  for (std::size_t i = 0; i < cut.statements.size(); ++i) {
    if (cut.statements[i].form == Statement::Form::kPair) {
      add_pair(i);
    } else {
      add_header(i);
    }
  }
}

SyntaxNode* SyntaxTree::make(SyntaxNode* parent) {
  nodes_.emplace_back();
  nodes_.back().parent = parent;
  return &nodes_.back();
}

/// The child of that name, made if there is none; of a list, that of its last item.
SyntaxNode* SyntaxTree::named(SyntaxNode& node, const std::string& name) {
  SyntaxNode& table = node.list && !node.items.empty() ? *node.items.back() : node;
  const auto [it, fresh] = table.children.emplace(name, nullptr);
  if (fresh) it->second = make(&table);
  return it->second;
}

void SyntaxTree::add_header(std::size_t index) {
  const Statement& statement = cut_.statements[index];
  SyntaxNode* node = root_;
  for (const KeyPart& part : statement.key) node = named(*node, part.name);
  if (statement.form == Statement::Form::kTableList) {
    node->list = true;
    SyntaxNode* item = make(node);
    item->place_in_list = node->items.size();
    node->items.push_back(item);
    node = item;
  }
  node->header = index;
  section_ = node;
  for (SyntaxNode* up = node; up != nullptr; up = up->parent) up->statements.push_back(index);
}

void SyntaxTree::add_pair(std::size_t index) {
  const PairSyntax& pair = cut_.statements[index].pair;
  SyntaxNode* node = section_;
  for (std::size_t k = 0; k < pair.key.size(); ++k) {
    node = named(*node, pair.key[k].name);
    node->through.push_back({index, nullptr, 0, k + 1});
  }
  node->value = &pair.value;
  for (SyntaxNode* up = node; up != nullptr; up = up->parent) up->statements.push_back(index);
}

void SyntaxTree::expand(SyntaxNode& node) {
  node.expanded = true;
  node.list = node.value->form == ValueSyntax::Form::kList;
  for (const ValueSyntax& item : node.value->items) {
    SyntaxNode* made = make(&node);
    made->value = &item;
    made->place_in_list = node.items.size();
    node.items.push_back(made);
  }
  for (std::size_t i = 0; i < node.value->pairs.size(); ++i) {
    const PairSyntax& pair = node.value->pairs[i];
    SyntaxNode* inner = &node;
    for (std::size_t k = 0; k < pair.key.size(); ++k) {
      inner = named(*inner, pair.key[k].name);
      inner->through.push_back({kNoStatement, node.value, i, k + 1});
    }
    inner->value = &pair.value;
  }
}

SyntaxNode* SyntaxTree::child(SyntaxNode& node, const std::string& name) {
  if (node.value != nullptr && !node.expanded) expand(node);
  if (node.list) {
    std::size_t index = 0;
    const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), index);
    const bool whole = error == std::errc() && end == name.data() + name.size();
    return whole && index < node.items.size() ? node.items[index] : nullptr;
  }
  const auto found = node.children.find(name);
  return found == node.children.end() ? nullptr : found->second;
}

}  // namespace spadework::document
