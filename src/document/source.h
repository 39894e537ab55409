// A document's text with what it says as TOML: read once, however often it is edited and asked.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "document/patch.h"
#include "document/reader.h"

namespace spadework::document {

struct Meaning;

class Source {
 public:
  /// Reads it. What is wrong with it is told by those that take it.
  explicit Source(std::string text);
  [[nodiscard]] const std::string& text() const { return *text_; }
  [[nodiscard]] const Meaning& meaning() const { return *meaning_; }

 private:
  friend class Patched;
  Source(std::string text, std::shared_ptr<const Meaning> meaning);

  // Never altered: copies share them.
  std::shared_ptr<const std::string> text_;
  std::shared_ptr<const Meaning> meaning_;
};

/// As read_document() and patch() with texts, which are these with a Source made for the purpose.
[[nodiscard]] ReadDocument read_document(const Source& source, std::string file,
                                         const KnownWords& known);
[[nodiscard]] Result<Source> patch(const Source& source, const std::vector<Edit>& edits);

}  // namespace spadework::document
