// Any bytes as a garden document: they are read; if nothing is wrong with them every scheme is
// resolved; and they are edited, after which they must read back.
#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>

#include "document/document.h"
#include "document/toml_tree.h"
#include "fuzz/claim.h"
#include "garden/garden.h"
#include "garden/schema.h"

namespace spadework::document {
namespace {

const KnownWords& few_words() {
  static const KnownWords words = known_words({{"tree", {"medlar", "oak"}},
                                               {"barrier", {"stone", "close board"}},
                                               {"support", {"arch", "obelisk", "trellis"}},
                                               {"cover", {"frame", "net"}},
                                               {"crop", {"pea", "gooseberry"}},
                                               {"texture", {"loam", "clay"}},
                                               {"surface", {"gravel"}},
                                               {"treatment", {"lawn", "sheet mulch"}},
                                               {"patch", {"wet", "bindweed"}},
                                               {"family", {"legume"}},
                                               {"service", {"gas", "unknown"}}});
  return words;
}

/// Numbers taken from the input's end, so that it decides which key is edited and how.
class Choices {
 public:
  explicit Choices(std::string_view bytes) : bytes_(bytes) {}
  std::size_t below(std::size_t n) {
    if (n == 0) return 0;
    std::size_t out = 0;
    for (int i = 0; i < 2 && !bytes_.empty(); ++i) {
      out = out * 256 + static_cast<unsigned char>(bytes_.back());
      bytes_.remove_suffix(1);
    }
    return out % n;
  }

 private:
  std::string_view bytes_;
};

void claim_of_problems(const ReadDocument& read) {
  for (const Error& error : read.problems) {
    claim(error.where.rfind("garden.toml:", 0) == 0, "where begins with the file", error.where);
    claim(!error.message.empty(), "a problem says what is wrong", error.where);
    claim(!error.hint.empty(), "a problem says what would be right", error.message);
    claim(exit_status(error.code) == 1, "a problem of a document exits with 1", error.message);
  }
  claim(read.problems.size() <= kMostProblems + 1, "problems are limited", "");
}

void resolve_all(const garden::Draft& draft) {
  for (const std::string& scheme : garden::scheme_names(draft)) {
    const auto garden = garden::resolve(draft, scheme);
    claim(garden || garden.error().code == ErrorCode::kNoAnswer, "every scheme resolves", scheme);
  }
}

EntryRef reference_to(const garden::Draft& draft, std::size_t index) {
  const garden::Entry& entry = draft.entries[index];
  const garden::TableSchema* table = garden::find_table(entry.table);
  if (table->form == garden::TableForm::kNamed) return {entry.table, entry.id, 0};
  std::size_t nth = 0;
  for (std::size_t i = 0; i < index; ++i) nth += draft.entries[i].table == entry.table ? 1 : 0;
  return {entry.table, "", nth};
}

/// Edits that patch takes must give a text that reads, and setting a key must set it.
void edit(std::string_view text, const garden::Draft& draft, Choices& choices) {
  static constexpr const char* kValues[] = {"1.4",  "\"7 ft\"",  "[[0, 0], [4, 0], [4, 3]]",
                                            "true", "{ a = 1 }", "2026-03-01"};
  if (draft.entries.empty()) return;
  const std::size_t index = choices.below(draft.entries.size());
  const garden::TableSchema* table = garden::find_table(draft.entries[index].table);
  const EntryRef entry = reference_to(draft, index);
  const std::string& key = table->keys[choices.below(table->keys.size())].name;
  const std::string value = kValues[choices.below(std::size(kValues))];
  const auto set = patch(text, {SetKey{entry, {key}, value}});
  if (set) {
    claim(read_toml(*set).has_value(), "a text with a key set reads back", *set);
    const auto again = patch(*set, {SetKey{entry, {key}, value}});
    claim(again.has_value() && *again == *set, "setting a key again changes nothing", *set);
    const auto without = patch(*set, {RemoveKey{entry, {key}}});
    claim(!without || read_toml(*without).has_value(), "a text less a key reads back", *set);
  } else {
    claim(!set.error().message.empty(), "a refusal says why", key);
  }
  const auto removed = patch(text, {RemoveEntry{entry}});
  claim(!removed || read_toml(*removed).has_value(), "a text less an entry reads back",
        std::string(text));
  const auto added = patch(text, {AddEntry{"object", {{"id", "\"new\""}, {"height_m", value}}}});
  claim(!added || read_toml(*added).has_value(), "a text with one entry more reads back",
        std::string(text));
}

void fuzz(std::string_view text) {
  const ReadDocument read = read_document(text, "garden.toml", few_words());
  claim_of_problems(read);
  if (read.problems.empty()) resolve_all(read.draft);
  Choices choices(text);
  edit(text, read.draft, choices);
}

}  // namespace
}  // namespace spadework::document

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  spadework::document::fuzz({reinterpret_cast<const char*>(data), size});
  return 0;
}
