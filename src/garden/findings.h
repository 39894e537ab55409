// Findings: plain sentences of judgement on how the garden fits together. They never change the
// exit status: the document is right, the garden wants a look.
#pragma once

#include <string>
#include <vector>

#include "base/base.h"

namespace spadework::facts {
struct Catalogue;
}

namespace spadework::garden {

enum class Grade { kMust, kShould, kNote };              // worst first
[[nodiscard]] std::string_view grade_name(Grade grade);  // "must", "should", "note"

struct Finding {
  Grade grade = Grade::kNote;
  std::vector<std::string> about;  // ids
  std::string says;                // one plain sentence with its numbers
  std::vector<Trace> numbers;
  std::vector<std::string> sources;  // keys of data/sources.toml
  std::vector<std::string> mend;     // what would mend it
};

struct Garden;

/// What overlaps that cannot: beds, buildings, objects, tanks and seats, walls that run through
/// them, stems within them or in a path, beds over paths or outside the boundary. What is planted
/// in a bed, or stands there to carry or cover plants, may be there. Within 5 cm things touch.
/// In:  `catalogue`: which lines are hedges. The units of the sentences.
/// Out: in the order worst first, then by id.
[[nodiscard]] std::vector<Finding> layout_findings(const Garden& garden,
                                                   const facts::Catalogue& catalogue,
                                                   Units units = Units::kMetric);

/// Sorts worst first, then by what they are about.
void sort_findings(std::vector<Finding>& findings);

}  // namespace spadework::garden
