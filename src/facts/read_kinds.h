// Inside the room: from one data file to one list of kinds. Errors as `read_catalogue` has them.
#pragma once

#include "facts/data_file.h"

namespace spadework::facts {

[[nodiscard]] Result<Kinds<Source>> read_sources(const DataValue& root, const std::string& file);
[[nodiscard]] Result<Kinds<WordList>> read_vocabulary(const DataValue& root,
                                                      const std::string& file);
[[nodiscard]] Result<Kinds<TreeKind>> read_trees(FactReader& reader, const DataValue& root);
[[nodiscard]] Result<Kinds<BarrierKind>> read_barriers(FactReader& reader, const DataValue& root);
[[nodiscard]] Result<Kinds<SupportKind>> read_supports(FactReader& reader, const DataValue& root);
[[nodiscard]] Result<Kinds<SideKind>> read_sides(FactReader& reader, const DataValue& root);
[[nodiscard]] Result<Kinds<CoverKind>> read_covers(FactReader& reader, const DataValue& root);
[[nodiscard]] Result<Kinds<Crop>> read_crops(FactReader& reader, const DataValue& root);

/// What most kinds share: id, says, also.
template <class T>
T named(FactReader& reader, const DataValue& kind) {
  T made;
  made.id = kind.key;
  made.says = reader.text_or(kind, "says", spaced(kind.key));
  made.also = reader.texts(kind, "also");
  return made;
}

/// The kinds, or the reader's mistake, or that two of them share a name.
template <class T>
Result<Kinds<T>> finish(const FactReader& reader, std::vector<T> kinds) {
  if (reader.failed()) return tl::unexpected<Error>(*reader.error());
  return Kinds<T>::of(std::move(kinds), reader.file());
}

}  // namespace spadework::facts
