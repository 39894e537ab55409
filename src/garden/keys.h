// Reading the figures of a resolved entry, with the schema's defaults. For the garden room alone.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "garden/garden.h"
#include "garden/schema.h"

namespace spadework::garden {

/// Where the document's points are.
using PointMap = std::map<std::string, Vec2, std::less<>>;

class Keys {
 public:
  Keys(const Entry& entry, const PointMap& points)
      : table_(entry.table), record_(&entry.fields), points_(&points) {}
  Keys(std::string table, const Record& record, const PointMap& points)
      : table_(std::move(table)), record_(&record), points_(&points) {}

  [[nodiscard]] bool has(std::string_view key) const;
  [[nodiscard]] std::optional<double> number(std::string_view key) const;
  /// The figure, or the schema's default.
  [[nodiscard]] double number_or_default(std::string_view key) const;
  [[nodiscard]] std::optional<Length> length(std::string_view key) const;
  [[nodiscard]] Length needed_length(std::string_view key) const;
  [[nodiscard]] std::string text(std::string_view key, std::string_view otherwise = {}) const;
  [[nodiscard]] bool yes(std::string_view key) const;
  [[nodiscard]] Vec2 place(std::string_view key) const;
  [[nodiscard]] std::vector<Vec2> places(std::string_view key) const;
  /// One text or a list of them.
  [[nodiscard]] std::vector<std::string> texts(std::string_view key) const;
  [[nodiscard]] Vec2 size(std::string_view key) const;
  [[nodiscard]] const Record* record(std::string_view key) const;
  [[nodiscard]] const List* list(std::string_view key) const;

 private:
  [[nodiscard]] const Value* find(std::string_view key) const;
  std::string table_;
  const Record* record_;
  const PointMap* points_;
};

/// The place that a value names: [x, y] or a point's id.
[[nodiscard]] Vec2 place_of(const Value& value, const PointMap& points);

}  // namespace spadework::garden
