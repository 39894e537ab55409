// Every figure that a person can see explains itself: what it is, how it was found, from what, by
// whose authority, and how sure it is. `spadework why` prints the chain.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spadework {

/// How sure a figure is.
enum class Standing {
  kMeasured,    // given in the document as measured
  kGuessed,     // given in the document and marked as guessed
  kAssumed,     // not given: the document's stated default
  kPublished,   // read in its source
  kSecondHand,  // read in a reproduction or quotation of its source
  kFromMemory,  // common knowledge of the trade, no document checked
  kDerived,     // computed from others; as sure as they are
};

[[nodiscard]] std::string_view standing_name(Standing standing);  // "measured", …
/// The same as a person would say it: "from memory, not checked", …
[[nodiscard]] std::string_view standing_says(Standing standing);

struct Trace {
  std::string name;   // "sun hours of upper-east in June", "garden.latitude_deg"
  std::string value;  // with its unit, as shown: "6.4 h a day"
  double number = 0;  // unrounded, in the unit of `unit`
  bool has_number = false;
  std::string unit;    // "h", "m", "deg", …
  std::string method;  // one or two sentences; empty for what was given
  std::string where;   // `garden.toml:12:1` for what the document says
  std::vector<Trace> inputs;
  std::vector<std::string> sources;  // keys of data/sources.toml
  Standing standing = Standing::kDerived;
};

}  // namespace spadework
