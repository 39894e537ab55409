// Values that the app sends, as the document writes them. For the server room alone.
#pragma once

#include <string>

#include "base/result.h"
#include "garden/entry.h"
#include "garden/schema.h"
#include "server/answers.h"

namespace spadework::server {

/// JSON values as TOML. A number is in the document's own units, a figure typed as text in those of
/// the garden, in parts of lists and records too. Where people type feet, a place that is so many
/// feet and inches is written in them.
class TomlOf {
 public:
  explicit TomlOf(const garden::Draft& draft);

  /// In:     a value for a key; `known` tells what its words are to be; `was` is what the document
  ///         has now: figures that stay are written as they were typed, records in their order.
  /// Errors: those of `figure_toml` and `date_toml`, and kWrongType for what is no figure, with the
  /// part that it is of: "/mix/1/share".
  [[nodiscard]] Result<std::string> key(const std::string& name, const Json& json,
                                        const garden::KeySchema* known,
                                        const garden::Value* was = nullptr) const;

 private:
  using Type = garden::TypeSchema;
  using Value = garden::Value;
  [[nodiscard]] Result<std::string> value(const Json& json, const Type* type, const Value* was,
                                          bool is_lain = false) const;
  [[nodiscard]] Result<std::string> text(const std::string& text, const Type* type) const;
  [[nodiscard]] Result<std::string> list(const Json& json, const Type* type,
                                         const Value* was) const;
  [[nodiscard]] Result<std::string> record(const Json& json, const Type* type,
                                           const Value* was) const;

  bool imperial_ = false;
};

}  // namespace spadework::server
