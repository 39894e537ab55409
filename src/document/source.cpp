#include "document/source.h"

#include "document/meaning.h"

namespace spadework::document {

Source::Source(std::string text, std::shared_ptr<const Meaning> meaning)
    : text_(std::make_shared<const std::string>(std::move(text))), meaning_(std::move(meaning)) {}

Source::Source(std::string text)
    : text_(std::make_shared<const std::string>(std::move(text))),
      meaning_(std::make_shared<const Meaning>(Meaning{read_toml(*text_)})) {}

Source Patched::source(std::string text, TomlNode tree) {
  return Source(std::move(text), std::make_shared<const Meaning>(Meaning{std::move(tree)}));
}

}  // namespace spadework::document
