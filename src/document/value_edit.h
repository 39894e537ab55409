// A value that is written over several lines becomes another one: what is the same in both keeps
// its line, its remark and its figures as they were typed. For the patcher alone.
#pragma once

#include <string>

#include "document/text_edit.h"
#include "document/toml_tree.h"

namespace spadework::document {

/// A value as it is written, and what it means.
struct WrittenValue {
  std::string_view text;  // in which the syntax has its places
  const ValueSyntax* syntax = nullptr;
  const TomlNode* means = nullptr;
};

/// Makes `was`, which stands in the text that is edited, `now`.
void change_value(TextEdit& edit, const WrittenValue& was, const WrittenValue& now);

}  // namespace spadework::document
