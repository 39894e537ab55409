// What cannot be true of a document though each key by itself is fine. For the document room alone.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "document/entries.h"
#include "document/reading.h"
#include "geometry/vec.h"

namespace spadework::document {

/// A document as far as it has been read.
struct Checked {
  const garden::Draft& draft;
  const Names& names;
  std::size_t first;  // the entry of `draft` that belongs to the first of the names' sources
  std::vector<std::vector<std::string>> faulty;  // by entry: keys that are there, but wrong
};
/// Everything below.
void check_document(Reading& reading, const Checked& document);

/// An entry whose keys are held against each other.
struct Keys {
  std::string table;  // a changed thing's own
  std::string label;
  TextPlace where;
  const Record& fields;
  const std::vector<std::string>& faulty;  // there, but wrong by themselves
};
/// check_rules.cpp
void check_rules(Problems& problems, const Keys& keys);

/// Changed things: their keys against each other once they are changed (check_changes.cpp).
void check_changes(Reading& reading, const Checked& document);

/// Ids that must be there, schemes, what a survey names, months (check_names.cpp).
void check_names(Reading& reading, const garden::Draft& draft, const Names& names);

/// Where points are, as far as the document says it outright; points by tape are not among them.
using PointPlaces = std::unordered_map<std::string, geometry::Vec2>;
/// Lines, outlines and spots (check_places.cpp).
void check_places(Reading& reading, const garden::Draft& draft, const Names& names);

}  // namespace spadework::document
